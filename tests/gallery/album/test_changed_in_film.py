"""A knitter changes what she sent: the album and its films tell only what is approved as it is."""

from typing import Any

import pytest
from django.test import Client

from gallery import editing
from gallery.album.arrange import write
from gallery.album.film.plan import PhotoSlide
from gallery.album.gather import placed, plan_of
from gallery.album.models import Album, Film, Render, Slide
from gallery.album.pack import is_open, plan_behind
from gallery.consent.purposes import FILM, NAME
from gallery.contributions.models import Photo
from gallery.review.decide import approve_waiting, last_verdict
from tests.gallery.edits import edit, edit_photo

pytestmark = pytest.mark.django_db


class Made:
    """A photo's garment, as the edits want it."""

    def __init__(self, photo: Photo) -> None:
        self.row = photo.contribution


def approve(photo: Photo, by: Any) -> None:
    row = Made(photo).row
    row.refresh_from_db()
    approve_waiting(row, last_verdict(row), by, row.edition)


def slide_of(album: Album) -> PhotoSlide:
    [slide] = [one for one in plan_of(album).slides if isinstance(one, PhotoSlide)]
    return slide


def page_of(album: Album, teacher: Any) -> str:
    browser = Client()
    browser.force_login(teacher)
    return browser.get(f"/desk/albums/{album.public_id}/").content.decode()


def test_changed_numbers_are_not_told_until_they_are_approved(
    garment: Any, album: Any, odalys: Any
) -> None:
    photo = garment()
    made = album()
    before = slide_of(made).caption
    edit(Made(photo), size_name="5")
    waiting = slide_of(made).caption
    approve(photo, odalys)
    assert "ize 3" in before and "ize" not in waiting and "ize 5" in slide_of(made).caption


def test_a_changed_name_is_not_credited_until_it_is_approved(
    garment: Any, album: Any, odalys: Any
) -> None:
    photo = garment("Wrenna Quist")
    made = album()
    edit(Made(photo), credit_name="Wrenna Q.")
    assert slide_of(made).credit == ""
    approve(photo, odalys)
    assert slide_of(made).credit == "Wrenna Q."


def test_a_changed_description_is_told_in_neutral_words(
    garment: Any, album: Any, odalys: Any
) -> None:
    photo = garment()
    made = album()
    edit_photo(Made(photo), description="The left cuff")
    assert slide_of(made).description == "Picture 1 of this garment: finished garment"
    approve(photo, odalys)
    assert slide_of(made).description == "The left cuff"


def test_the_slide_says_what_was_changed_and_leads_to_it(
    garment: Any, album: Any, odalys: Any
) -> None:
    photo = garment()
    made = album()
    edit(Made(photo), size_name="5", credit_name="Wrenna Q.")
    page = page_of(made, odalys)
    assert "Its numbers are not told." in page and "The name you knew is gone." in page
    assert f"/desk/garments/{photo.contribution.public_id}/" in page
    approve(photo, odalys)
    assert "changed something since you looked" not in page_of(made, odalys)


def test_her_own_caption_of_old_numbers_is_set_aside_until_she_keeps_it_anew(
    garment: Any, album: Any, odalys: Any
) -> None:
    photo = garment()
    made = album()
    slide = made.slides.get(photo=photo)
    write(slide, "", "Size 3, so elegant", made.version)
    edit(Made(photo), size_name="5")
    approve(photo, odalys)
    assert "elegant" not in slide_of(made).caption
    assert "changed after you wrote your own caption" in page_of(made, odalys)
    made.refresh_from_db()
    write(Slide.objects.get(pk=slide.pk), "", "Size 5, so elegant", made.version)
    assert slide_of(made).caption == "Size 5, so elegant"


@pytest.mark.parametrize(
    "changed", [{"size_name": "5"}, {"credit_name": "Wrenna Q."}, {"credit_name": ""}]
)
def test_a_finished_film_that_tells_what_was_corrected_is_closed_for_good(
    garment: Any, album: Any, filmed: Any, odalys: Any, changed: dict[str, str]
) -> None:
    photo = garment()
    film = filmed(album()).film
    assert is_open(film)
    edit(Made(photo), **changed)
    assert not is_open(film)
    approve(photo, odalys)
    assert not is_open(film)


def test_a_film_that_tells_nothing_of_what_was_changed_opens_again_with_the_approval(
    garment: Any, album: Any, filmed: Any, odalys: Any
) -> None:
    photo = garment()
    film = filmed(album()).film
    edit(Made(photo), notes="I would do it again.")
    assert not is_open(film)  # the numbers wait with the words
    approve(photo, odalys)
    assert is_open(film)


def test_a_film_without_numbers_and_name_stays_open_whatever_they_become(
    garment: Any, album: Any, filmed: Any
) -> None:
    photo = garment(allowed=(FILM,))
    film = filmed(album()).film
    edit(Made(photo), size_name="5", credit_name="Wrenna Q.")
    assert is_open(film)


def test_a_picture_taken_out_closes_the_film_and_is_struck_out_of_it(
    garment: Any, album: Any, filmed: Any
) -> None:
    photo, other = garment("Wrenna Quist"), garment("Odo Flint")
    made = album()
    film = filmed(made).film
    version = Album.objects.get(pk=made.pk).version
    assert editing.take_out_everywhere(photo.contribution, photo.public_id)
    assert not is_open(Film.objects.get(pk=film.pk))
    assert "Wrenna" not in Render.objects.get(pk=film.render_id).plan
    assert [one.row.photo for one in placed(made) if one.row.photo] == [other]
    assert Album.objects.get(pk=made.pk).version > version


def test_an_answer_about_the_people_takes_the_slide_out_until_she_has_looked(
    garment: Any, album: Any, odalys: Any
) -> None:
    photo = garment(allowed=(FILM, NAME))
    made = album()
    edit_photo(Made(photo), people=Photo.People.ME)
    [waiting] = [one for one in placed(made) if one.row.photo]
    assert waiting.planned is None
    approve(photo, odalys)
    assert slide_of(made).credit == "Wrenna Quist"


def test_the_plan_of_a_film_knows_the_editions_it_was_made_from(
    garment: Any, album: Any, filmed: Any, odalys: Any
) -> None:
    photo = garment()
    edit(Made(photo), size_name="5")
    approve(photo, odalys)
    film = filmed(album()).film
    [slide] = [one for one in plan_behind(film).slides if isinstance(one, PhotoSlide)]
    assert slide.ref == f"{photo.public_id} #2.1" and is_open(film)
