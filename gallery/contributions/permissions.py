"""What the sender allows, in the exact words, and how she changes it: each change an entry."""

import datetime
from collections.abc import Mapping
from dataclasses import dataclass

from django.db import transaction
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from gallery.consent import gate, ledger
from gallery.consent.models import Agreement, ConsentText, Entry
from gallery.consent.purposes import PURPOSES, QUESTIONS
from gallery.consent.texts import current_texts, wordings
from gallery.contributions.models import Contribution
from gallery.contributions.people.guardian import ask_guardians

LABELS = {question.purpose: question.label for question in QUESTIONS}


class OtherWordsError(Exception):
    """The question that was answered is not the one in force; its text says what to do."""


class ChangedMeanwhileError(Exception):
    """The answers are not those that were seen any more."""


@dataclass(frozen=True)
class Standing:
    """How one permission stands: the words, the answer and when it was given.

    hers holds the words she answered, newer those in force where they are others. A yes to older
    words goes on for what these said; it is never taken as a yes to newer ones.
    """

    purpose: str
    label: str
    is_given: bool
    answer: str
    at: datetime.datetime | None
    text: ConsentText
    newer: ConsentText | None = None
    hers: ConsentText | None = None


@dataclass(frozen=True)
class Wish:
    """One answer as it arrives from the private page: to which purpose, and to which words."""

    purpose: str
    is_given: bool
    text: str = ""


def standing(garment: Contribution) -> list[Standing]:
    """All permissions of a garment.

    What is given shows the words it was given to; what is not shows the words now in force,
    because these are what a yes would be an answer to.
    """
    if garment.agreement is None:
        return []
    scope = garment.series.slug
    return [_standing(garment.agreement, text, scope) for text in current_texts(scope=scope)]


def _standing(agreement: Agreement, current: ConsentText, scope: str) -> Standing:
    permission = gate.standing_permission(agreement, current.purpose)
    entry = permission.entry
    if entry and permission.is_given and entry.text.language != current.language:
        # Words in another language are no newer words: compared with those of their own.
        current = wordings(current.purpose, scope, entry.text.language)[0]
    return Standing(
        purpose=current.purpose,
        label=capfirst(str(LABELS[current.purpose])),
        is_given=permission.is_given,
        answer=entry.answer if entry else Entry.Answer.REFUSED,
        at=entry.at if entry else None,
        text=entry.text if entry and permission.is_given else current,
        newer=current if _is_newer(entry, current) else None,
        hers=entry.text if entry else None,
    )


def _is_newer(entry: Entry | None, current: ConsentText) -> bool:
    """Whether the words in force are others than those answered, in the same language."""
    if entry is None or entry.text.language != current.language:
        return False
    return entry.text_sha256 != current.sha256


@transaction.atomic
def change(garment: Contribution, wish: Wish) -> None:
    """Give or withdraw one permission; asked for what stands already, it changes nothing.

    Raises OtherWordsError where the answer is to words not in force, or to no question at all.
    """
    agreement = _take_turn(garment)
    known = {one.purpose: one for one in standing(garment)}
    stands = known.get(wish.purpose)
    if agreement is None or stands is None:
        raise OtherWordsError(_("There is no such question. Please use the buttons of this page."))
    newer = stands.newer if stands.newer and wish.text == str(stands.newer.pk) else None
    if wish.is_given and newer is None and wish.text != str(stands.text.pk):
        raise OtherWordsError(_("The words of this question have changed. Please read them again."))
    if wish.is_given != stands.is_given or newer:
        ledger.add_entry(
            agreement,
            newer or stands.text,
            _answer(wish.is_given, stands),
            actor=Entry.Actor.SENDER,
            way=Entry.Way.PRIVATE_PAGE,
        )
        ask_guardians(garment)  # of what is newly allowed


@transaction.atomic
def record(
    garment: Contribution, answers: Mapping[ConsentText, bool], way: Entry.Way, seen: int
) -> list[Entry]:
    """Write what a sender told the teacher, each answer to the words it was given to; the guardians
    of what is newly allowed are asked as always.

    Raises ChangedMeanwhileError where the ledger holds newer answers than those seen.
    """
    agreement = _take_turn(garment)
    if agreement is None or last_entry(garment) != seen:
        raise ChangedMeanwhileError
    known = {one.purpose: one for one in standing(garment)}
    entries = [
        ledger.add_entry(
            agreement,
            text,
            _told(is_given, known[text.purpose]),
            actor=Entry.Actor.TEACHER,
            way=way,
        )
        for text, is_given in answers.items()
    ]
    ask_guardians(garment)
    return entries


def last_entry(garment: Contribution) -> int:
    """The number of the newest answer about a garment; 0 where there is none."""
    newest = Entry.objects.filter(agreement=garment.agreement_id).order_by("-seq")
    return newest.values_list("seq", flat=True).first() or 0


def _told(is_given: bool, stands: Standing) -> Entry.Answer:
    """A no to what was taken back before leaves it taken back."""
    if not is_given and stands.answer == Entry.Answer.WITHDRAWN:
        return Entry.Answer.WITHDRAWN
    return _answer(is_given, stands)


def _answer(is_given: bool, stands: Standing) -> Entry.Answer:
    """What the ledger says: a no to what was never given is a no, else it is taken back."""
    if is_given:
        return Entry.Answer.GIVEN
    return Entry.Answer.WITHDRAWN if stands.is_given else Entry.Answer.REFUSED


@transaction.atomic
def withdraw_all(garment: Contribution) -> None:
    """Withdraw every permission that is given."""
    _take_turn(garment)
    for purpose in PURPOSES:
        change(garment, Wish(purpose, is_given=False))


def _take_turn(garment: Contribution) -> Agreement | None:
    """Let a yes that is just being kept be seen by the withdrawal that comes behind it."""
    if garment.agreement_id is None:
        return None
    return Agreement.objects.select_for_update().get(pk=garment.agreement_id)
