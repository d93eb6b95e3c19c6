"""One garment on the teacher's table: each photo and the words, with what is allowed of them."""

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from django.forms import BaseForm

from alterations.records import store
from gallery.consent import gate
from gallery.consent.models import Agreement, Entry
from gallery.consent.purposes import FILM, NAME, NOTES, PUBLIC_PAGES
from gallery.contributions.models import Contribution, Photo
from gallery.contributions.shown import ShownPicture, shown
from gallery.review.decide import waiting
from gallery.review.differences import Difference, differences_of
from gallery.review.forms import VerdictForm
from gallery.review.models import Verdict
from gallery.review.standing import garments_with_new_names
from gallery.review.state import Standing, standings_of

WORDS, NAME_OF_KNITTER = "words", "name"
Verdicts = dict[int | str | None, list[Verdict]]
SIGNS = {
    Verdict.Decision.APPROVE: "approved",
    Verdict.Decision.ASK: "asked",
    Verdict.Decision.DECLINE: "declined",
}


@dataclass(frozen=True)
class Allowance:
    """How one permission stands: yes, no or withdrawn, and since when."""

    purpose: str
    sign: str
    at: datetime.datetime | None


@dataclass(frozen=True)
class Thing:
    """A photo, or the words (photo None): the verdict on it and the form for the next one."""

    about: str
    form: BaseForm
    is_shown_anywhere: bool
    photo: Photo | None = None
    picture: ShownPicture | None = None
    verdict: Verdict | None = None
    earlier: Sequence[Verdict] = ()
    is_changed: bool = False

    @property
    def sign(self) -> str:
        """The sign in parts/state.html."""
        return SIGNS[Verdict.Decision(self.verdict.decision)] if self.verdict else "waiting"


@dataclass(frozen=True)
class OnTable:
    """Everything the teacher looks at to decide."""

    garment: Contribution
    standing: Standing
    photos: Sequence[Thing]
    words: Thing
    name: Thing | None
    allowed: Sequence[Allowance]
    numbers: store.Summary | None
    last_verdict: int
    waiting: int
    differences: Sequence[Difference] = ()

    @property
    def is_waiting(self) -> bool:
        """Whether "approve all that waits" has anything to do."""
        return bool(self.waiting)


def on_table(garment: Contribution, typed: Mapping[str, BaseForm] | None = None) -> OnTable:
    """The garment with its verdicts; `typed` holds forms that came back, by what they are about."""
    verdicts = _verdicts(garment)
    allowed = allowances(garment.agreement)
    given = {one.purpose for one in allowed if one.sign == "yes"}
    forms = typed or {}
    make = Making(garment, verdicts, forms)
    photos = [
        make.thing(photo, is_shown_anywhere=bool(given & {FILM, PUBLIC_PAGES}))
        for photo in garment.photos.prefetch_related("renditions")
    ]
    return OnTable(
        garment=garment,
        standing=standings_of(Contribution.objects.filter(pk=garment.pk))[garment.pk],
        photos=photos,
        words=make.thing(None, is_shown_anywhere=NOTES in given),
        name=make.name(is_shown_anywhere=NAME in given),
        allowed=allowed,
        numbers=store.summary_of(garment.sheet) if garment.sheet else None,
        last_verdict=max((one.pk for known in verdicts.values() for one in known), default=0),
        waiting=len(waiting(garment)),
        differences=differences_of(garment),
    )


def allowances(agreement: Agreement | None) -> list[Allowance]:
    """The four permissions in the order they are asked; no agreement allows nothing."""
    return [_allowance(agreement, purpose) for purpose in (FILM, PUBLIC_PAGES, NOTES, NAME)]


def _allowance(agreement: Agreement | None, purpose: str) -> Allowance:
    entry = gate.standing_permission(agreement, purpose).entry if agreement else None
    signs = {Entry.Answer.GIVEN: "yes", Entry.Answer.WITHDRAWN: "withdrawn"}
    sign = signs.get(Entry.Answer(entry.answer), "no") if entry else "no"
    return Allowance(purpose, sign, entry.at if entry else None)


def _verdicts(garment: Contribution) -> Verdicts:
    """All verdicts on each photo, on the words and on the name, the newest first."""
    known: Verdicts = {}
    for verdict in garment.verdicts.select_related("by").order_by("-pk"):
        about = NAME_OF_KNITTER if verdict.of_name else verdict.photo_id
        known.setdefault(about, []).append(verdict)
    return known


def _since(photo: Photo) -> int:
    """In which edition a photo became what it is; emptied words leave nothing to decide on."""
    return max(photo.edition, photo.words_edition) if photo.description else photo.edition


@dataclass(frozen=True)
class Making:
    """What the things on the table are made from."""

    garment: Contribution
    verdicts: Verdicts
    forms: Mapping[str, BaseForm]

    def thing(self, photo: Photo | None, *, is_shown_anywhere: bool) -> Thing:
        """A photo, or (None) the words."""
        known = self.verdicts.get(photo.pk if photo else None, [])
        since = _since(photo) if photo else self.garment.words_edition
        return Thing(
            photo=photo,
            picture=shown(photo, "large") if photo else None,
            **self._judged(photo.public_id if photo else WORDS, known, since),
            is_shown_anywhere=is_shown_anywhere,
        )

    def name(self, *, is_shown_anywhere: bool) -> Thing | None:
        """The name, where it was changed after something had been decided; else None."""
        garment = self.garment
        known = self.verdicts.get(NAME_OF_KNITTER, [])
        is_new = garments_with_new_names().filter(pk=garment.pk).exists()
        if not known and not is_new:
            return None
        judged = self._judged(NAME_OF_KNITTER, known, garment.name_edition)
        return Thing(**judged, is_shown_anywhere=is_shown_anywhere)

    def _judged(self, about: str, known: Sequence[Verdict], since: int) -> dict[str, Any]:
        """The verdict that covers a thing as it is since that edition; the form for the next."""
        newest = known[0] if known else None
        covers = newest is not None and newest.edition >= since
        seen = {"seen": newest.pk if newest else 0, "edition": self.garment.edition}
        return {
            "about": about,
            "form": self.forms.get(about) or VerdictForm(about, initial=seen),
            "verdict": newest if covers else None,
            "earlier": known[1:] if covers else known,
            "is_changed": newest is not None and not covers,
        }
