"""What a parent or guardian is asked about: a child's picture, or a young sender's garment."""

import datetime
from collections.abc import Sequence
from dataclasses import dataclass

from gallery.consent import gate
from gallery.consent.models import Agreement, ConsentText, Entry
from gallery.consent.purposes import FILM, PUBLIC_PAGES, PURPOSES
from gallery.contributions.models import Contribution, GuardianAnswer, Photo, PrivateLink

PHOTO_PURPOSES = (FILM, PUBLIC_PAGES)
Scope = GuardianAnswer.Scope


@dataclass(frozen=True)
class Asked:
    """One question to a guardian: the exact words the sender allowed, and the newest answer."""

    purpose: str
    text: ConsentText
    since: datetime.datetime
    answer: GuardianAnswer | None

    @property
    def is_to_older_words(self) -> bool:
        """Whether that answer was to other words: it goes on for these, and for no others."""
        return self.answer is not None and self.answer.text_sha256 != self.text.sha256


@dataclass(frozen=True)
class Care:
    """What one guardian is asked about: a photo, or (photo None) the whole garment."""

    garment: Contribution
    photo: Photo | None
    questions: Sequence[Asked]

    @property
    def about(self) -> str:
        """The opaque id of the thing."""
        return self.photo.public_id if self.photo else self.garment.public_id

    @property
    def scope(self) -> GuardianAnswer.Scope:
        """Whether it is a photo or the whole garment."""
        return Scope.PHOTO if self.photo else Scope.GARMENT

    @property
    def is_open(self) -> bool:
        """Whether an answer is still missing."""
        return any(one.answer is None for one in self.questions)

    @property
    def has_newer_words(self) -> bool:
        """Whether the sender has answered newer words than the guardian did."""
        return any(one.is_to_older_words for one in self.questions)

    @property
    def is_confirmed(self) -> bool:
        """Whether everything that is asked has a yes."""
        return all(one.answer is not None and one.answer.is_yes for one in self.questions)

    @property
    def is_refused(self) -> bool:
        """Whether anything that is asked has a no."""
        return any(one.answer is not None and not one.answer.is_yes for one in self.questions)


def care_of(garment: Contribution, photo: Photo | None) -> Care:
    """One thing with what is asked about it now: what its sender allows at this moment."""
    purposes = PHOTO_PURPOSES if photo else PURPOSES
    about = photo.public_id if photo else garment.public_id
    allowed = _allowed(garment, purposes)
    changed = None if photo else _changed_at(garment)
    asked = [
        Asked(
            one.purpose,
            one.text,
            max(one.at, changed) if changed else one.at,
            _standing(newest(about, one.purpose), garment, photo),
        )
        for one in allowed
    ]
    return Care(garment, photo, asked)


def _standing(
    answer: GuardianAnswer | None, garment: Contribution, photo: Photo | None
) -> GuardianAnswer | None:
    """A no stands; a yes to a whole garment stands for what the guardian saw of it."""
    if answer is None or photo is not None or not answer.is_yes:
        return answer
    return answer if (answer.edition or 1) >= garment.guardian_edition else None


def _changed_at(garment: Contribution) -> datetime.datetime | None:
    """When a young sender last changed what her guardian has to look at; None for never."""
    line = garment.history.filter(edition=garment.guardian_edition).first()
    return line.at if line and garment.is_younger else None


def cares_of(link: PrivateLink) -> list[Care]:
    """Everything that link's address was given for: the garment first, then photo by photo."""
    garment, address = link.contribution, link.for_address
    whole = [None] if garment.is_younger and garment.guardian_email == address else []
    photos = garment.photos.filter(people=Photo.People.CHILD, guardian_email=address)
    return [care_of(garment, one) for one in (*whole, *photos.prefetch_related("renditions"))]


def newest(about: str, purpose: str) -> GuardianAnswer | None:
    """The answer that stands about a thing and a purpose."""
    answers = GuardianAnswer.objects.filter(about=about, purpose=purpose)
    return answers.order_by("-pk").first()


def addressed(garment: Contribution) -> list[tuple[str, Care]]:
    """Each guardian's address with the thing it was given for."""
    found = []
    if garment.is_younger and garment.guardian_email:
        found.append((garment.guardian_email, care_of(garment, None)))
    for photo in garment.photos.filter(people=Photo.People.CHILD).exclude(guardian_email=""):
        found.append((photo.guardian_email, care_of(garment, photo)))
    return found


def _allowed(garment: Contribution, purposes: Sequence[str]) -> list[Entry]:
    """The entries that allow these purposes now, each with the words the sender said yes to."""
    page: Agreement | None = garment.agreement
    if page is None:
        return []
    standing = [gate.standing_permission(page, purpose) for purpose in purposes]
    return [one.entry for one in standing if one.is_given and one.entry]
