"""Copies handed on, the letter to their holders, the authority sheet, neutral words for a name."""

import hashlib
import io
import zipfile
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client

from gallery.album import pack
from gallery.album.authority import sheet_of
from gallery.album.copies import notice_of
from gallery.album.gather import plan_of
from gallery.album.models import CopyGiven, Film, Slide
from gallery.consent.models import Entry
from gallery.consent.purposes import FILM, NAME, NOTES
from gallery.contributions.models import Photo
from gallery.contributions.people import guardian
from gallery.contributions.people.cares import care_of

pytestmark = pytest.mark.django_db
GIVEN = {"to": "The video channel", "what": "pack", "given_on": "2026-03-14"}


@pytest.fixture
def photo(garment: Any) -> Photo:
    found: Photo = garment("Wrenna Quist")
    return found


@pytest.fixture
def film(photo: Photo, album: Any, filmed: Any) -> Film:
    found: Film = filmed(album()).film
    return found


def place(film: Film, name: str) -> str:
    return f"/desk/films/{film.render.public_id}/{name}/"


def body(answer: Any) -> bytes:
    found = b"".join(answer) if answer.streaming else answer.content
    answer.close()
    return bytes(found)


def test_the_pack_of_a_film_is_the_same_to_the_byte_every_time(desk: Client, film: Film) -> None:
    packs = [body(desk.get(f"/desk/films/{film.render.public_id}/pack.zip")) for _ in range(2)]
    assert packs[0] == packs[1]
    assert hashlib.sha256(packs[0]).hexdigest() == pack.pack_sha256(film)
    assert zipfile.ZipFile(io.BytesIO(packs[0])).testzip() is None


@pytest.mark.parametrize("what", ["film", "pack"])
def test_a_copy_is_written_down_with_the_check_sum_of_its_file(
    desk: Client, film: Film, what: str
) -> None:
    desk.post(place(film, "copies"), {**GIVEN, "what": what})
    kept = CopyGiven.objects.get()
    wanted = film.sha256 if what == "film" else pack.pack_sha256(film)
    assert (kept.to, kept.sha256, str(kept.given_on)) == ("The video channel", wanted, "2026-03-14")
    page = desk.get(place(film, "copies")).content.decode()
    assert "The video channel" in page and wanted in page


WRONG = [
    ({"to": " "}, "Please write who got it."),
    ({"to": "x\u202e"}, "invisible control character"),
    ({"to": "x" * 201}, "at most 200"),
    ({"given_on": "2999-01-01"}, "has not come yet"),
    ({"given_on": "soon"}, "year-month-day"),
    ({"what": "tape"}, "not one of the available choices"),
]


@pytest.mark.parametrize(("changed", "said"), WRONG)
def test_what_cannot_be_kept_comes_back_with_a_sentence(
    desk: Client, film: Film, changed: dict[str, str], said: str
) -> None:
    page = desk.post(place(film, "copies"), {**GIVEN, **changed}).content.decode()
    assert said in page and not CopyGiven.objects.exists()


def test_a_copy_is_struck_out_and_still_read(desk: Client, film: Film) -> None:
    desk.post(place(film, "copies"), GIVEN)
    for _ in range(2):
        desk.post(place(film, "copies/strike"), {"copy": str(CopyGiven.objects.get().pk)})
    desk.post(place(film, "copies/strike"), {"copy": "nonsense"})
    page = desk.get(place(film, "copies")).content.decode()
    assert CopyGiven.objects.get().struck_at and "<s><bdi>The video channel" in page


@pytest.mark.parametrize("purpose", [FILM, NAME, NOTES])
def test_a_closed_film_brings_the_letter_and_names_nobody(
    desk: Client, film: Film, photo: Photo, take_back: Any, purpose: str
) -> None:
    desk.post(place(film, "copies"), GIVEN)
    assert notice_of(film) is None
    take_back(photo, purpose)
    notice = notice_of(film)
    assert notice and film.sha256 in notice.words and "Wrenna" not in notice.words
    page = desk.get(place(film, "copies")).content.decode()
    assert "The video channel" in page and "Make the film again without it" in page
    assert "mailto:?subject=" in page and "do not show, copy or pass on" in page


