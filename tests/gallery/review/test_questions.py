"""The words of a series' questions, asking again, and answers told outside the site."""

import itertools
import re
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.core import mail
from django.db import DatabaseError, connection, transaction
from django.test import Client

from gallery import jobs
from gallery.consent import gate
from gallery.consent.models import ConsentText, Entry
from gallery.consent.purposes import FILM, NAME, PURPOSES, QUESTIONS
from gallery.consent.texts import current_texts
from gallery.review.models import AskedAgain, ToldAnswer
from gallery.series.models import Series

pytestmark = pytest.mark.django_db
NEW = {"film-sentence": "You may show my photos in the film.", "film-meaning": "Anyone can see it."}


@pytest.fixture
def desk(series: Series) -> Client:
    browser = Client()
    browser.force_login(series.teacher)
    return browser


def words(series: Series) -> str:
    return f"/desk/series/{series.slug}/questions/"


def in_force(series: Series, purpose: str = FILM) -> ConsentText:
    return next(one for one in current_texts(scope=series.slug) if one.purpose == purpose)


def keep(desk: Client, series: Series, **changed: str) -> Any:
    data = {"purpose": "film", **NEW, **{f"film-{name}": value for name, value in changed.items()}}
    return desk.post(words(series), data)


def post_all(deed: Any, capture: Any) -> Any:
    """Do it, work the queue off, let the letters leave."""
    with capture(execute=True):
        answer = deed()
        jobs.work_off()
    return answer


def letters_to(address: str) -> list[str]:
    return [str(one.body) for one in mail.outbox if one.to == [address]]


def test_a_series_begins_with_the_sites_own_words(desk: Client, series: Series) -> None:
    page = desk.get(words(series)).content.decode()
    assert page.count("The site&#x27;s own words") + page.count("The site's own words") >= 4
    assert all(question.sentence in page for question in QUESTIONS)


def test_new_words_are_a_new_version_and_old_answers_keep_theirs(
    desk: Client, series: Series, garment: Any
) -> None:
    sent = garment(allows=[FILM])
    before = sent.row.agreement.entries.get(purpose=FILM)
    old = (before.text_id, before.text.sentence, before.text_sha256)
    assert keep(desk, series).status_code == 302
    now = in_force(series)
    assert (now.sentence, now.scope, now.version) == (NEW["film-sentence"], series.slug, 1)
    after = sent.row.agreement.entries.get(purpose=FILM)
    assert (after.text_id, after.text.sentence, after.text_sha256) == old
    assert gate.may_use(sent.row.agreement_id, FILM)
    page = desk.get(words(series)).content.decode()
    assert old[1] in page and "1 answer" in page


def test_the_same_words_again_make_no_version(desk: Client, series: Series) -> None:
    keep(desk, series)
    keep(desk, series)
    assert ConsentText.objects.filter(scope=series.slug).count() == 1


def test_going_back_to_the_sites_words_is_a_version_too(desk: Client, series: Series) -> None:
    keep(desk, series)
    desk.post(words(series), {"purpose": "film", "standard": "yes", **NEW})
    film = next(one for one in QUESTIONS if one.purpose == FILM)
    assert (in_force(series).sentence, in_force(series).version) == (film.sentence, 2)


def test_new_words_count_for_their_own_series_only(desk: Client, series: Series) -> None:
    keep(desk, series)
    assert current_texts()[0].sentence == QUESTIONS[0].sentence
    assert in_force(series, NAME).scope == ""


REFUSED = [
    ({"sentence": " "}, "Please write the sentence."),
    ({"meaning": ""}, "Please write what this means."),
    ({"sentence": "May\u202e I?"}, "invisible control character"),
    ({"sentence": "x" * 301}, "at most 300"),
    ({"meaning": "x" * 2001}, "at most 2000"),
]


@pytest.mark.parametrize(("changed", "said"), REFUSED)
def test_words_that_cannot_be_kept_come_back_with_a_sentence(
    desk: Client, series: Series, changed: dict[str, str], said: str
) -> None:
    page = keep(desk, series, **changed).content.decode()
    assert said in page and not ConsentText.objects.filter(scope=series.slug).exists()
    kept = NEW["film-meaning"] if "sentence" in changed else NEW["film-sentence"]
    assert kept in page


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE consent_consenttext SET sentence = 'other'",
        "DELETE FROM consent_consenttext",
    ],
)
def test_the_database_keeps_every_wording(desk: Client, series: Series, statement: str) -> None:
    keep(desk, series)
    with pytest.raises(DatabaseError), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(statement)
    assert in_force(series).sentence == NEW["film-sentence"]


