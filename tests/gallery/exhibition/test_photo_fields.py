"""The credit inside served pictures: exactly the name that may be shown, or not one field.

Field names: IPTC Photo Metadata Standard 2025.1; values: the PLUS vocabulary. Read by exiftool.
"""

import io
import json
import os
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from django.test import Client
from PIL import Image, ImageChops

from gallery.consent.purposes import NAME, PUBLIC_PAGES
from gallery.consent.texts import current_texts
from gallery.contributions.models import Photo
from gallery.contributions.people.guardian import answer_as_sender
from gallery.exhibition.photofields import PhotoFields, packet_of, with_fields

pytestmark = pytest.mark.django_db
FIELDS = {"Creator", "Credit", "AltTextAccessibility", "ModelReleaseStatus", "CreditLineRequired"}
Read = Callable[[bytes], dict[str, Any]]


@pytest.fixture
def read(tmp_path: Path) -> Read:
    """What exiftool finds in a JPEG's XMP, values as they are."""
    if not shutil.which("exiftool"):
        missing = "exiftool is missing: install the Debian package libimage-exiftool-perl"
        if os.environ.get("GALLERY_TESTS_NO_SKIPS"):
            pytest.fail(missing)
        pytest.skip(missing)

    def ask(jpeg: bytes) -> dict[str, Any]:
        path = tmp_path / "served.jpg"
        path.write_bytes(jpeg)
        command = ["exiftool", "-n", "-j", "-G", "-XMP:all", "-warning", path]
        told = subprocess.run(command, capture_output=True, check=True)
        (found,) = json.loads(told.stdout)
        assert not [key for key in found if "Warning" in key]
        return {key.split(":")[1]: value for key, value in found.items() if key.startswith("XMP")}

    return ask


def served(garment: Any, size: str = "large") -> Any:
    return Client().get(garment.picture(size))


def body(answer: Any) -> bytes:
    return b"".join(answer) if answer.streaming else bytes(answer.content)


NAMES = [
    "Tamsin Quillfeather",
    "Bérénice-Amélie Rosemonde Dûbois-Bénard",
    "  two spaces  inside  ".strip(),
    "<script>alert(1)</script> & \"quoted\" 'too'",
    "ניצה בן־דוד",
    "👩‍👩‍👧‍👦 and Zoë",
    "e\u0301 stays decomposed, é composed",
    "]]> &amp; &#13;",
    "x" * 400,
]


@pytest.mark.parametrize("name", NAMES)
def test_the_name_stands_in_the_file_exactly_as_it_was_given(
    garment: Any, read: Read, name: str
) -> None:
    sent = garment(allows=[PUBLIC_PAGES, NAME], credit_name=name, description="On a chair").decide()
    found = read(body(served(sent)))
    assert set(found) == FIELDS
    assert found["Creator"] == name and found["Credit"] == name
    assert found["AltTextAccessibility"] == "On a chair"


@pytest.mark.parametrize(
    ("people", "status"), [("nobody", "MR-NAP"), ("me", "MR-LMR"), ("others", "MR-LMR")]
)
def test_it_says_whether_people_are_in_the_picture(
    garment: Any, read: Read, people: str, status: str
) -> None:
    sent = garment(allows=[PUBLIC_PAGES, NAME]).decide()
    facts = {"people": people, "others_agree": True, "people_seen_at": sent.row.sent_at}
    Photo.objects.filter(pk=sent.photo.pk).update(**facts)
    found = read(body(served(sent)))
    assert found["ModelReleaseStatus"].endswith(status)
    assert found["CreditLineRequired"].endswith("CR-CAI")


def test_a_childs_picture_never_claims_a_full_release(garment: Any, read: Read) -> None:
    sent = garment(allows=[PUBLIC_PAGES, NAME]).decide()
    sent.row.photos.update(people="child", sender_is_guardian=True)
    photo = sent.row.photos.get()
    answer_as_sender(sent.row, photo, current_texts())
    found = read(body(served(sent)))
    assert found["ModelReleaseStatus"].endswith("MR-LMR")


@pytest.mark.parametrize("allows", [[PUBLIC_PAGES], [PUBLIC_PAGES, NAME]])
def test_without_a_name_that_may_be_shown_there_is_not_one_field(
    garment: Any, read: Read, allows: list[str]
) -> None:
    sent = garment(allows=allows, credit_name="" if NAME in allows else "Tamsin").decide()
    for size in ("small", "medium", "large"):
        assert read(body(served(sent, size))) == {}


def test_a_name_taken_back_is_gone_with_the_next_request_and_no_cache_keeps_it(
    garment: Any, read: Read
) -> None:
    sent = garment(allows=[PUBLIC_PAGES, NAME]).decide()
    before = served(sent)
    same = Client().get(sent.picture("large"), headers={"If-None-Match": before["ETag"]})
    sent.take_back(NAME)
    after = Client().get(sent.picture("large"), headers={"If-None-Match": before["ETag"]})
    assert (same.status_code, after.status_code) == (304, 200)
    assert read(body(after)) == {} and after["ETag"] != before["ETag"]


def test_the_pixels_and_every_other_byte_are_as_they_were(garment: Any) -> None:
    sent = garment(allows=[PUBLIC_PAGES, NAME]).decide()
    named = body(served(sent))
    sent.take_back(NAME)
    plain = body(served(sent))
    packet = packet_of(PhotoFields("Tamsin Quillfeather", "Front, worn over a shirt", False))
    assert with_fields(plain, packet) == named and b"xmpmeta" not in named
    pictures = [Image.open(io.BytesIO(one)) for one in (named, plain)]
    assert ImageChops.difference(*pictures).getbbox() is None


def test_what_no_packet_can_hold_leaves_the_fields_out() -> None:
    assert packet_of(PhotoFields("odd \ufffe sign", "", False)) == b""
    assert packet_of(PhotoFields("x", "y" * 70_000, False)) == b""
    assert with_fields(b"no jpeg", b"packet") == b"no jpeg"


def test_her_own_and_the_teachers_view_carry_nothing(garment: Any, read: Read) -> None:
    sent = garment(allows=[NAME])
    assert read(body(sent.sender().get(sent.picture("large")))) == {}
