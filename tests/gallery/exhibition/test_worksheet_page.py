"""The worksheet's pages: who may open them, what they hold, what they leave out."""

import re
from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from alterations.gauge import Gauge
from alterations.kinds import AnyAlteration, BodyLength, FreeNote, SleeveLength, YarnSwap
from alterations.records import store
from alterations.units import parse_length
from gallery.consent.purposes import NOTES, PUBLIC_PAGES
from gallery.series.models import Series

PATTERN_SHEET = "/series/ostrimane-evenings/worksheet/"
COTTON = YarnSwap(
    "Kelvarrick Cotton", Fraction(50), Fraction(95), Gauge(Fraction(19), Fraction(26))
)
LONGER_SHORTER_COTTON = (
    BodyLength(parse_length("5 cm")),
    SleeveLength(parse_length("-4 cm")),
    COTTON,
)
Maker = Callable[..., Any]


def sheet_of(made: Any) -> str:
    return f"{made.address}worksheet/"


def page_of(client: Client, address: str) -> str:
    return client.get(address).content.decode()


def in_size(made: Any, size: str, *changes: AnyAlteration, tool: str = "machine") -> Any:
    made.row.sheet = store.keep_sheet(made.series.pattern_version, size, changes, tool=tool)
    made.row.save()
    return made


@pytest.fixture
def cotton(garment: Maker) -> Any:
    """Size 3, body 5 cm longer, sleeves 4 cm shorter, in cotton of 19 × 26, shown to everybody."""
    made = garment(allows=[PUBLIC_PAGES, NOTES]).decide()
    return in_size(made, "3", *LONGER_SHORTER_COTTON)


# Body: (37.143 + 5) · 2.6 = 109.6, even 110; wrist 24.762 cm · 1.9 + 2 = 49.05, even 50, to 78.
def test_the_page_has_the_garments_numbers_and_the_patterns_beside(
    client: Client, cotton: Any
) -> None:
    page = page_of(client, sheet_of(cotton))
    assert "work 110 rows straight over 104 stitches" in page
    assert "(pattern: 104 rows, 114 stitches)" in page
    assert "every 6 rows 14 times, then 6 plain rows: from 50 to 78 stitches" in page


def test_each_piece_begins_a_sheet_with_its_drawing_and_boxes_to_tick(
    client: Client, cotton: Any
) -> None:
    page = page_of(client, sheet_of(cotton))
    assert page.count('class="sheet new-sheet"') == 4 == page.count("<svg xmlns")
    assert page.count("□") > 40 and page.count("<h1") == 1


def test_the_page_brings_no_styles_or_scripts_of_its_own(client: Client, cotton: Any) -> None:
    page = page_of(client, sheet_of(cotton))
    assert " style=" not in page and "<style" not in page and "onclick" not in page


def test_the_row_table_tells_counter_carriage_deed_and_stitches(
    client: Client, cotton: Any
) -> None:
    cells = re.findall(r"<tr><td[^>]*>□</td>(.*?)</tr>", page_of(client, sheet_of(cotton)))
    rows = [re.findall(r"<td>(.*?)</td>", row) for row in cells]
    assert ["111", "left", "bind off 11 stitches at the right edge, knit 1 row", "93"] in rows


def test_by_hand_it_tells_the_side_of_the_next_row(client: Client, garment: Maker) -> None:
    made = garment(allows=[NOTES]).decide()
    page = page_of(client, sheet_of(in_size(made, "3", tool="needles")))
    assert "right side" in page and "wrong side" in page and "Carriage" not in page


def test_where_the_numbers_may_not_be_shown_nothing_is_found(
    client: Client, garment: Maker
) -> None:
    unread, silent = garment(allows=[PUBLIC_PAGES, NOTES]), garment(allows=[PUBLIC_PAGES]).decide()
    assert [client.get(sheet_of(made)).status_code for made in (unread, silent)] == [404, 404]


def test_a_permission_taken_back_closes_it_at_once(client: Client, cotton: Any) -> None:
    cotton.take_back(NOTES)
    assert client.get(sheet_of(cotton)).status_code == 404
    assert client.get(f"{sheet_of(cotton)}?text").status_code == 404


def test_its_knitter_sees_it_before_that_and_no_cache_keeps_it(garment: Maker) -> None:
    made = garment()
    answer = made.sender().get(sheet_of(made))
    assert answer.status_code == 200 and "no-store" in answer["Cache-Control"]


def test_the_teacher_sees_it_on_the_desk(
    garment: Maker, teacher: User, desk_of: Callable[[User], Client]
) -> None:
    assert desk_of(teacher).get(sheet_of(garment())).status_code == 200


def test_a_note_stays_out_of_the_worksheet(client: Client, garment: Maker) -> None:
    made = in_size(garment(allows=[NOTES]).decide(), "3", FreeNote("<b>For my aunt Perpetua.</b>"))
    assert "Perpetua" not in page_of(client, sheet_of(made))


def test_it_can_be_kept_as_text(client: Client, cotton: Any) -> None:
    answer = client.get(f"{sheet_of(cotton)}?text")
    assert answer["Content-Type"] == "text/plain; charset=utf-8"
    assert "attachment" in answer["Content-Disposition"]
    assert answer.content.decode().startswith("Ostrimane Tunic, size 3\n")


@pytest.mark.parametrize(("asked", "found"), [("3", "3"), ("", "1"), ("99", "1"), ("<b>", "1")])
def test_the_patterns_own_worksheet_is_there_in_every_size(
    client: Client, series: Series, asked: str, found: str
) -> None:
    page = client.get(PATTERN_SHEET, {"size": asked}).content.decode()
    assert f"<h1>Ostrimane Tunic, size {found}</h1>" in page and "(pattern:" not in page


# Sizes 7 and 8 are wider than the bed: back and front in two halves each, sleeve, band.
def test_halves_have_a_sheet_each(client: Client, series: Series) -> None:
    page = page_of(client, f"{PATTERN_SHEET}?size=7")
    assert page.count('class="sheet new-sheet"') == 6 and "Back, right half" in page


def test_the_garments_page_leads_to_it_only_where_it_opens(client: Client, garment: Maker) -> None:
    told, silent = (garment(allows=[PUBLIC_PAGES, *more]).decide() for more in ([NOTES], []))
    assert sheet_of(told) in page_of(client, told.address)
    assert "worksheet" not in page_of(client, silent.address)


def test_the_patterns_numbers_lead_to_its_worksheet(client: Client, series: Series) -> None:
    assert PATTERN_SHEET in page_of(client, reverse("pattern_numbers", args=[series.slug]))


# A taper of 16 pairs cannot be worked in what 26 cm less leave.
def test_what_cannot_be_worked_is_said_in_its_piece(client: Client, garment: Maker) -> None:
    shorter = SleeveLength(parse_length("-26 cm"))
    page = page_of(client, sheet_of(in_size(garment(allows=[NOTES]).decide(), "3", shorter)))
    assert "do not fit into" in page


def test_a_worksheet_takes_few_questions_to_the_rows(client: Client, cotton: Any) -> None:
    with CaptureQueriesContext(connection) as asked:
        client.get(sheet_of(cotton))
    assert len(asked) <= 8
