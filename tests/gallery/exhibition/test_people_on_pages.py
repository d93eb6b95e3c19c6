"""A walk over every public page and image address: a child's picture is there after a yes only."""

from typing import Any

import pytest
from django.test import Client

from gallery.contributions.models import Contribution, Photo
from gallery.contributions.people import guardian
from gallery.contributions.people.cares import care_of
from gallery.contributions.people.cleared import cleared_photos
from gallery.contributions.pictures import SIZES

pytestmark = pytest.mark.django_db
ADDRESS = "guardian@example.org"


def says(garment: Contribution, photo: Photo, *, yes: bool) -> None:
    link = guardian.ask(garment, ADDRESS)
    care = care_of(garment, photo)
    assert guardian.answer(link, care.about, {str(one.text.pk): yes for one in care.questions})


def appearances(photo: Photo, garment: Any) -> set[str]:
    """Every public address that shows the photo or names it to somebody who is nobody."""
    sizes = [f"/pictures/{photo.public_id}/{size}.jpg" for size in (*SIZES, "original")]
    sizes.append(f"/pictures/{photo.public_id}/original")
    pages = ["/", f"/series/{garment.series.slug}/", f"/series/{garment.series.slug}/garments/"]
    pages += [garment.address, f"{garment.address}worksheet/", f"/pictures/{photo.public_id}/x"]
    pages.append(f"/pictures/{photo.public_id}/objection/")
    found = set()
    for address in (*sizes, *pages):
        answer = Client().get(address)
        content = b"".join(answer) if answer.streaming else answer.content
        is_picture = answer["Content-Type"] == "image/jpeg"
        if answer.status_code == 200 and (is_picture or photo.public_id.encode() in content):
            found.add(address)
    return found


@pytest.fixture
def of_a_child(shown: Any) -> Any:
    facts = {"people": "child", "guardian_email": ADDRESS}
    Photo.objects.filter(pk=shown.photo.pk).update(**facts)
    return shown


def test_a_childs_picture_is_nowhere_before_the_guardian_has_answered(of_a_child: Any) -> None:
    assert appearances(of_a_child.photo, of_a_child) == set()


def test_it_is_shown_after_her_yes_and_nowhere_after_her_no(of_a_child: Any) -> None:
    says(of_a_child.row, of_a_child.photo, yes=True)
    assert len(appearances(of_a_child.photo, of_a_child)) == 7  # 3 sizes, 3 pages, the objection
    says(of_a_child.row, of_a_child.photo, yes=False)
    assert appearances(of_a_child.photo, of_a_child) == set()


def test_the_numbers_of_the_garment_wait_for_nobody(of_a_child: Any) -> None:
    answer = Client().get(of_a_child.address)
    assert (answer.status_code, len(answer.context["pictures"])) == (200, 0)


def test_a_young_senders_worksheet_waits_too(shown: Any) -> None:
    Contribution.objects.filter(pk=shown.row.pk).update(is_younger=True)
    assert Client().get(f"{shown.address}worksheet/").status_code == 404


def test_an_unanswered_question_clears_for_nothing(shown: Any) -> None:
    Photo.objects.filter(pk=shown.photo.pk).update(people="")
    assert not cleared_photos("public_pages").exists()
    assert appearances(shown.photo, shown) == set()
