"""The authority sheet: what was kept at publishing, and whether the ledger is whole when read."""

from dataclasses import dataclass
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client

from gallery.album import authority
from gallery.album.authority import sheet_of
from gallery.album.contents import contents_of
from gallery.album.models import Film, Slide
from gallery.consent.models import Entry
from gallery.consent.purposes import FILM, NAME, NOTES
from gallery.contributions.models import Contribution, Photo
from gallery.review.decide import approve_waiting, last_verdict
from gallery.review.models import Verdict
from tests.gallery.edits import edit, edit_photo

pytestmark = pytest.mark.django_db
OPEN, SIGN_IN, GONE = 200, 302, 404


@dataclass(frozen=True)
class Garment:
    """A garment as the edits want it."""

    row: Contribution


@pytest.fixture
def photo(garment: Any) -> Photo:
    found: Photo = garment("Wrenna Quist")
    return found


@pytest.fixture
def film(photo: Photo, album: Any, filmed: Any) -> Film:
    found: Film = filmed(album()).film
    return found


def told(desk: Client, film: Film) -> Any:
    return desk.get(f"/desk/films/{film.render.public_id}/authority.json").json()


def test_the_approvals_a_slide_rests_on_are_kept_when_the_film_is_made(
    desk: Client, film: Film, photo: Photo
) -> None:
    about = {"photo": photo.verdicts.get(), "words": Verdict.objects.get(photo=None)}
    (slide,) = told(desk, film)["slides"]
    assert {one["about"]: one["verdict"] for one in slide["approvals"]} == {
        what: verdict.pk for what, verdict in about.items()
    }
    assert {one["by"] for one in slide["approvals"]} == {"odalys"}


def test_a_later_verdict_does_not_change_what_the_film_rested_on(
    desk: Client, film: Film, photo: Photo, odalys: User
) -> None:
    before = sheet_of(film).slides[0].verdicts
    Verdict.objects.create(
        contribution=photo.contribution, photo=photo, decision="decline", by=odalys
    )
    assert sheet_of(film).slides[0].verdicts == before


def test_words_that_were_not_approved_are_not_named_as_a_ground(
    garment: Any, album: Any, filmed: Any
) -> None:
    garment(words_approved=False)
    (slide,) = sheet_of(filmed(album()).film).slides
    assert [one.about for one in slide.verdicts] == ["photo"]


def test_the_sheet_tells_each_entry_with_number_uuid_answer_actor_way_and_words(
    desk: Client, film: Film, photo: Photo
) -> None:
    (slide,) = told(desk, film)["slides"]
    (name,) = (one for one in slide["rests_on"] if one["purpose"] == NAME)
    entry = Entry.objects.get(agreement=photo.contribution.agreement, purpose=NAME)
    assert (name["entry"], name["entry_uuid"]) == (entry.seq, str(entry.uuid))
    assert (name["answer"], name["by"], name["way"]) == ("given", "sender", "form")
    assert (name["text_version"], name["sentence"]) == (1, entry.text.sentence)


def test_the_sheet_tells_when_the_film_was_asked_for_and_made(desk: Client, film: Film) -> None:
    sheet = told(desk, film)
    assert sheet["asked_at"] == film.render.requested_at.isoformat()
    assert sheet["made_at"] == film.published_at.isoformat()
    assert sheet["frames"] == film.frames


def test_the_sheet_says_that_the_whole_ledger_is_what_was_written(desk: Client, film: Film) -> None:
    assert told(desk, film)["ledger_is_intact"] is True
    page = desk.get(f"/desk/films/{film.render.public_id}/authority/").text
    assert "It is what was written." in page


@pytest.mark.parametrize("part", ["broken_entries", "broken_texts", "broken_answers"])
def test_one_fault_anywhere_is_said_on_the_sheet_without_telling_where(
    desk: Client, film: Film, monkeypatch: pytest.MonkeyPatch, part: str
) -> None:
    monkeypatch.setattr(authority, part, lambda: iter([(7_777, "its own words were changed")]))
    assert told(desk, film)["ledger_is_intact"] is False
    page = desk.get(f"/desk/films/{film.render.public_id}/authority/").text
    assert "Something in it was changed" in page and "7777" not in page


