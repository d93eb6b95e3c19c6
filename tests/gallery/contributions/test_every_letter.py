"""Every letter the site sends, through a real mail server: plain text with an HTML twin, links that
begin with the configured address, nothing smuggled into a header by what people typed."""

import re
from collections.abc import Callable
from email import message_from_bytes, policy
from email.message import EmailMessage
from pathlib import Path
from typing import Any

import pytest
from django.conf import settings as site
from django.test import Client
from django.utils import timezone

from gallery import jobs
from gallery.consent.purposes import FILM
from gallery.consent.texts import add_text
from gallery.contributions.draft_links import warn
from tests.post_office import Kept

from .conftest import Knitter, picture

pytestmark = pytest.mark.django_db
TO, GUARDIAN = "anna@example.org", "guardian@example.org"
ELSEWHERE = "elsewhere@example.org"
NAUGHTY = "<b>Bold</b> & “quoted” \u05e0\u05d9\u05e6\u05d4"
BASE = "https://knit.example.org"
NO_LETTER_OF_THE_SITE = {"copy_holder"}  # the teacher sends it herself


@pytest.fixture
def sent(knitter: Knitter, settings: Any) -> Knitter:
    settings.BASE_URL, settings.POSTS_LETTERS = BASE, True
    knitter.post("add", pictures=picture(), new_people=None)
    name = f"picture-{knitter.garment.photos.get().public_id}"
    knitter.post(
        email=TO,
        credit_name=NAUGHTY,
        notes=NAUGHTY,
        allow_film="yes",
        **{
            f"{name}-description": NAUGHTY,
            f"{name}-people": "child",
            f"{name}-guardian_email": GUARDIAN,
        },
    )
    return knitter


def desk_of(sent: Knitter) -> Client:
    browser = Client()
    browser.force_login(sent.garment.series.teacher)
    return browser


def verdict(sent: Knitter, decision: str) -> None:
    facts = {"about": "words", "decision": decision, "note": NAUGHTY, "seen": "0"}
    edition = {"edition": str(sent.garment.edition)}
    desk_of(sent).post(f"/desk/garments/{sent.garment.public_id}/decide/", {**facts, **edition})


def ask_again(sent: Knitter) -> None:
    text = add_text(FILM, "May we?", NAUGHTY, scope=sent.garment.series.slug)
    page = f"/desk/series/{sent.garment.series.slug}/questions/film/ask/"
    desk_of(sent).post(page, {"text": str(text.pk)})


def told(sent: Knitter) -> None:
    data = {
        "film": "no",
        "way": "desk",
        "told_on": timezone.localdate().isoformat(),
        "words": NAUGHTY,
    }
    page = f"/desk/garments/{sent.garment.public_id}/told/"
    shown = desk_of(sent).get(page).content.decode()
    hidden = dict(re.findall(r'<input type="hidden" name="([^"]+)" value="([^"]*)"', shown))
    desk_of(sent).post(page, {**hidden, **data})


def begin_elsewhere(sent: Knitter) -> None:
    """Another garment is begun, and its link asked for."""
    other = Knitter(sent.garment.series)
    other.post("post_link", email=ELSEWHERE)


def let_it_end(sent: Knitter) -> None:
    series = sent.garment.series
    row = series.contributions.create(draft_sha256="d" * 64, email=ELSEWHERE)
    warn(row)


LETTERS: dict[str, tuple[str, Callable[[Knitter], Any]]] = {
    "sent": (TO, lambda sent: None),
    "guardian": (GUARDIAN, lambda sent: None),
    "asked": (TO, lambda sent: verdict(sent, "ask")),
    "declined": (TO, lambda sent: verdict(sent, "decline")),
    "asked_again": (TO, ask_again),
    "told": (TO, told),
    "draft_link": (ELSEWHERE, begin_elsewhere),
    "draft_ends": (ELSEWHERE, let_it_end),
    "lost_link": (TO, lambda sent: Client().post("/mine/lost/", {"email": TO})),
}


def test_every_letter_is_sent_in_this_test() -> None:
    folder = Path(site.CHECKOUT) / "templates" / "letters"
    assert {one.stem for one in folder.glob("*.txt")} - NO_LETTER_OF_THE_SITE == set(LETTERS)


def letters_in(office: Kept) -> list[tuple[str, EmailMessage]]:
    return [
        (one.rcpt_tos[0], message_from_bytes(one.content, policy=policy.default))  # type: ignore[misc]
        for one in office.arrived
    ]


@pytest.mark.parametrize("name", LETTERS)
def test_a_letter_arrives_whole(
    post_office: Kept,
    django_capture_on_commit_callbacks: Any,
    request: pytest.FixtureRequest,
    name: str,
) -> None:
    to, deed = LETTERS[name]
    with django_capture_on_commit_callbacks(execute=True):
        sent = request.getfixturevalue("sent")
        jobs.work_off()
    before = [] if name in ("sent", "guardian") else letters_in(post_office)
    with django_capture_on_commit_callbacks(execute=True):
        deed(sent)
        jobs.work_off()
    arrived = [one for one in letters_in(post_office)[len(before) :] if one[0] == to]
    assert len(arrived) == 1
    letter = arrived[0][1]
    plain, html = (part.get_content() for part in letter.iter_parts())
    assert letter["Auto-Submitted"] == "auto-generated" and letter["To"] == to
    assert letter["From"] == site.DEFAULT_FROM_EMAIL and letter["Subject"].strip()
    assert "<b>" not in html and ("<b>" in plain or "&lt;b&gt;" not in html)
    links = re.findall(r"https?://[^\s<>\"]+", plain)
    assert all(one.startswith(BASE) for one in links)
    assert all(link in html for link in links) and "<img" not in html and "src=" not in html
