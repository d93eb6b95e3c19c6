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
from gallery.erasing import erase_everywhere
from gallery.review.models import AskedAgain
from gallery.review.questions.again import write_again
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
    older = sent.row.agreement.entries.get(purpose=FILM).text.sentence
    browser, page = sent.sender(), f"/mine/{sent.row.public_id}/"
    shown = browser.get(page).content.decode()
    assert older in shown and NEW["film-sentence"] in shown
    browser.post(f"{page}permissions/", answer)
    newest = sent.row.agreement.entries.filter(purpose=FILM).latest("seq")
    assert (newest.answer, newest.text) == (Entry.Answer.REFUSED, in_force(series))


def test_an_answer_to_no_question_is_refused_in_words(garment: Any) -> None:
    sent = garment(allows=[])
    browser, page = sent.sender(), f"/mine/{sent.row.public_id}/"
    browser.post(f"{page}permissions/", {"purpose": "everything", "answer": "yes", "text": "1"})
    assert "There is no such question" in browser.get(page).content.decode()
    assert not any(gate.may_use(sent.row.agreement_id, one) for one in PURPOSES)


@pytest.fixture
def senders(garment: Any) -> dict[str, Any]:
    """Senders in every state that matters to asking again, by what they did."""
    found = {
        "yes": garment(allows=[FILM], email="yes@example.org"),
        "no": garment(allows=[NAME], email="no@example.org"),
        "taken back": garment(allows=[FILM, NAME], email="back@example.org"),
        "everything": garment(allows=[NAME], email="all@example.org"),
        "nothing": garment(allows=[], email="nothing@example.org"),
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
    assert "3 letters will go out" in page and "1 sender left no address" in page
    button = {"text": str(in_force(series).pk)}
    for _ in range(2):
        post_all(
            lambda: desk.post(f"{words(series)}film/ask/", button),
            django_capture_on_commit_callbacks,
        )
    written = sorted(to for one in mail.outbox for to in one.to)
    assert written == ["no@example.org", "nothing@example.org", "yes@example.org"]
    assert AskedAgain.objects.count() == 3


def test_pressed_again_before_the_letters_leave_asks_nobody_twice(
    desk: Client,
    series: Series,
    senders: dict[str, Any],
    django_capture_on_commit_callbacks: Any,
) -> None:
    keep(desk, series)
    button = {"text": str(in_force(series).pk)}
    for _ in range(2):
        desk.post(f"{words(series)}film/ask/", button)
    page = desk.get(f"{words(series)}film/ask/").content.decode()
    assert "will go out" not in page
    post_all(lambda: None, django_capture_on_commit_callbacks)
    assert len(mail.outbox) == 3


def test_a_letter_whose_job_runs_twice_leaves_once(
    desk: Client,
    series: Series,
    senders: dict[str, Any],
    django_capture_on_commit_callbacks: Any,
) -> None:
    keep(desk, series)
    button = {"text": str(in_force(series).pk)}
    post_all(
        lambda: desk.post(f"{words(series)}film/ask/", button), django_capture_on_commit_callbacks
    )
    with django_capture_on_commit_callbacks(execute=True):
        write_again(AskedAgain.objects.all()[0].pk)
    assert len(mail.outbox) == 3


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
    assert "3 letters asked about these words" in page and "1 was answered" in page


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


def test_words_changed_before_the_letter_leaves_there_is_none(
    desk: Client,
    series: Series,
    senders: dict[str, Any],
    django_capture_on_commit_callbacks: Any,
) -> None:
    keep(desk, series)
    desk.post(f"{words(series)}film/ask/", {"text": str(in_force(series).pk)})
    keep(desk, series, sentence="Other words again?")
    post_all(lambda: None, django_capture_on_commit_callbacks)
    assert not mail.outbox and not AskedAgain.objects.exists()


def test_erased_before_the_letter_leaves_there_is_none(
    desk: Client,
    series: Series,
    senders: dict[str, Any],
    django_capture_on_commit_callbacks: Any,
) -> None:
    keep(desk, series)
    desk.post(f"{words(series)}film/ask/", {"text": str(in_force(series).pk)})
    erase_everywhere(senders["yes"].row)
    post_all(lambda: None, django_capture_on_commit_callbacks)
    assert not letters_to("yes@example.org") and len(letters_to("no@example.org")) == 1


def test_going_to_the_page_that_asks_again_sends_nothing(
    desk: Client, series: Series, senders: dict[str, Any]
) -> None:
    keep(desk, series)
    desk.get(f"{words(series)}film/ask/")
    assert jobs.work_off() == 0 and not AskedAgain.objects.exists()


def test_the_letter_is_plain_text_with_a_simple_html_twin(
    desk: Client,
    series: Series,
    senders: dict[str, Any],
    django_capture_on_commit_callbacks: Any,
) -> None:
    keep(desk, series, sentence="May I show <b>it</b> & you?")
    button = {"text": str(in_force(series).pk)}
    post_all(
        lambda: desk.post(f"{words(series)}film/ask/", button), django_capture_on_commit_callbacks
    )
    letter = mail.outbox[0]
    html = str(letter.alternatives[0][0])  # type: ignore[attr-defined]
    assert "May I show <b>it</b> & you?" in letter.body
    assert "May I show &lt;b&gt;it&lt;/b&gt; &amp; you?" in html and "<img" not in html


def test_words_may_be_looked_at_before_they_are_kept(desk: Client, series: Series) -> None:
    answer = desk.post(words(series), {"purpose": "film", "look": "yes", **NEW})
    page = answer.content.decode()
    assert answer.status_code == 200 and "Not kept yet. Knitters will see it so:" in page
    assert page.count(NEW["film-sentence"]) == 2  # as knitters see it, and still in its field
    assert not ConsentText.objects.filter(scope=series.slug).exists()


def test_a_line_end_in_the_sentence_is_a_space(desk: Client, series: Series) -> None:
    keep(desk, series, sentence="You may show\r\nmy photos.")
    assert in_force(series).sentence == "You may show my photos."


def test_line_ends_count_once_as_the_browser_counts_them(desk: Client, series: Series) -> None:
    keep(desk, series, meaning="x" * 998 + "\r\n" + "y" * 1001)
    assert len(in_force(series).meaning) == 2000


def test_a_wording_is_not_replaced_either(desk: Client, series: Series) -> None:
    keep(desk, series)
    if connection.vendor != "sqlite":
        pytest.skip("INSERT OR REPLACE is SQLite's own")
    replace = "INSERT OR REPLACE INTO consent_consenttext SELECT * FROM consent_consenttext LIMIT 1"
    with pytest.raises(DatabaseError), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(replace)


@pytest.mark.parametrize("answer", [True, False])
def test_wider_words_neither_widen_a_yes_nor_lift_a_no(
    desk: Client, series: Series, garment: Any, answer: bool
) -> None:
    sent = garment(allows=[FILM] if answer else [])
    keep(desk, series, sentence="My photos may be used for anything at all.")
    assert [one for one in PURPOSES if gate.may_use(sent.row.agreement_id, one)] == (
        [FILM] if answer else []
    )


def test_the_call_and_the_sending_form_show_the_words_of_the_series(
    desk: Client, series: Series
) -> None:
    keep(desk, series)
    for page in (f"/series/{series.slug}/", f"/series/{series.slug}/send/"):
        assert NEW["film-sentence"] in Client().get(page).content.decode()


COMBINATIONS = list(itertools.product([False, True], repeat=4))


@pytest.mark.parametrize("answers", COMBINATIONS)
def test_what_is_answered_through_the_letters_link_is_stored_exactly(
    desk: Client,
    series: Series,
    garment: Any,
    answers: tuple[bool, ...],
    django_capture_on_commit_callbacks: Any,
) -> None:
    sent = garment(allows=[FILM, NAME], email="yes@example.org")
    for purpose in PURPOSES:
        new = {f"{purpose}-sentence": f"New: {purpose}?", f"{purpose}-meaning": "As it says."}
        desk.post(words(series), {"purpose": purpose, **new})
    button = {"text": str(in_force(series).pk)}
    post_all(
        lambda: desk.post(f"{words(series)}film/ask/", button), django_capture_on_commit_callbacks
    )
    token = re.search(r"/mine/link/([\w-]+)/", letters_to("yes@example.org")[0])
    browser = Client()
    browser.get(f"/mine/link/{token[1]}/")  # type: ignore[index]
    for purpose, is_yes in zip(PURPOSES, answers, strict=True):
        said = {"answer": "yes" if is_yes else "no", "text": str(in_force(series, purpose).pk)}
        page = f"/mine/{sent.row.public_id}/permissions/"
        browser.post(page, {"purpose": purpose, **said})
    newest = [sent.row.agreement.entries.filter(purpose=one).latest("seq") for one in PURPOSES]
    assert tuple(one.answer == Entry.Answer.GIVEN for one in newest) == answers
    assert [one.text.sentence for one in newest] == [f"New: {one}?" for one in PURPOSES]
    assert {one.actor for one in newest} == {Entry.Actor.SENDER}