def test_nobody_elses_teacher_reaches_them(series: Series, garment: Any) -> None:
    other = Client()
    other.force_login(User.objects.create_user("other"))
    sent = garment()
    ask, told = f"{words(series)}film/ask/", f"/desk/garments/{sent.row.public_id}/told/"
    assert [other.get(page).status_code for page in (words(series), ask, told)] == [404] * 3
    assert [Client().get(page).status_code for page in (words(series), ask, told)] == [302] * 3


def test_the_private_page_lays_the_newer_words_beside_hers(
    desk: Client, series: Series, garment: Any
) -> None:
    sent = garment(allows=[FILM])
    hers = in_force(series).sentence
    keep(desk, series)
    browser, page = sent.sender(), f"/mine/{sent.row.public_id}/"
    shown = browser.get(page).content.decode()
    assert hers in shown and NEW["film-sentence"] in shown
    answer = {"purpose": "film", "answer": "yes", "text": str(in_force(series).pk)}
    for _ in range(2):  # pressed twice, kept once
        browser.post(f"{page}permissions/", answer)
    entries = sent.row.agreement.entries.filter(purpose=FILM).order_by("seq")
    assert [one.text.sentence for one in entries] == [hers, NEW["film-sentence"]]
    assert "have changed since" not in browser.get(page).content.decode()


def test_a_no_to_newer_words_is_kept_as_a_no(desk: Client, series: Series, garment: Any) -> None:
    sent = garment(allows=[NAME])
    keep(desk, series)
    answer = {"purpose": "film", "answer": "no", "text": str(in_force(series).pk)}
    sent.sender().post(f"/mine/{sent.row.public_id}/permissions/", answer)
    newest = sent.row.agreement.entries.filter(purpose=FILM).latest("seq")
    assert (newest.answer, newest.text) == (Entry.Answer.REFUSED, in_force(series))


@pytest.fixture
def senders(garment: Any) -> dict[str, Any]:
    """Senders in every state that matters to asking again, by what they did."""
    found = {
        "yes": garment(allows=[FILM], email="yes@example.org"),
        "no": garment(allows=[NAME], email="no@example.org"),
        "taken back": garment(allows=[FILM, NAME], email="back@example.org"),
        "everything": garment(allows=[NAME], email="all@example.org"),
        "no address": garment(allows=[FILM]),
    }
    found["taken back"].take_back(FILM)
    found["everything"].take_back(NAME)
    return found


def test_asking_again_writes_once_to_each_who_may_be_asked(
    desk: Client,
    series: Series,
    senders: dict[str, Any],
    django_capture_on_commit_callbacks: Any,
) -> None:
    keep(desk, series)
    page = desk.get(f"{words(series)}film/ask/").content.decode()
    assert "2 letters will go out" in page and "1 sender left no address" in page
    button = {"text": str(in_force(series).pk)}
    for _ in range(2):
        post_all(
            lambda: desk.post(f"{words(series)}film/ask/", button),
            django_capture_on_commit_callbacks,
        )
    written = sorted(to for one in mail.outbox for to in one.to)
    assert written == ["no@example.org", "yes@example.org"]
    assert AskedAgain.objects.count() == 2


def test_the_letter_holds_both_wordings_and_a_link_that_opens(
    desk: Client,
    series: Series,
    senders: dict[str, Any],
    django_capture_on_commit_callbacks: Any,
) -> None:
    hers = in_force(series).sentence
    keep(desk, series)
    button = {"text": str(in_force(series).pk)}
    post_all(
        lambda: desk.post(f"{words(series)}film/ask/", button), django_capture_on_commit_callbacks
    )
    letter = letters_to("yes@example.org")[0]
    assert hers in letter and NEW["film-sentence"] in letter and "nothing changes" in letter
    token = re.search(r"/mine/link/([\w-]+)/", letter)
    browser = Client()
    assert token and browser.get(f"/mine/link/{token[1]}/").status_code == 303
    answer = {"purpose": "film", "answer": "yes", **button}
    browser.post(f"/mine/{senders['yes'].row.public_id}/permissions/", answer)
    page = desk.get(words(series)).content.decode()
    assert "2 letters asked about these words" in page and "1 was answered" in page