def test_the_new_film_is_one_click_away_and_open(
    desk: Client, film: Film, photo: Photo, garment: Any, take_back: Any
) -> None:
    from gallery import jobs  # noqa: PLC0415 (only here)
    from gallery.album.collect import collect  # noqa: PLC0415

    garment("Ilvane Orrick")
    collect(film.render.album)
    take_back(photo, FILM)
    desk.post(f"/desk/albums/{film.render.album.public_id}/film/")
    jobs.work_off()
    newest = Film.objects.exclude(pk=film.pk).get()
    assert pack.is_open(newest) and not pack.is_open(film)
    names = [slide.credit for slide in pack.plan_behind(newest).slides if hasattr(slide, "credit")]
    assert names == ["Ilvane Orrick"]


def test_the_sheet_names_every_entry_the_film_rested_on(
    desk: Client, film: Film, photo: Photo, take_back: Any
) -> None:
    given = Entry.objects.filter(agreement=photo.contribution.agreement, answer="given")
    wanted = {one.purpose: one for one in given if one.purpose in (FILM, NAME, NOTES)}
    (slide,) = sheet_of(film).slides
    assert {one.entry.seq for one in slide.grounds} == {one.seq for one in wanted.values()}
    assert all(one.stands for one in slide.grounds)
    take_back(photo, NAME)
    (slide,) = sheet_of(film).slides
    assert {one.entry.purpose: one.stands for one in slide.grounds} == {
        FILM: True,
        NAME: False,
        NOTES: True,
    }
    page = desk.get(place(film, "authority")).content.decode()
    for entry in wanted.values():
        assert entry.text.sentence in page and entry.hash[:12] in page
    assert film.sha256 in page and pack.pack_sha256(film) in page
    assert slide.is_gone and "taken back" in page


def test_the_sheet_for_a_machine_says_the_same(desk: Client, film: Film) -> None:
    told = desk.get(place(film, "authority") + "?json").json()
    (slide,) = told["slides"]
    assert told["film_sha256"] == film.sha256 and slide["credit"] == "Wrenna Quist"
    assert slide["people"] == "nobody who can be recognised"
    for one in slide["rests_on"]:
        entry = Entry.objects.get(seq=one["entry"])
        assert (one["entry_hash"], one["text_sha256"]) == (entry.hash, entry.text_sha256)


def test_the_sheet_names_a_guardians_answers(photo: Photo, album: Any, filmed: Any) -> None:
    Photo.objects.filter(pk=photo.pk).update(people="child", guardian_email="g@example.org")
    photo.refresh_from_db()
    link = guardian.ask(photo.contribution, "g@example.org")
    care = care_of(photo.contribution, photo)
    guardian.answer(link, care.about, {str(one.text.pk): True for one in care.questions})
    (slide,) = sheet_of(filmed(album()).film).slides
    assert [one.purpose for one in slide.guardians] == ["film", "public_pages"]
    assert slide.people == "a child"


def test_neutral_words_take_the_place_of_a_name_and_it_comes_back(
    desk: Client, photo: Photo, album: Any
) -> None:
    begun = album()
    slide = begun.slides.get(kind=Slide.Kind.GARMENT)
    door = f"/desk/albums/{begun.public_id}/{slide.public_id}/name/"
    shown = []
    for answer in ("hide", "show"):
        begun.refresh_from_db()
        desk.post(door, {"name": answer, "version": str(begun.version)})
        shown.append([one.credit for one in plan_of(begun).slides if hasattr(one, "credit")])
    assert shown == [[""], ["Wrenna Quist"]]
    page = desk.get(f"/desk/albums/{begun.public_id}/").content.decode()
    assert "Neutral words in place of the name" in page


def test_a_film_without_the_name_stays_open_when_the_name_is_taken_back(
    photo: Photo, album: Any, filmed: Any, take_back: Any
) -> None:
    begun = album()
    begun.slides.filter(kind=Slide.Kind.GARMENT).update(names_nobody=True)
    film = filmed(begun).film
    take_back(photo, NAME)
    assert pack.is_open(film)


def test_nobody_else_finds_copies_or_sheet(film: Film) -> None:
    other = Client()
    other.force_login(User.objects.create_user("ilvane"))
    for name in ("copies", "authority"):
        assert other.get(place(film, name)).status_code == 404
        assert Client().get(place(film, name)).status_code == 302
    assert other.post(place(film, "copies/strike"), {"copy": "1"}).status_code == 404
