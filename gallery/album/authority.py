"""The authority sheet of a film: what each slide rests on, as it was when the film was made."""

import datetime
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import chain
from typing import Any

from django.utils import timezone

from gallery.album.contents import contents_of
from gallery.album.models import Film, FilmItem
from gallery.album.pack import pack_sha256, plan_behind
from gallery.consent import gate
from gallery.consent.ledger import broken_entries, broken_texts
from gallery.consent.models import Entry
from gallery.consent.purposes import QUESTIONS
from gallery.contributions.models import GuardianAnswer, Photo
from gallery.contributions.people.answers import broken_answers

LABELS = {question.purpose: question.label for question in QUESTIONS}


@dataclass(frozen=True)
class Ground:
    """One answer a slide rests on: the ledger's entry with its words, and whether it stands now."""

    label: str
    entry: Entry
    stands: bool

    def plain(self) -> dict[str, Any]:
        """As values for a machine."""
        entry = self.entry
        return {
            "purpose": entry.purpose,
            "entry": entry.seq,
            "entry_uuid": str(entry.uuid),
            "answer": entry.answer,
            "entry_hash": entry.hash,
            "at": entry.at.isoformat(),
            "by": entry.actor,
            "way": entry.way,
            "text_version": entry.text.version,
            "text_scope": entry.text.scope,
            "text_language": entry.text.language,
            "text_sha256": entry.text_sha256,
            "sentence": entry.text.sentence,
            "stands": self.stands,
        }


@dataclass(frozen=True)
class Approval:
    """The teacher's approval of a photo or of a garment's words, as it stood then."""

    about: str
    verdict: int
    at: datetime.datetime
    by: str

    def plain(self) -> dict[str, Any]:
        """As values for a machine."""
        return {
            "about": self.about,
            "verdict": self.verdict,
            "at": self.at.isoformat(),
            "by": self.by,
        }


@dataclass(frozen=True)
class SlideGround:
    """One slide of the film with everything it rests on."""

    number: int
    time: str
    caption: str
    credit: str
    neutral: str
    names_nobody: bool
    photo: str
    is_gone: bool
    people: str
    people_seen_at: datetime.datetime | None
    grounds: Sequence[Ground]
    guardians: Sequence[GuardianAnswer]
    verdicts: Sequence[Approval]

    def plain(self) -> dict[str, Any]:
        """As values for a machine."""
        return {
            "slide": self.number,
            "time": self.time,
            "caption": self.caption,
            "credit": self.credit,
            "neutral_words": self.neutral,
            "neutral_by_choice": self.names_nobody,
            "photo": self.photo,
            "is_gone": self.is_gone,
            "people": self.people,
            "people_seen_at": self.people_seen_at.isoformat() if self.people_seen_at else None,
            "rests_on": [one.plain() for one in self.grounds],
            "guardian_answers": [
                {"answer": one.seq, "hash": one.hash, "purpose": one.purpose, "yes": one.is_yes}
                for one in self.guardians
            ],
            "approvals": [one.plain() for one in self.verdicts],
        }


@dataclass(frozen=True)
class Sheet:
    """The whole sheet; pack_sha256 is empty where the files are gone.

    `is_intact`: whether the whole chain was what was written when the sheet was asked for.
    """

    film: Film
    slides: Sequence[SlideGround]
    pack_sha256: str
    is_intact: bool
    looked_at: datetime.datetime

    def plain(self) -> dict[str, Any]:
        """As values for a machine."""
        return {
            "film": self.film.render.album.title,
            "series": self.film.render.album.series.title,
            "asked_at": self.film.render.requested_at.isoformat(),
            "made_at": self.film.published_at.isoformat(),
            "ledger_is_intact": self.is_intact,
            "looked_at": self.looked_at.isoformat(),
            "film_sha256": self.film.sha256,
            "pack_sha256": self.pack_sha256,
            "frames": self.film.frames,
            "seconds": str(self.film.seconds),
            "slides": [one.plain() for one in self.slides],
        }


def sheet_of(film: Film) -> Sheet:
    """Everything a film rested on when it was made, with what has become of it since."""
    items = {item.position: item for item in film.items.all()}
    entries = _entries(items.values())
    standing = _standing(entries.values())
    guardians = _guardian_answers(items.values())
    neutral = plan_behind(film).neutral_credit
    slides = []
    for shown in contents_of(film).slides:
        item = items.get(shown.number - 1)
        if item is None:
            continue  # a card with words rests on nobody's permission
        own = [entries[seq] for seq in item.entry_seqs if seq in entries]
        slides.append(
            SlideGround(
                number=shown.number,
                time=shown.time,
                caption=shown.caption,
                credit=shown.credit,
                neutral="" if shown.credit or shown.is_gone else neutral,
                names_nobody=item.names_nobody,
                photo=item.photo_public_id,
                is_gone=shown.is_gone,
                people=str(Photo.People(item.people).label) if item.people else "",
                people_seen_at=item.people_seen_at,
                grounds=[Ground(LABELS[one.purpose], one, one.seq in standing) for one in own],
                guardians=[guardians[seq] for seq in item.guardian_seqs if seq in guardians],
                verdicts=[_approval(told) for told in item.verdicts],
            )
        )
    return Sheet(film, slides, pack_sha256(film), _is_intact(), timezone.now())


def _approval(told: dict[str, Any]) -> Approval:
    at = datetime.datetime.fromisoformat(told["at"])
    return Approval(told["about"], told["verdict"], at, told["by"])


def _is_intact() -> bool:
    """Whether every entry, wording and guardian's answer of the whole site is what was written."""
    faults = chain(broken_entries(), broken_texts(), broken_answers())
    return next(iter(faults), None) is None


def _entries(items: Iterable[FilmItem]) -> dict[int, Entry]:
    numbers = {seq for item in items for seq in item.entry_seqs}
    rows = Entry.objects.filter(seq__in=numbers).select_related("text", "agreement")
    return {row.seq: row for row in rows}


def _standing(entries: Iterable[Entry]) -> set[int]:
    """Numbers of the entries whose purpose is still allowed."""
    asked = list(entries)
    allowed: dict[str, set[int]] = {}
    for purpose in {entry.purpose for entry in asked}:
        agreements: set[int] = {one.agreement_id for one in asked if one.purpose == purpose}
        rows = gate.agreements_allowing(purpose).filter(pk__in=agreements)
        allowed[purpose] = set(rows.values_list("pk", flat=True))
    return {one.seq for one in asked if one.agreement_id in allowed[one.purpose]}


def _guardian_answers(items: Iterable[FilmItem]) -> dict[int, GuardianAnswer]:
    numbers = {seq for item in items for seq in item.guardian_seqs}
    rows = GuardianAnswer.objects.filter(seq__in=numbers).select_related("text")
    return {row.seq: row for row in rows}
