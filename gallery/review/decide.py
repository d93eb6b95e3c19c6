"""The teacher decides: verdicts are added in one deed, and the sender gets a letter."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.contrib.auth.models import User
from django.db import transaction

from gallery.contributions.models import Contribution, Photo
from gallery.review.answer_letter import write_letter
from gallery.review.models import Verdict
from gallery.review.standing import verdict_on


class DecidedMeanwhileError(Exception):
    """Somebody decided after the page was opened; nothing was added."""


@dataclass(frozen=True)
class Ruling:
    """One decision on a photo, or (photo None) on the words; `seen` is the verdict last seen."""

    photo: Photo | None
    decision: Verdict.Decision
    note: str = ""
    seen: int = 0


@transaction.atomic
def decide(garment: Contribution, ruling: Ruling, by: User) -> Verdict:
    """Add one verdict, with a letter where it asks or declines.

    The same answer given twice is kept once. Raises DecidedMeanwhileError where another verdict
    than the one last seen stands.
    """
    _take_turn(garment)
    standing = verdict_on(garment, ruling.photo)
    if standing is not None and _says_the_same(standing, ruling, by):
        return standing
    if (standing.pk if standing else 0) != ruling.seen:
        raise DecidedMeanwhileError
    verdict = _add(garment, ruling, by)
    if verdict.decision != Verdict.Decision.APPROVE:
        write_letter(verdict)
    return verdict


@transaction.atomic
def approve_waiting(garment: Contribution, seen: int, by: User) -> Sequence[Verdict]:
    """Approve every photo without a verdict, and the words; `seen` is the garment's last verdict.

    Raises DecidedMeanwhileError where anything of the garment was decided since.
    """
    _take_turn(garment)
    things = [*garment.photos.all(), None]
    waiting = [thing for thing in things if verdict_on(garment, thing) is None]
    if waiting and last_verdict(garment) != seen:
        raise DecidedMeanwhileError
    return [_add(garment, Ruling(thing, Verdict.Decision.APPROVE), by) for thing in waiting]


def last_verdict(garment: Contribution) -> int:
    """The number of the garment's newest verdict, 0 where there is none."""
    newest = Verdict.objects.filter(contribution=garment).order_by("-pk").first()
    return newest.pk if newest else 0


def _take_turn(garment: Contribution) -> None:
    """One decision at a time on a garment: looking and adding belong together."""
    Contribution.objects.select_for_update().get(pk=garment.pk)


def _says_the_same(standing: Verdict, ruling: Ruling, by: User) -> bool:
    said = (standing.decision, standing.note, standing.by_id)
    return said == (ruling.decision, ruling.note, by.pk)


def _add(garment: Contribution, ruling: Ruling, by: User) -> Verdict:
    return Verdict.objects.create(
        contribution=garment,
        photo=ruling.photo,
        decision=ruling.decision,
        note=ruling.note,
        by=by,
    )
