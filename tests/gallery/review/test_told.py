"""An answer told outside the site: written down exactly, to the words it was given to."""

import datetime
import itertools
from typing import Any

import pytest
from django.core import mail
from django.test import Client
from django.utils import timezone

from gallery.consent import gate, ledger
from gallery.consent.models import ConsentText, Entry
from gallery.consent.purposes import FILM, NAME, PURPOSES
from gallery.consent.texts import current_texts
from gallery.review.models import ToldAnswer
from gallery.series.models import Series

pytestmark = pytest.mark.django_db
COMBINATIONS = list(itertools.product([False, True], repeat=4))
WAYS = [(Entry.Way.LETTER, "letter"), (Entry.Way.DESK, "desk")]
NEW = "You may show my photos in the film."


@pytest.fixture
def desk(series: Series) -> Client:
    browser = Client()
    browser.force_login(series.teacher)
    return browser


def page_of(sent: Any) -> str:
    return f"/desk/garments/{sent.row.public_id}/told/"


def tell(desk: Client, sent: Any, **given: Any) -> Any:
    """Fill the form in as it came, and press its button."""
    seen = desk.get(page_of(sent)).context["form"]["seen"].value()
    day = timezone.localdate().isoformat()
    facts = {"way": "desk", "told_on": day, "words": "Her card of that day", "seen": seen, **given}
    return desk.post(page_of(sent), facts)


def newest(sent: Any, purpose: str = FILM) -> Entry:
    return sent.row.agreement.entries.filter(purpose=purpose).latest("seq")  # type: ignore[no-any-return]


def new_words(desk: Client, series: Series) -> ConsentText:
    made = {"film-sentence": NEW, "film-meaning": "Anyone can see it."}
    desk.post(f"/desk/series/{series.slug}/questions/", {"purpose": "film", **made})
    return current_texts(scope=series.slug)[0]


@pytest.mark.parametrize("answers", COMBINATIONS)
@pytest.mark.parametrize(("way", "typed"), WAYS)
def test_what_was_told_is_stored_exactly(
    desk: Client, garment: Any, answers: tuple[bool, ...], way: str, typed: str
) -> None:
    sent = garment(allows=[])
    told = dict(zip(PURPOSES, answers, strict=True))
    data = {purpose: "yes" if is_yes else "no" for purpose, is_yes in told.items()}
    tell(desk, sent, way=typed, **data)
    assert {one: gate.may_use(sent.row.agreement_id, one) for one in PURPOSES} == told
    entries = sent.row.agreement.entries.filter(actor=Entry.Actor.TEACHER)
    written = {one.purpose: (one.answer, one.way) for one in entries}
    answer = {True: Entry.Answer.GIVEN, False: Entry.Answer.REFUSED}
    assert written == {one: (answer[is_yes], way) for one, is_yes in told.items()}
    assert ToldAnswer.objects.count() == 4


def test_what_was_not_told_stays_as_it_is(desk: Client, garment: Any) -> None:
    sent = garment(allows=[FILM, NAME])
    tell(desk, sent, film="no")
    assert [one for one in PURPOSES if gate.may_use(sent.row.agreement_id, one)] == [NAME]
    assert list(ledger.broken_entries()) == []


def test_a_no_that_was_told_takes_a_yes_back_and_she_is_written_to(
    desk: Client, garment: Any, django_capture_on_commit_callbacks: Any
) -> None:
    sent = garment(allows=[FILM, NAME], email="yes@example.org")
    with django_capture_on_commit_callbacks(execute=True):
        tell(desk, sent, film="no", words="On the phone")
    assert newest(sent).answer == Entry.Answer.WITHDRAWN
    letter = str(mail.outbox[0].body)
    assert newest(sent).text.sentence in letter and "No longer" in letter
    assert "On the phone" not in letter
    assert "On the phone" in desk.get(page_of(sent)).content.decode()


def test_a_no_to_what_was_taken_back_leaves_it_taken_back(desk: Client, garment: Any) -> None:
    sent = garment(allows=[FILM])
    sent.take_back(FILM)
    tell(desk, sent, film="no")
    assert newest(sent).answer == Entry.Answer.WITHDRAWN


