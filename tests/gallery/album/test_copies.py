"""Copies handed on, the letter to their holders, the authority sheet, neutral words for a name."""

import hashlib
import io
import zipfile
from typing import Any
from urllib.parse import parse_qs, unquote, urlsplit

import pytest
from django.contrib.auth.models import User
from django.test import Client

from gallery.album import pack
from gallery.album.authority import sheet_of
from gallery.album.contents import contents_of
from gallery.album.copies import holders_of, notice_of
from gallery.album.gather import placed, plan_of
from gallery.album.hindrances import doubts
from gallery.album.models import CopyGiven, Film, Slide
from gallery.album.publish import films
from gallery.consent.models import Entry
from gallery.consent.purposes import FILM, NAME, NOTES
from gallery.contributions.models import Photo
from gallery.contributions.people import guardian
from gallery.contributions.people.cares import care_of

pytestmark = pytest.mark.django_db
MAILBOX = "channel+film@example.org"
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
    ({"email": "nobody"}, "This is no e-mail address"),
    ({"note": "x\u0007"}, "invisible control character"),
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
        assert entry.text.sentence in page and entry.hash in page
    assert film.sha256 in page and pack.pack_sha256(film) in page
    assert slide.is_gone and "taken back" in page


def test_the_sheet_for_a_machine_says_the_same(desk: Client, film: Film) -> None:
    told = desk.get(f"/desk/films/{film.render.public_id}/authority.json").json()
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
    for name in ("copies/strike", "copies/told"):
        assert other.post(place(film, name), {"copy": "1"}).status_code == 404
        assert Client().post(place(film, name), {"copy": "1"}).status_code == 302


def test_the_check_sum_of_the_pack_is_kept_from_the_day_the_film_is_made(film: Film) -> None:
    kept = Film.objects.get(pk=film.pk).pack_sha256
    assert len(kept) == 64
    films().remove(film.sha256)
    assert pack.pack_sha256(film) == kept


