"""No slide, caption or pack shows a child, a young sender or an objector before there is a yes."""

from typing import Any

import pytest

from gallery.album import pack
from gallery.album.collect import collect
from gallery.album.film.plan import PhotoSlide
from gallery.album.forget import forget_all_not_allowed
from gallery.album.gather import placed, plan_of
from gallery.album.models import Album
from gallery.contributions.models import Contribution, Photo
from gallery.contributions.people import guardian
from gallery.contributions.people.cares import care_of
from gallery.contributions.people.objecting import object_to, resolve

pytestmark = pytest.mark.django_db
ADDRESS = "guardian@example.org"


def says(photo: Photo, *, yes: bool, whole: bool = False) -> None:
    """The guardian answers everything her link asks about the photo, or about the whole garment."""
    garment = Contribution.objects.get(pk=photo.contribution_id)
    link = guardian.ask(garment, ADDRESS)
    care = care_of(garment, None if whole else photo)
    said = {str(one.text.pk): yes for one in care.questions}
    assert guardian.answer(link, care.about, said)


def in_film(album: Album) -> int:
    return sum(isinstance(slide, PhotoSlide) for slide in plan_of(album).slides)


@pytest.fixture
def of_a_child(garment: Any) -> Photo:
    photo: Photo = garment()
    Photo.objects.filter(pk=photo.pk).update(people="child", guardian_email=ADDRESS)
    photo.refresh_from_db()
    return photo


def test_a_childs_picture_is_collected_only_after_the_guardians_yes(
    of_a_child: Photo, album: Any
) -> None:
    begun = album()
    came = [in_film(begun)]
    says(of_a_child, yes=False)
    came.append(collect(begun))
    says(of_a_child, yes=True)
    came.append(collect(begun))
    assert (came, in_film(begun)) == ([0, 0, 1], 1)


def test_her_no_takes_the_slide_out_and_closes_the_pack(
    of_a_child: Photo, garment: Any, album: Any, filmed: Any
) -> None:
    garment()
    says(of_a_child, yes=True)
    begun = album()
    film = filmed(begun).film
    before = (in_film(begun), pack.is_open(film))
    says(of_a_child, yes=False)
    assert (before, in_film(begun), pack.is_open(film)) == ((2, True), 1, False)
    assert "withdrawn" in [one.sign for one in placed(begun)]


def test_her_no_takes_the_cached_parts_away(of_a_child: Photo, album: Any, filmed: Any) -> None:
    says(of_a_child, yes=True)
    filmed(album())
    kept = forget_all_not_allowed()
    says(of_a_child, yes=False)
    assert (kept, forget_all_not_allowed() > 0) == (0, True)


def test_a_young_senders_picture_name_and_numbers_wait_for_the_guardian(
    garment: Any, album: Any
) -> None:
    photo = garment("Wrenna Quist")
    Contribution.objects.filter(pk=photo.contribution_id).update(
        is_younger=True, guardian_email=ADDRESS
    )
    begun = album()
    before = in_film(begun)
    says(photo, yes=True, whole=True)
    collect(begun)
    [slide] = [one for one in plan_of(begun).slides if isinstance(one, PhotoSlide)]
    assert (before, slide.credit) == (0, "Wrenna Quist")


def test_an_objection_takes_the_slide_out_until_the_teacher_lets_it_in_again(
    garment: Any, album: Any, odalys: Any
) -> None:
    photo = garment()
    begun = album()
    stood = [in_film(begun)]
    object_to(photo, "")
    stood.append(in_film(begun))
    resolve(photo, odalys, upheld=False, seen=photo.objections.get().pk)
    stood.append(in_film(begun))
    assert stood == [1, 0, 1]


def test_others_wait_for_the_teacher(garment: Any, album: Any) -> None:
    photo = garment()
    Photo.objects.filter(pk=photo.pk).update(people="others", others_agree=True)
    assert in_film(album()) == 0


def test_an_unanswered_picture_is_in_no_film(garment: Any, album: Any) -> None:
    photo = garment()
    Photo.objects.filter(pk=photo.pk).update(people="")
    assert in_film(album()) == 0
