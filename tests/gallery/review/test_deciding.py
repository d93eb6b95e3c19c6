"""Deciding: verdicts are added, never changed; nobody is overwritten; letters leave on commit."""

from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import transaction
from django.utils.formats import date_format

from gallery.review import decide as deciding
from gallery.review.decide import DecidedMeanwhileError, Ruling, approve_waiting, decide
from gallery.review.models import Verdict
from gallery.review.standing import verdict_on

APPROVE, ASK, DECLINE = Verdict.Decision
Maker = Callable[..., Any]


@pytest.fixture
def capture(django_capture_on_commit_callbacks: Any) -> Any:
    """Runs what was put off until the transaction is kept."""
    return django_capture_on_commit_callbacks


def rows() -> list[dict[str, Any]]:
    return list(Verdict.objects.order_by("pk").values())


def newest() -> int:
    return Verdict.objects.order_by("-pk")[0].pk


def test_deciding_adds_a_row_and_changes_none(garment: Maker, teacher: User) -> None:
    made = garment()
    first = decide(made.row, Ruling(made.photo, ASK, "Is the hem folded?"), teacher)
    before = rows()
    decide(made.row, Ruling(made.photo, APPROVE, seen=first.pk), teacher)
    assert rows()[:-1] == before
    assert len(rows()) == 2


def test_the_newest_verdict_stands(garment: Maker, teacher: User) -> None:
    made = garment()
    first = decide(made.row, Ruling(made.photo, APPROVE), teacher)
    decide(made.row, Ruling(made.photo, DECLINE, seen=first.pk), teacher)
    standing = verdict_on(made.row, made.photo)
    assert standing is not None and standing.decision == DECLINE


def test_who_decided_on_an_old_page_overwrites_nothing(
    garment: Maker, teacher: User, other_teacher: User
) -> None:
    made = garment()
    decide(made.row, Ruling(made.photo, APPROVE), other_teacher)
    with pytest.raises(DecidedMeanwhileError):
        decide(made.row, Ruling(made.photo, DECLINE, seen=0), teacher)
    assert [row["decision"] for row in rows()] == [APPROVE]


def test_deciding_on_one_photo_is_no_race_with_the_other(garment: Maker, teacher: User) -> None:
    made = garment(photos=2)
    for photo in made.row.photos.all():
        decide(made.row, Ruling(photo, APPROVE, seen=0), teacher)
    assert len(rows()) == 2


def test_a_double_click_is_kept_once(garment: Maker, teacher: User) -> None:
    made = garment()
    for _click in range(2):
        decide(made.row, Ruling(made.photo, APPROVE, seen=0), teacher)
    assert len(rows()) == 1


def test_approving_all_approves_photos_and_words(garment: Maker, teacher: User) -> None:
    made = garment(photos=2)
    approve_waiting(made.row, 0, teacher)
    decided = {(row["photo_id"], row["decision"]) for row in rows()}
    first, second = made.row.photos.all()
    assert decided == {(first.pk, APPROVE), (second.pk, APPROVE), (None, APPROVE)}


def test_approving_all_leaves_what_is_decided(garment: Maker, teacher: User) -> None:
    made = garment(photos=2)
    made.decide_on(made.photo, DECLINE)
    approve_waiting(made.row, newest(), teacher)
    standing = verdict_on(made.row, made.photo)
    assert standing is not None and standing.decision == DECLINE
    assert len(rows()) == 3


def test_approving_all_on_an_old_page_approves_nothing(garment: Maker, teacher: User) -> None:
    made = garment(photos=2)
    made.decide_on(made.photo, DECLINE)
    with pytest.raises(DecidedMeanwhileError):
        approve_waiting(made.row, 0, teacher)
    assert len(rows()) == 1


def test_approving_all_twice_is_the_same_as_once(garment: Maker, teacher: User) -> None:
    made = garment()
    approve_waiting(made.row, 0, teacher)
    assert approve_waiting(made.row, 0, teacher) == []


def test_approving_all_is_all_or_nothing(
    garment: Maker, teacher: User, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = garment(photos=2)
    add, calls = deciding._add, iter([True, True, False])

    def stops_at_the_third(*given: Any) -> Verdict:
        if not next(calls):
            raise OSError("the machine stops here")
        return add(*given)

    monkeypatch.setattr(deciding, "_add", stops_at_the_third)
    with pytest.raises(OSError, match="stops here"), transaction.atomic():
        approve_waiting(made.row, 0, teacher)
    assert rows() == []


def test_a_question_leaves_as_a_letter_when_it_is_kept(
    garment: Maker, teacher: User, mailoutbox: Any, capture: Any
) -> None:
    made = garment(email="tamsin@example.org")
    with capture(execute=True):
        decide(made.row, Ruling(made.photo, ASK, "Is the hem folded & sewn?"), teacher)
        assert mailoutbox == []
    (letter,) = mailoutbox
    assert letter.to == ["tamsin@example.org"]
    assert "Is the hem folded & sewn?" in letter.body
    assert "picture number 1" in letter.body


def test_a_refusal_leaves_as_a_letter_with_its_note(
    garment: Maker, teacher: User, mailoutbox: Any, capture: Any
) -> None:
    made = garment(email="tamsin@example.org")
    with capture(execute=True):
        decide(made.row, Ruling(None, DECLINE, "Two are alike."), teacher)
    assert "words and numbers" in mailoutbox[0].body
    assert "Two are alike." in mailoutbox[0].body


@pytest.mark.parametrize("decision", [ASK, DECLINE])
def test_the_letter_names_the_private_link_and_holds_none(
    garment: Maker,
    teacher: User,
    mailoutbox: Any,
    capture: Any,
    decision: Verdict.Decision,
) -> None:
    made = garment(email="tamsin@example.org")
    with capture(execute=True):
        decide(made.row, Ruling(made.photo, decision, "A word."), teacher)
    body = mailoutbox[0].body
    assert "Your private link" in body
    assert "/mine/" not in body and made.token not in body


@pytest.mark.parametrize(
    ("email", "decision"), [("tamsin@example.org", APPROVE), ("", ASK), ("", DECLINE)]
)
def test_no_letter_on_approval_nor_without_an_address(
    garment: Maker,
    mailoutbox: Any,
    capture: Any,
    email: str,
    decision: Verdict.Decision,
) -> None:
    made = garment(email=email)
    with capture(execute=True):
        decide(made.row, Ruling(made.photo, decision, "A word."), made.series.teacher)
    assert mailoutbox == []


def test_the_day_of_a_verdict_is_kept(garment: Maker, teacher: User) -> None:
    made = garment()
    verdict = decide(made.row, Ruling(None, APPROVE), teacher)
    assert date_format(verdict.at, "Y-m-d") == date_format(made.row.sent_at, "Y-m-d")
    assert verdict.by == teacher
