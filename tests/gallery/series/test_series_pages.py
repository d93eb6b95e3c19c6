"""The short address, its code and the pattern's numbers."""

from typing import Any
from xml.etree import ElementTree

import cv2
import numpy as np
import pytest
import segno
from django.test import Client

from gallery.series.models import Series


@pytest.mark.parametrize("code", ["ostri", "OSTRI"])
def test_the_short_address_leads_to_the_call(client: Client, series: Series, code: str) -> None:
    answer = client.get(f"/go/{code}/")
    assert (answer.status_code, answer["Location"]) == (302, f"/series/{series.slug}/")


def test_the_code_is_an_svg_drawing(client: Client, series: Series) -> None:
    answer = client.get(f"/series/{series.slug}/qr.svg")
    assert answer["Content-Type"] == "image/svg+xml"
    assert ElementTree.fromstring(answer.content).tag == "{http://www.w3.org/2000/svg}svg"


def test_a_reader_that_is_not_ours_reads_the_short_address_from_the_code(settings: Any) -> None:
    # OpenCV's QR reader; the same code as the page draws (ISO/IEC 18004, level M, 4 quiet modules).
    link = f"{settings.BASE_URL}/go/ostri/"
    modules = np.array([list(row) for row in segno.make(link, error="m", micro=False).matrix])
    drawn = np.kron(np.pad(1 - modules, 4, constant_values=1), np.ones((8, 8))) * 255
    text, *_ = cv2.QRCodeDetector().detectAndDecode(drawn.astype(np.uint8))
    assert text == link


def test_the_link_starts_with_the_configured_address_whatever_the_request_says(
    client: Client, series: Series, settings: Any
) -> None:
    settings.ALLOWED_HOSTS = ["*"]
    page = client.get(f"/series/{series.slug}/", headers={"host": "evil.example"})
    assert page.context["short_address"] == f"{settings.BASE_URL}/go/ostri/"


def test_the_numbers_stand_in_tables_of_sizes(client: Client, series: Series) -> None:
    page = client.get(f"/series/{series.slug}/numbers/").content.decode()
    assert all(f'<th scope="col">{size}</th>' in page for size in "12345678")
    assert "106.7" in page and "2 × 77" in page


def test_the_pattern_file_can_be_kept(client: Client, series: Series) -> None:
    answer = client.get(f"/series/{series.slug}/pattern.toml")
    assert answer.content.decode() == series.pattern_version.text
    assert "attachment" in answer["Content-Disposition"]


@pytest.mark.parametrize("path", ["/help/", "/privacy/"])
def test_help_and_privacy_are_there_for_everybody(client: Client, db: None, path: str) -> None:
    assert client.get(path).status_code == 200
