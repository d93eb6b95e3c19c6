"""The ledger: added to, never changed, and every change of a byte is found."""

import itertools

import pytest
from django.db import DatabaseError, connection, transaction

from gallery.consent import gate, ledger
from gallery.consent.models import Agreement, ConsentText, Entry
from gallery.consent.purposes import FILM, NAME, PURPOSES
from gallery.consent.texts import add_text, current_texts, text_hash

pytestmark = pytest.mark.django_db


def agree(*given: str) -> Agreement:
    answers = {text: text.purpose in given for text in current_texts()}
    return ledger.open_agreement(answers, actor=Entry.Actor.SENDER, way=Entry.Way.FORM)


def answer(agreement: Agreement, purpose: str, said: Entry.Answer) -> Entry:
    text = next(text for text in current_texts() if text.purpose == purpose)
    return ledger.add_entry(
        agreement, text, said, actor=Entry.Actor.SENDER, way=Entry.Way.PRIVATE_PAGE
    )


@pytest.mark.parametrize("given", list(itertools.product([True, False], repeat=4)))
def test_every_combination_of_answers_is_kept_exactly(given: tuple[bool, ...]) -> None:
    wanted = dict(zip(PURPOSES, given, strict=True))
    agreement = agree(*(purpose for purpose, is_given in wanted.items() if is_given))
    assert {purpose: gate.may_use(agreement, purpose) for purpose in PURPOSES} == wanted


def test_an_entry_holds_the_exact_words_shown() -> None:
    entry = agree(FILM).entries.get(purpose=FILM)
    assert entry.text_sha256 == text_hash(entry.text.sentence, entry.text.meaning)


def test_a_withdrawal_closes_the_gate_at_once() -> None:
    agreement = agree(FILM)
    answer(agreement, FILM, Entry.Answer.WITHDRAWN)
    assert not gate.may_use(agreement, FILM)


def test_a_permission_given_again_opens_it_again() -> None:
    agreement = agree()
    answer(agreement, FILM, Entry.Answer.GIVEN)
    assert gate.may_use(agreement, FILM)


def test_no_agreement_allows_nothing() -> None:
    assert not any(gate.may_use(None, purpose) for purpose in PURPOSES)


def test_one_person_s_answer_says_nothing_about_another_s() -> None:
    agree(NAME)
    assert not gate.may_use(agree(FILM), NAME)


def test_a_changed_wording_is_a_new_version_and_old_answers_keep_theirs() -> None:
    entry = agree(FILM).entries.get(purpose=FILM)
    newer = add_text(FILM, "Shall we show it?", "In the film.")
    entry.refresh_from_db()
    assert (entry.text.version, newer.version) == (1, 2)


def test_the_same_wording_is_not_a_new_version() -> None:
    first = add_text(FILM, "Shall we?", "In the film.")
    assert add_text(FILM, "Shall we?", "In the film.") == first


ATTACKS = [
    "UPDATE consent_entry SET answer = 'given'",
    "DELETE FROM consent_entry",
    "UPDATE consent_consenttext SET sentence = 'anything goes'",
    "DELETE FROM consent_consenttext",
]


@pytest.mark.parametrize("attack", ATTACKS)
def test_the_database_itself_refuses_to_change_the_ledger(attack: str) -> None:
    agree(FILM)
    with pytest.raises(DatabaseError), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(attack)


@pytest.mark.skipif(connection.vendor != "sqlite", reason="REPLACE is SQLite's own")
def test_replacing_an_entry_is_refused_too() -> None:
    agree(FILM)
    replace = "INSERT OR REPLACE INTO consent_entry SELECT * FROM consent_entry LIMIT 1"
    with pytest.raises(DatabaseError), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(replace)


def test_an_untouched_ledger_has_no_broken_entries() -> None:
    agree(FILM, NAME)
    agree()
    assert list(ledger.broken_entries()) == []


@pytest.mark.skipif(connection.vendor != "sqlite", reason="takes the triggers off by hand")
@pytest.mark.parametrize(
    ("change", "fault"),
    [
        ("UPDATE consent_entry SET answer = 'given' WHERE seq = 2", "its own words were changed"),
        ("DELETE FROM consent_entry WHERE seq = 2", "entry 2 is missing"),
    ],
)
def test_a_change_behind_the_database_s_back_is_found(change: str, fault: str) -> None:
    agree(FILM)
    with connection.cursor() as cursor:
        for name in ("no_update", "no_delete"):
            cursor.execute(f"DROP TRIGGER consent_entry_{name}")
        cursor.execute(change)
    assert fault in [found for _, found in ledger.broken_entries()]


def test_texts_are_asked_in_the_same_order_every_time() -> None:
    assert [text.purpose for text in current_texts()] == list(PURPOSES)
    assert ConsentText.objects.count() == len(PURPOSES)