def test_a_pack_whose_words_changed_since_has_its_new_check_sum_kept(
    film: Film, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = pack.pack_sha256(film)
    monkeypatch.setattr(pack, "_what_is_what", lambda plan: "Other words.\n")
    with pack.write_pack(film) as written:
        found = hashlib.sha256(written.read()).hexdigest()
    assert pack.pack_sha256(Film.objects.get(pk=film.pk)) == found != before


WITHDRAWN = [(FILM, ["the photo"]), (NAME, ["the name"]), (NOTES, ["the numbers"])]


@pytest.mark.parametrize(("purpose", "gone"), WITHDRAWN)
def test_a_closed_film_says_which_slide_and_which_permission(
    desk: Client, film: Film, take_back: Any, purpose: str, gone: list[str]
) -> None:
    take_back(film.items.get().photo, purpose)
    assert {slide.number: slide.gone for slide in contents_of(film).slides if slide.gone} == {
        2: gone
    }
    pages = [f"/desk/films/{film.render.public_id}/", place(film, "copies")]
    assert all(f"<li>Slide 2: {gone[0]}</li>" in desk.get(page).text for page in pages)


@pytest.fixture
def copy(desk: Client, film: Film) -> CopyGiven:
    desk.post(place(film, "copies"), {**GIVEN, "email": MAILBOX, "note": "on a stick"})
    return CopyGiven.objects.get()


@pytest.fixture
def closed_copy(copy: CopyGiven, photo: Photo, take_back: Any) -> CopyGiven:
    """A copy of a film from which the photo was taken back since."""
    take_back(photo, FILM)
    return copy


def test_an_address_and_a_note_are_kept_with_a_copy(
    desk: Client, film: Film, copy: CopyGiven
) -> None:
    assert (copy.email, copy.note) == (MAILBOX, "on a stick")
    page = desk.get(place(film, "copies")).text
    assert MAILBOX in page and "on a stick" in page


def test_the_closed_films_page_lists_who_has_which_copy(
    desk: Client, film: Film, closed_copy: CopyGiven
) -> None:
    page = desk.get(f"/desk/films/{film.render.public_id}/").text
    assert all(told in page for told in (closed_copy.to, "14 March 2026", closed_copy.sha256))


def test_the_letter_to_a_holder_opens_whole_in_a_mail_program(
    film: Film, photo: Photo, copy: CopyGiven, take_back: Any
) -> None:
    film.render.album.title = "Søn & Daughter? 100 % +"
    take_back(photo, FILM)
    (holder,) = holders_of(film)
    assert holder.letter
    link = urlsplit(holder.letter.mailto)
    told = parse_qs(link.query, strict_parsing=True)
    assert (link.scheme, unquote(link.path), link.fragment) == ("mailto", MAILBOX, "")
    assert told["subject"] == ["Please stop using the film “Søn & Daughter? 100 % +”"]
    assert told["body"] == [holder.letter.words.replace("\n", "\r\n")]
    assert "+" not in link.query and " " not in link.query  # RFC 6068: a plus would stay a plus


def test_the_letter_to_a_holder_tells_the_file_and_the_day_but_not_who_withdrew(
    film: Film, photo: Photo, copy: CopyGiven, take_back: Any
) -> None:
    assert holders_of(film)[0].letter is None
    take_back(photo, NAME)
    letter = holders_of(film)[0].letter
    assert letter and all(
        told in letter.words
        for told in (film.sha256, copy.sha256, "14 March 2026", "The closing film", "the new film")
    )
    assert not any(told in letter.words for told in ("Wrenna", "name", "lide", "on a stick"))


def test_that_a_holder_was_told_is_written_down_once_and_only_of_a_closed_film(
    desk: Client, film: Film, photo: Photo, copy: CopyGiven, take_back: Any
) -> None:
    def told() -> Any:
        desk.post(place(film, "copies/told"), {"copy": str(copy.pk)})
        copy.refresh_from_db()
        return copy.told_at

    assert told() is None
    take_back(photo, FILM)
    first = told()
    assert first is not None and told() == first
    assert "Told on" in desk.get(place(film, "copies")).text


@pytest.mark.parametrize("key", ["", "x", "²", "٣", "9" * 30, "0"])
def test_a_copy_that_nobody_can_mean_changes_nothing(
    desk: Client, film: Film, closed_copy: CopyGiven, key: str
) -> None:
    for deed in ("copies/told", "copies/strike"):
        assert desk.post(place(film, deed), {"copy": key}).status_code == 302
    closed_copy.refresh_from_db()
    assert (closed_copy.told_at, closed_copy.struck_at) == (None, None)


def test_a_copy_of_another_film_is_not_touched_from_this_one(
    desk: Client, closed_copy: CopyGiven, garment: Any, album: Any, filmed: Any
) -> None:
    garment("Ilvane Orrick")
    other = filmed(album()).film
    for deed in ("copies/told", "copies/strike"):
        desk.post(place(other, deed), {"copy": str(closed_copy.pk)})
    closed_copy.refresh_from_db()
    assert (closed_copy.told_at, closed_copy.struck_at) == (None, None)


def test_a_copy_struck_out_gets_no_letter(
    desk: Client, film: Film, photo: Photo, copy: CopyGiven, take_back: Any
) -> None:
    desk.post(place(film, "copies/strike"), {"copy": str(copy.pk)})
    take_back(photo, FILM)
    assert [one.letter for one in holders_of(film)] == [None]


def test_a_name_the_typeface_cannot_draw_is_reported_until_neutral_words_stand_there(
    garment: Any, album: Any
) -> None:
    garment("Wrenna \U000131a0")  # an Egyptian sign
    begun = album()
    assert any("no sign for" in said for said in doubts(begun, placed(begun)))
    begun.slides.filter(kind=Slide.Kind.GARMENT).update(names_nobody=True)
    assert doubts(begun, placed(begun)) == []
