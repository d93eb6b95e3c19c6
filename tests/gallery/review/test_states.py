"""How a garment stands: worked out from the newest verdicts and the permissions that are left."""

from collections.abc import Callable, Sequence
from typing import Any

import pytest

from gallery.consent.purposes import FILM, NAME, NOTES, PUBLIC_PAGES
from gallery.contributions.models import Contribution
from gallery.review.models import Verdict
from gallery.review.standing import approved_photos, verdict_on, waiting_photos
from gallery.review.state import Standing, State, standings_of

APPROVE, ASK, DECLINE = Verdict.Decision
Maker = Callable[..., Any]


def standing_of(made: Any) -> Standing:
    return standings_of(Contribution.objects.filter(pk=made.row.pk))[made.row.pk]


@pytest.mark.parametrize(
    ("decisions", "state"),
    [
        ([None, None], State.WAITING),
        ([None], State.WAITING),
        ([APPROVE, None], State.PARTLY),
        ([ASK, None], State.PARTLY),
        ([DECLINE, None], State.PARTLY),
        ([APPROVE, APPROVE], State.APPROVED),
        ([APPROVE, DECLINE], State.APPROVED),
        ([APPROVE, ASK], State.ASKED),
        ([DECLINE, ASK], State.ASKED),
        ([DECLINE, DECLINE], State.DECLINED),
    ],
)
def test_the_state_follows_from_the_decisions(
    decisions: Sequence[str | None], state: State
) -> None:
    assert Standing(decisions).state is state


def test_an_approval_beside_a_refusal_is_called_approved_in_part() -> None:
    assert Standing([APPROVE, DECLINE]).words == "Approved in part"


def test_where_nothing_is_allowed_any_more_nothing_waits() -> None:
    standing = Standing([None, APPROVE], is_taken_back=True)
    assert (standing.state, standing.waiting) == (State.TAKEN_BACK, 0)


def test_of_two_verdicts_the_newest_stands(garment: Maker) -> None:
    made = garment()
    made.decide_on(made.photo, DECLINE)
    made.decide_on(made.photo, APPROVE)
    standing = verdict_on(made.row, made.photo)
    assert standing is not None and standing.decision == APPROVE
    assert list(approved_photos()) == [made.photo]
    assert not waiting_photos().exists()


def test_a_verdict_on_the_words_is_none_on_the_photos(garment: Maker) -> None:
    made = garment(photos=2)
    made.decide_on(None)
    assert standing_of(made).decisions == (None, None, APPROVE)


def test_a_draft_stands_nowhere(garment: Maker) -> None:
    made = garment(sent_at=None)
    assert standings_of(Contribution.objects.filter(pk=made.row.pk)) == {}


def test_when_every_permission_is_withdrawn_nothing_is_allowed_any_more(garment: Maker) -> None:
    made = garment(allows=[FILM, NAME])
    made.take_back(FILM)
    assert standing_of(made).state is State.WAITING
    made.take_back(NAME)
    assert standing_of(made).state is State.TAKEN_BACK


def test_a_garment_that_never_allowed_anything_still_waits_for_an_answer(garment: Maker) -> None:
    assert standing_of(garment(allows=[])).state is State.WAITING


def test_one_permission_left_is_enough_to_stay_on_the_desk(garment: Maker) -> None:
    made = garment(allows=[PUBLIC_PAGES, NOTES])
    made.take_back(PUBLIC_PAGES)
    assert standing_of(made).state is State.WAITING


def test_the_standings_are_read_oldest_first(garment: Maker) -> None:
    first, second = garment(), garment()
    assert list(standings_of(Contribution.objects.all())) == [first.row.pk, second.row.pk]
