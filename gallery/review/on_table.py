"""One garment on the teacher's table: each photo and the words, with what is allowed of them."""

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from django.forms import BaseForm

from alterations.records import store
from gallery.consent import gate
from gallery.consent.models import Agreement, Entry
from gallery.consent.purposes import FILM, NAME, NOTES, PUBLIC_PAGES
from gallery.contributions.models import Contribution, Photo
from gallery.contributions.shown import ShownPicture, shown
from gallery.review.forms import VerdictForm
from gallery.review.models import Verdict
from gallery.review.state import Standing, standings_of

WORDS = "words"
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
    allowed: Sequence[Allowance]
    numbers: store.Summary | None
    last_verdict: int

    @property
    def is_waiting(self) -> bool:
        """Whether "approve all that waits" has anything to do."""
        return None in self.standing.decisions


def on_table(garment: Contribution, typed: Mapping[str, BaseForm] | None = None) -> OnTable:
    """The garment with its verdicts; `typed` holds forms that came back, by what they are about."""
    verdicts = _verdicts(garment)
    allowed = allowances(garment.agreement)
    given = {one.purpose for one in allowed if one.sign == "yes"}
    forms = typed or {}
    photos = [
        _thing(photo, verdicts, forms, is_shown_anywhere=bool(given & {FILM, PUBLIC_PAGES}))
        for photo in garment.photos.prefetch_related("renditions")
    ]
    return OnTable(
        garment=garment,
        standing=standings_of(Contribution.objects.filter(pk=garment.pk))[garment.pk],
        photos=photos,
        words=_thing(None, verdicts, forms, is_shown_anywhere=NOTES in given),
        allowed=allowed,
        numbers=store.summary_of(garment.sheet) if garment.sheet else None,
        last_verdict=max((one.pk for known in verdicts.values() for one in known), default=0),
    )


def allowances(agreement: Agreement | None) -> list[Allowance]:
    """The four permissions in the order they are asked; no agreement allows nothing."""
    return [_allowance(agreement, purpose) for purpose in (FILM, PUBLIC_PAGES, NOTES, NAME)]


def _allowance(agreement: Agreement | None, purpose: str) -> Allowance:
    entry = gate.standing_permission(agreement, purpose).entry if agreement else None
    signs = {Entry.Answer.GIVEN: "yes", Entry.Answer.WITHDRAWN: "withdrawn"}
    sign = signs.get(Entry.Answer(entry.answer), "no") if entry else "no"
    return Allowance(purpose, sign, entry.at if entry else None)


def _verdicts(garment: Contribution) -> dict[int | None, list[Verdict]]:
    """All verdicts on each photo and on the words, the newest first."""
    known: dict[int | None, list[Verdict]] = {}
    for verdict in garment.verdicts.select_related("by").order_by("-pk"):
        known.setdefault(verdict.photo_id, []).append(verdict)
    return known


def _thing(
    photo: Photo | None,
    verdicts: Mapping[int | None, list[Verdict]],
    forms: Mapping[str, BaseForm],
    *,
    is_shown_anywhere: bool,
) -> Thing:
    about = photo.public_id if photo else WORDS
    known = verdicts.get(photo.pk if photo else None, [])
    newest = known[0] if known else None
    return Thing(
        about=about,
        form=forms.get(about) or VerdictForm(about, initial={"seen": newest.pk if newest else 0}),
        is_shown_anywhere=is_shown_anywhere,
        photo=photo,
        picture=shown(photo, "large") if photo else None,
        verdict=newest,
        earlier=known[1:],
    )