def test_an_entry_changed_behind_the_sites_back_shows_on_the_sheet(film: Film) -> None:
    table = Entry._meta.db_table
    with connection.cursor() as cursor:
        if connection.vendor == "sqlite":
            cursor.execute(f"DROP TRIGGER {table}_no_update")
        else:
            cursor.execute(f"ALTER TABLE {table} DISABLE TRIGGER {table}_append_only")
        cursor.execute(f"UPDATE {table} SET way = 'desk' WHERE seq = 1")  # noqa: S608 (our own)
    assert sheet_of(film).is_intact is False


def test_neutral_words_chosen_by_the_teacher_are_told_and_rest_on_no_name(
    photo: Photo, album: Any, filmed: Any
) -> None:
    begun = album()
    begun.slides.filter(kind=Slide.Kind.GARMENT).update(names_nobody=True)
    (slide,) = sheet_of(filmed(begun).film).slides
    assert (slide.credit, slide.names_nobody) == ("", True)
    assert slide.neutral == "Knitted by a follower of the series"
    assert {one.entry.purpose for one in slide.grounds} == {FILM, NOTES}
    assert Entry.objects.filter(purpose=NAME).get().answer == Entry.Answer.GIVEN


def test_neutral_words_where_no_name_may_be_shown_are_nobodys_choice(
    garment: Any, album: Any, filmed: Any
) -> None:
    garment("Ilka Vandermoot", (FILM, NOTES))
    (slide,) = sheet_of(filmed(album()).film).slides
    assert (slide.credit, slide.names_nobody) == ("", False)


def test_of_a_slide_that_is_gone_the_sheet_tells_no_words(
    desk: Client, film: Film, photo: Photo, take_back: Any
) -> None:
    take_back(photo, NAME)
    page = desk.get(f"/desk/films/{film.render.public_id}/authority/").text
    assert "Wrenna" not in page
    assert "Wrenna" not in str(told(desk, film))


@pytest.mark.parametrize(
    ("who", "expected"),
    [("", SIGN_IN), ("sender", SIGN_IN), ("ilvane", GONE), ("odalys", OPEN), ("keeper", OPEN)],
)
def test_only_the_teacher_of_the_series_reads_copies_and_sheet(
    film: Film, photo: Photo, who: str, expected: int
) -> None:
    browser = Client()
    if who == "sender":
        session = browser.session
        session["mine"] = [photo.contribution.public_id]
        session.save()
    elif who == "keeper":
        browser.force_login(User.objects.create_superuser("keeper"))
    elif who:
        browser.force_login(User.objects.get_or_create(username=who)[0])
    places = ("copies/", "authority/", "authority.json")
    answers = [browser.get(f"/desk/films/{film.render.public_id}/{one}") for one in places]
    assert [one.status_code for one in answers] == [expected] * 3
    assert expected != OPEN or {one["Cache-Control"] for one in answers} == {"private, no-store"}


def test_the_approval_of_a_changed_name_is_kept_as_well(
    photo: Photo, album: Any, filmed: Any, odalys: User
) -> None:
    made = Garment(photo.contribution)
    edit(made, credit_name="Wrenna Q.")
    made.row.refresh_from_db()
    approve_waiting(made.row, last_verdict(made.row), odalys, made.row.edition)
    (slide,) = sheet_of(filmed(album()).film).slides
    assert slide.credit == "Wrenna Q."
    assert "name" in [one.about for one in slide.verdicts]


CHANGED = [
    ({"size_name": "5"}, ["the numbers"]),
    ({"credit_name": "Wrenna Q."}, ["the name"]),
]


@pytest.mark.parametrize(("changed", "gone"), CHANGED)
def test_what_its_knitter_changed_closes_a_film_in_the_barest_words(
    film: Film, photo: Photo, changed: dict[str, str], gone: list[str]
) -> None:
    edit(Garment(photo.contribution), **changed)
    assert [slide.gone for slide in contents_of(film).slides if slide.gone] == [gone]


def test_a_changed_description_closes_a_film_as_well(film: Film, photo: Photo) -> None:
    edit_photo(Garment(photo.contribution), description="The left cuff")
    assert [slide.gone for slide in contents_of(film).slides if slide.gone] == [["the description"]]
