"""A walk over everything that is published: each thing is there with its permission and gone, with
the next request, without it. A new address has to be put in its place here."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from django.test import Client
from django.urls import URLPattern, URLResolver, get_resolver

from alterations.kinds import BodyLength, FreeNote
from alterations.units import parse_length
from gallery import jobs
from gallery.album.collect import begin
from gallery.album.film.captions import account, captions_vtt, chapters_text, credits
from gallery.album.gather import plan_of
from gallery.album.making import ask_for_film
from gallery.album.models import Album, Render
from gallery.album.pack import papers
from gallery.consent.purposes import FILM, NAME, NOTES, PUBLIC_PAGES, PURPOSES

pytestmark = pytest.mark.django_db
SIZES = ("small", "medium", "large")

# What an address leads to.  walked: shows things of garments to everybody, and is walked below.
WALKED = {
    *("front", "garments", "garment", "garment_worksheet", "picture", "objection"),
}
# The teacher's film room: what it hands on is walked below as well.
HANDED_ON = {"film", "film_file", "film_poster", "film_captions", "film_pack", "slide_picture"}
# The teacher of the series alone: she sees what was sent, with how it stands (test_doors.py).
DESK = {
    *("desk", "desk_series", "desk_garment", "decide", "people_seen", "answer_objection", "told"),
    *("albums", "album", "album_collect", "album_details", "make_film", "film_cancel"),
    *("slide_move", "slide_out", "slide_back", "slide_words", "slide_name", "film_go_on"),
    *("film_copies", "copy_struck", "copy_told", "film_authority", "authority_file"),
    *("new_series", "series_details", "pattern_drafts", "pattern_draft", "check_pattern"),
    *("throw_draft_away", "draft_file", "edit_pattern", "pattern_upload"),
    *("series_questions", "ask_again", "health", "held_back", "judge_held"),
}
# Its sender or a guardian alone, by a private link (test_doors.py); originals the teacher too.
PRIVATE = {
    *("send", "work_out", "sent", "mine", "say_people", "change_permissions", "receipt"),
    *("receipt_file", "take_away", "withdraw", "erase_mine", "private_link", "lost_link"),
    *("guardian", "guardian_link", "original", "edit_mine", "work_out_mine"),
    *("garment_live", "garment_live_mine", "check_step", "add_picture", "picture_deed"),
    *("cut_picture", "whole_picture", "slide_to_come", "add_picture_mine", "cut_mine"),
    *("whole_mine", "throw_away", "draft_link"),
}
# The pattern, the series and the house itself: nothing of any garment.
NOTHING_SENT = {
    *("privacy", "call", "call_qr", "short_address", "help", "login", "logout"),
    *("pattern_numbers", "pattern_worksheet", "pattern_file", "healthz"),
}


def names_of(resolver: Any) -> set[str]:
    found: set[str] = set()
    for one in resolver.url_patterns:
        if isinstance(one, URLResolver):
            found |= names_of(one)
        elif isinstance(one, URLPattern):
            found.add(str(one.name))
    return found


def test_every_address_has_its_place_in_this_walk() -> None:
    placed = [WALKED, HANDED_ON, DESK, PRIVATE, NOTHING_SENT]
    assert names_of(get_resolver()) == set().union(*placed)
    assert sum(map(len, placed)) == len(set().union(*placed))


@dataclass(frozen=True)
class Sent:
    """The garment whose traces are looked for, and what to look at."""

    garment: Any
    series: Any
    album: Album
    wish: Render
    desk: Client

    def page(self, path: str, *, desk: bool = False) -> bytes:
        """What an address answers; nothing where it is not there."""
        answer = (self.desk if desk else Client()).get(path)
        if answer.status_code != 200:
            return b""
        return b"".join(answer) if answer.streaming else bytes(answer.content)

    @property
    def picture(self) -> bytes:
        return self.garment.photo.public_id.encode()

    def has_picture(self, size: str) -> bool:
        return self.page(self.garment.picture(size))[:2] == b"\xff\xd8"

    @property
    def film(self) -> str:
        return f"/desk/films/{self.wish.public_id}/"

    def words(self, paper: Callable[[Any], Any]) -> bytes:
        """A paper of the film as it would be made now."""
        return str(paper(plan_of(self.album))).encode()

    @property
    def list(self) -> str:
        return f"/series/{self.series.slug}/garments/"

    @property
    def sheet(self) -> str:
        return f"{self.garment.address}worksheet/"


KNITTER, NOTE = "Zelmira Ostwick", "A word nobody else wrote: quillbramble"
NUMBERS, CAPTION, SHAPE = b"+20 rows", b"body 7 cm longer", b"Description: larkspur"
Look = Callable[[Sent], bool]
THINGS: list[tuple[str, str, Look]] = [
    (PUBLIC_PAGES, "its picture on the front page", lambda it: it.picture in it.page("/")),
    (PUBLIC_PAGES, "its picture in the list", lambda it: it.picture in it.page(it.list)),
    (PUBLIC_PAGES, "its picture's page", lambda it: it.picture in it.page(it.garment.address)),
    (PUBLIC_PAGES, "its description", lambda it: SHAPE in it.page(it.garment.address)),
    *(
        (PUBLIC_PAGES, f"its {size} picture", lambda it, size=size: it.has_picture(size))
        for size in SIZES
    ),
    (
        PUBLIC_PAGES,
        "the objection page of its picture",
        lambda it: bool(it.page(f"/pictures/{it.garment.photo.public_id}/objection/")),
    ),
    (NOTES, "its notes", lambda it: NOTE.encode() in it.page(it.garment.address)),
    (NOTES, "its numbers", lambda it: NUMBERS in it.page(it.garment.address)),
    (NOTES, "its line in the list", lambda it: CAPTION in it.page(it.list)),
    (
        NOTES,
        "its worksheet",
        lambda it: bool(it.page(it.sheet)),
    ),
    (NOTES, "its worksheet as text", lambda it: CAPTION in it.page(f"{it.sheet}?text")),
    (NOTES, "its caption in the film", lambda it: CAPTION in it.words(captions_vtt)),
    (NOTES, "its chapter of the film", lambda it: CAPTION in it.words(chapters_text)),
    (
        NOTES,
        "the film made with its numbers",
        lambda it: bool(it.page(f"{it.film}film.mp4", desk=True)),
    ),
    (NAME, "its name on its page", lambda it: KNITTER.encode() in it.page(it.garment.address)),
    (NAME, "its name in the list", lambda it: KNITTER.encode() in it.page(it.list)),
    (NAME, "its name on the front page", lambda it: KNITTER.encode() in it.page("/")),
    (NAME, "its credit in the film", lambda it: KNITTER.encode() in it.words(credits)),
    (NAME, "its name in the film's words", lambda it: KNITTER.encode() in it.words(account)),
    (NAME, "its name in any paper of the pack", lambda it: KNITTER.encode() in it.words(papers)),
    (
        NAME,
        "the film made with its name",
        lambda it: bool(it.page(f"{it.film}film.mp4", desk=True)),
    ),
    (
        NAME,
        "the captions made with it",
        lambda it: KNITTER.encode() in it.page(f"{it.film}captions.vtt", desk=True),
    ),
    (FILM, "its slide", lambda it: SHAPE in it.words(account)),
    (FILM, "the film that shows it", lambda it: bool(it.page(f"{it.film}film.mp4", desk=True))),
    (FILM, "the poster of that film", lambda it: bool(it.page(f"{it.film}poster.jpg", desk=True))),
    (
        FILM,
        "the captions of that film",
        lambda it: bool(it.page(f"{it.film}captions.vtt", desk=True)),
    ),
    (
        FILM,
        "the pack of that film",
        lambda it: it.page(f"{it.film}pack.zip", desk=True)[:2] == b"PK",
    ),
]


@pytest.fixture
def sent(series: Any, garment: Any, teacher: Any, settings: Any, tmp_path: Path) -> Sent:
    """A garment that may be shown everywhere, another one beside it, and a film of both."""
    settings.FILM_WIDTH, settings.FILM_HEIGHT, settings.FILM_FPS = 320, 180, 24
    for name in ("FILMS", "SEGMENTS"):
        setattr(settings, f"{name}_DIR", tmp_path / name.lower())
    garment(allows=PURPOSES, credit_name="Wrenna Quist", notes="Another.").decide()
    changes = (BodyLength(parse_length("7 cm")), FreeNote("told"))
    made = garment(
        allows=PURPOSES,
        credit_name=KNITTER,
        notes=NOTE,
        changes=changes,
        description=SHAPE.decode(),
    ).decide()
    album = begin(series, "The closing film")
    album.seconds_per_slide = 2
    album.save()
    wish = ask_for_film(album, teacher)
    jobs.work_off()
    desk = Client()
    desk.force_login(teacher)
    return Sent(made, series, album, Render.objects.get(pk=wish.pk), desk)


def there(sent: Sent) -> dict[str, bool]:
    return {what: look(sent) for _, what, look in THINGS}


@pytest.mark.parametrize("purpose", PURPOSES)
def test_what_rests_on_a_permission_goes_with_it_at_once(sent: Sent, purpose: str) -> None:
    missing = [what for what, is_there in there(sent).items() if not is_there]
    assert missing == []
    browser = sent.garment.sender()
    answer = {"purpose": purpose, "answer": "no"}
    browser.post(f"/mine/{sent.garment.row.public_id}/permissions/", answer)
    left = there(sent)
    still_there = [what for of, what, _ in THINGS if of == purpose and left[what]]
    assert still_there == []
    taken_along = {what for of, what, _ in THINGS if of != purpose and not left[what]}
    # Whatever is in the film closes the film made before; its picture takes its words along there.
    of_the_film = {what for _, what, _ in THINGS if "film" in what or "caption" in what}
    of_the_film |= {"its slide", "its name in any paper of the pack"}
    if purpose in (FILM, NAME, NOTES):
        assert taken_along <= of_the_film
    else:
        assert taken_along == set()


def test_taking_everything_back_leaves_no_trace(sent: Sent) -> None:
    sent.garment.sender().post(f"/mine/{sent.garment.row.public_id}/withdraw/")
    assert [what for what, is_there in there(sent).items() if is_there] == []
    front = sent.page("/") + sent.page(sent.list) + sent.words(papers)
    assert b"Wrenna Quist" in front and sent.garment.row.public_id.encode() not in front


def test_what_the_teacher_declines_is_nowhere_either(sent: Sent) -> None:
    sent.garment.decide("decline")
    assert [what for what, is_there in there(sent).items() if is_there] == []
