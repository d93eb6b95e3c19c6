"""The teacher decides: verdicts are added in one deed, and the sender gets a letter.

A verdict is about what she saw: if the sender changed the garment after the page was opened,
nothing is added and she looks again.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from django.contrib.auth.models import User
from django.db import transaction

from gallery.contributions.editing.history import OF_PHOTO, OF_WORDS, What, close
from gallery.contributions.models import Contribution, Photo
from gallery.review.answer_letter import write_letter
from gallery.review.models import Verdict
from gallery.review.standing import (
    garments_with_new_names,
    newest_verdict,
    photos_with_new_words,
    verdict_on,
)


class DecidedMeanwhileError(Exception):
    """Somebody decided after the page was opened; nothing was added."""


class ChangedMeanwhileError(Exception):
    """The sender changed the garment after the page was opened; nothing was added."""


@dataclass(frozen=True)
class Ruling:
    """One decision on a photo, or (photo None) on the words, or (of_name) on a changed name.

    `seen` is the verdict last seen, `edition` the garment's edition that was on the page.
    """

    photo: Photo | None
    decision: Verdict.Decision
    note: str = ""
    seen: int = 0
    edition: int = 1
    of_name: bool = False


@transaction.atomic
def decide(garment: Contribution, ruling: Ruling, by: User) -> Verdict:
    """Add one verdict, with a letter where it asks or declines.

    The same answer given twice is kept once. Raises DecidedMeanwhileError where another verdict
    than the one last seen stands, ChangedMeanwhileError where another edition does.
    """
    _take_turn(garment, ruling.edition)
    standing = newest_verdict(garment, ruling.photo, of_name=ruling.of_name)
    if standing is not None and _says_the_same(standing, ruling, by):
        return standing
    if (standing.pk if standing else 0) != ruling.seen:
        raise DecidedMeanwhileError
    verdict = _add(garment, ruling, by)
    if verdict.decision != Verdict.Decision.APPROVE:
        write_letter(verdict)
    return verdict


@transaction.atomic
def approve_waiting(
    garment: Contribution, seen: int, by: User, edition: int = 1
) -> Sequence[Verdict]:
    """Approve everything that waits, and note that every change was looked at.

    `seen` is the garment's last verdict. Raises DecidedMeanwhileError where anything of the garment
    was decided since, ChangedMeanwhileError where it was changed.
    """
    _take_turn(garment, edition)
    rulings = waiting(garment)
    if rulings and last_verdict(garment) != seen:
        raise DecidedMeanwhileError
    kept = [_add(garment, replace(one, edition=edition), by) for one in rulings]
    close(garment, tuple(What))
    return kept


def waiting(garment: Contribution) -> list[Ruling]:
    """The approval of each thing that waits: new, or changed since it was approved."""
    approve = Verdict.Decision.APPROVE
    photos = list(garment.photos.all())
    new_words = set(photos_with_new_words().filter(contribution=garment))
    found = [
        Ruling(photo, approve)
        for photo in photos
        if photo in new_words or verdict_on(garment, photo) is None
    ]
    if verdict_on(garment, None) is None:
        found.append(Ruling(None, approve))
    if garments_with_new_names().filter(pk=garment.pk).exists():
        found.append(Ruling(None, approve, of_name=True))
    return found


def last_verdict(garment: Contribution) -> int:
    """The number of the garment's newest verdict, 0 where there is none."""
    newest = Verdict.objects.filter(contribution=garment).order_by("-pk").first()
    return newest.pk if newest else 0


def _take_turn(garment: Contribution, edition: int) -> None:
    """One decision at a time on a garment: looking and adding belong together."""
    if Contribution.objects.select_for_update().get(pk=garment.pk).edition != edition:
        raise ChangedMeanwhileError


def _says_the_same(standing: Verdict, ruling: Ruling, by: User) -> bool:
    said = (standing.decision, standing.note, standing.by_id, standing.edition)
    return said == (ruling.decision, ruling.note, by.pk, ruling.edition)


def _add(garment: Contribution, ruling: Ruling, by: User) -> Verdict:
    """One verdict more; of what was changed the difference is looked at now."""
    if last_verdict(garment) == 0:  # of the whole garment she has seen nothing but this
        close(garment, (What.NAME, What.REMOVED))
    verdict = Verdict.objects.create(
        contribution=garment,
        photo=ruling.photo,
        of_name=ruling.of_name,
        edition=ruling.edition,
        decision=ruling.decision,
        note=ruling.note,
        by=by,
    )
    if ruling.of_name:
        close(garment, (What.NAME,))
    else:
        close(garment, OF_PHOTO if ruling.photo else OF_WORDS, ruling.photo)
    return verdict