UNTOLD = [
    ({}, "at least one question"),
    ({"film": "yes", "words": " "}, "Please write what was told."),
    ({"film": "yes", "told_on": "2999-01-01"}, "has not come yet"),
    ({"film": "yes", "told_on": "yesterday"}, "year-month-day"),
    ({"film": "perhaps"}, "not one of the available choices"),
    ({"film": "yes", "words": "x" * 2001}, "at most 2000"),
    ({"film": "yes", "words": "yes\u202e"}, "invisible control character"),
    ({"film": "yes", "told_on": "2020-03-14"}, "the later answer counts"),
    ({"film": "no", "told_on": "2020-03-14"}, "the later answer counts"),
]


@pytest.mark.parametrize(("given", "said"), UNTOLD)
def test_what_is_not_told_whole_writes_nothing(
    desk: Client, garment: Any, given: dict[str, str], said: str
) -> None:
    sent = garment(allows=[])
    before = Entry.objects.count()
    page = tell(desk, sent, **given).content.decode()
    assert said in page and Entry.objects.count() == before


def test_nothing_is_written_over_an_answer_that_came_meanwhile(desk: Client, garment: Any) -> None:
    sent = garment(allows=[FILM])
    seen = desk.get(page_of(sent)).context["form"]["seen"].value()
    sent.take_back(FILM)
    answer = tell(desk, sent, film="yes", seen=seen)
    page = answer.content.decode()
    assert "Her answers have changed" in page and "Her card of that day" in page
    assert newest(sent).answer == Entry.Answer.WITHDRAWN and not ToldAnswer.objects.exists()
    assert answer.context["form"]["seen"].value() == newest(sent).seq  # she has seen it now


@pytest.mark.parametrize("seen", ["", "0", "x", "99999999999999999999"])
def test_a_form_that_saw_nothing_writes_nothing(desk: Client, garment: Any, seen: str) -> None:
    sent = garment(allows=[])
    assert tell(desk, sent, film="yes", seen=seen).status_code == 200
    assert not gate.may_use(sent.row.agreement_id, FILM)


def test_pressed_twice_it_is_written_once(desk: Client, garment: Any) -> None:
    sent = garment(allows=[])
    seen = desk.get(page_of(sent)).context["form"]["seen"].value()
    for _ in range(2):
        tell(desk, sent, film="yes", seen=seen)
    assert ToldAnswer.objects.count() == 1


def test_a_yes_is_kept_with_the_words_it_was_told_to(
    desk: Client, series: Series, garment: Any
) -> None:
    sent = garment(allows=[])
    older = newest(sent).text
    now = new_words(desk, series)
    tell(desk, sent, film="yes", film_words=str(older.pk))
    assert newest(sent).text == older and gate.may_use(sent.row.agreement_id, FILM)
    tell(desk, sent, film="yes", film_words=str(now.pk))
    assert (newest(sent).text, newest(sent).answer) == (now, Entry.Answer.GIVEN)


def test_where_words_are_not_chosen_those_in_force_are_meant(
    desk: Client, series: Series, garment: Any
) -> None:
    sent = garment(allows=[FILM])
    now = new_words(desk, series)
    tell(desk, sent, film="yes")
    assert newest(sent).text == now


def test_words_of_another_series_or_question_are_refused(
    desk: Client, series: Series, garment: Any
) -> None:
    sent = garment(allows=[])
    new_words(desk, series)
    page = tell(desk, sent, film="yes", film_words=str(newest(sent, NAME).text_id))
    assert "not one of the available choices" in page.content.decode()


def test_nobody_can_have_been_shown_words_that_came_later(
    desk: Client, series: Series, garment: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    sent = garment(allows=[])
    today = timezone.localdate()
    later = timezone.now() + datetime.timedelta(days=3)
    monkeypatch.setattr(timezone, "now", lambda: later)
    desk.force_login(series.teacher)  # three days later
    now = new_words(desk, series)
    page = tell(desk, sent, film="yes", film_words=str(now.pk), told_on=today.isoformat())
    assert "Which ones was she shown?" in page.content.decode()
    tell(desk, sent, film="yes", film_words=str(newest(sent).text_id), told_on=today.isoformat())
    assert gate.may_use(sent.row.agreement_id, FILM)