def test_words_changed_meanwhile_send_nothing(
    desk: Client, series: Series, senders: dict[str, Any]
) -> None:
    keep(desk, series)
    seen = {"text": str(in_force(series).pk)}
    keep(desk, series, sentence="Other words again?")
    desk.post(f"{words(series)}film/ask/", seen)
    assert jobs.work_off() == 0 and not AskedAgain.objects.exists()


def test_taken_back_before_the_letter_leaves_there_is_none(
    desk: Client,
    series: Series,
    senders: dict[str, Any],
    django_capture_on_commit_callbacks: Any,
) -> None:
    keep(desk, series)
    desk.post(f"{words(series)}film/ask/", {"text": str(in_force(series).pk)})
    senders["yes"].take_back(FILM)
    post_all(lambda: None, django_capture_on_commit_callbacks)
    assert not letters_to("yes@example.org") and len(letters_to("no@example.org")) == 1


COMBINATIONS = list(itertools.product([False, True], repeat=4))
WAYS = [(Entry.Way.LETTER, "letter"), (Entry.Way.DESK, "desk")]


@pytest.mark.parametrize("answers", COMBINATIONS)
@pytest.mark.parametrize(("way", "typed"), WAYS)
def test_what_was_told_is_stored_exactly(
    desk: Client, garment: Any, answers: tuple[bool, ...], way: str, typed: str
) -> None:
    sent = garment(allows=[])
    told = dict(zip(PURPOSES, answers, strict=True))
    data = {purpose: "yes" if is_yes else "no" for purpose, is_yes in told.items()}
    facts = {"way": typed, "told_on": "2026-03-14", "words": "Her e-mail of that day"}
    desk.post(f"/desk/garments/{sent.row.public_id}/told/", {**data, **facts})
    stands = {one: gate.may_use(sent.row.agreement_id, one) for one in PURPOSES}
    assert stands == told
    written = Entry.objects.filter(actor=Entry.Actor.TEACHER)
    assert {(one.purpose, one.way) for one in written} == {
        (purpose, way) for purpose, is_yes in told.items() if is_yes
    }
    assert ToldAnswer.objects.count() == sum(answers)


def test_a_no_that_was_told_takes_a_yes_back_and_she_is_written_to(
    desk: Client, garment: Any, django_capture_on_commit_callbacks: Any
) -> None:
    sent = garment(allows=[FILM, NAME], email="yes@example.org")
    data = {"film": "no", "way": "desk", "told_on": "2026-03-14", "words": "On the phone"}
    with django_capture_on_commit_callbacks(execute=True):
        desk.post(f"/desk/garments/{sent.row.public_id}/told/", data)
    newest = sent.row.agreement.entries.latest("seq")
    assert (newest.purpose, newest.answer) == (FILM, Entry.Answer.WITHDRAWN)
    letter = letters_to("yes@example.org")[0]
    assert newest.text.sentence in letter and "No longer" in letter and "On the phone" not in letter
    assert "On the phone" in desk.get(f"/desk/garments/{sent.row.public_id}/told/").content.decode()


UNTOLD = [
    ({}, "at least one question"),
    ({"film": "yes", "words": " "}, "Please write what was told."),
    ({"film": "yes", "told_on": "2999-01-01"}, "has not come yet"),
    ({"film": "yes", "told_on": "yesterday"}, "year-month-day"),
    ({"film": "perhaps"}, "not one of the available choices"),
]


@pytest.mark.parametrize(("given", "said"), UNTOLD)
def test_what_is_not_told_whole_writes_nothing(
    desk: Client, garment: Any, given: dict[str, str], said: str
) -> None:
    sent = garment(allows=[])
    before = Entry.objects.count()
    facts = {"way": "desk", "told_on": "2026-03-14", "words": "Her card", **given}
    page = desk.post(f"/desk/garments/{sent.row.public_id}/told/", facts).content.decode()
    assert said in page and Entry.objects.count() == before
