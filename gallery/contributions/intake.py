"""The one way in: a draft becomes a sent garment, in one transaction, exactly once."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from decimal import Decimal

from django.db import transaction
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _

from alterations.kinds import AnyAlteration
from alterations.records import store
from alterations.records.models import PatternVersion, Sheet
from gallery import jobs, letters
from gallery.consent import ledger
from gallery.consent.models import ConsentText, Entry
from gallery.contributions.arrived import held
from gallery.contributions.keeping import make_sizes
from gallery.contributions.links import open_link
from gallery.contributions.models import Contribution, Photo
from gallery.contributions.people.guardian import answer_as_sender, ask_guardians
from gallery.contributions.receipt import entries_of
from gallery.contributions.tokens import link_token, new_token
from gallery.speaking import now_spoken, the_language


@dataclass(frozen=True)
class Tools:
    """What it was knitted with, her own swatch as counted and per 10 cm, and how it behaved."""

    tool: str = ""
    machine_pitch_mm: Decimal | None = None
    machine_needles: Decimal | int | None = None
    bed: str = Sheet.Bed.EVERY
    needle_mm: Decimal | None = None
    swatch_stitches: Decimal | None = None
    swatch_rows: Decimal | None = None
    swatch_counted_stitches: Decimal | None = None
    swatch_counted_over: str = ""
    swatch_counted_rows: Decimal | None = None
    swatch_counted_high: str = ""
    keeps: str = Sheet.Keeps.COUNTS
    chest_before: str = ""
    chest_after: str = ""
    length_before: str = ""
    length_after: str = ""
    pilled: str = Sheet.Pilled.UNSAID
    split: str = Sheet.Split.UNSAID
    behaved_words: str = ""


@dataclass(frozen=True)
class Garment:
    """Everything that is sent besides the pictures, as plain values already checked."""

    version: PatternVersion
    size_name: str
    answers: Mapping[ConsentText, bool]
    stage: str = Contribution.Stage.FINISHED
    tools: Tools = Tools()
    alterations: tuple[AnyAlteration, ...] = ()
    notes: str = ""
    credit_name: str = ""
    email: str = ""
    is_younger: bool = False
    guardian_email: str = ""
    guardian_name: str = ""


@dataclass(frozen=True)
class Coming:
    """How a garment comes: by which way, and why it looks like a machine's sending, if it does."""

    way: Entry.Way = Entry.Way.FORM
    held_because: str = ""


BY_FORM = Coming()


@transaction.atomic
def take_in(draft: Contribution, garment: Garment, token: str, coming: Coming = BY_FORM) -> bool:
    """Send a draft with its pictures; False where it was sent already, and then nothing changes.

    `token` is the draft's own; the private link is worked out from it. Of what is held back no
    letter leaves to anybody, so that nobody can have strangers written to.
    """
    unsent = Contribution.objects.filter(pk=draft.pk, sent_at__isnull=True)
    sent = {"sent_at": timezone.now(), "typed": {}, "held_because": coming.held_because}
    if not unsent.update(**sent):
        draft.refresh_from_db()
        return False
    draft.refresh_from_db()
    _write(draft, garment, coming.way)
    open_link(draft, link_token(token))
    for photo in draft.photos.all():
        jobs.later(make_sizes, photo.pk)
    if not coming.held_because:
        _write_letters(draft, link_token(token))
    return True


@transaction.atomic
def release(garment: Contribution) -> bool:
    """A person sent it: take it in like any other, and write the letters that waited; False where
    it is not held back (any more)."""
    waiting = Contribution.objects.filter(held(), pk=garment.pk)
    if not waiting.update(released_at=timezone.now()):
        return False
    garment.refresh_from_db()
    token = new_token()
    open_link(garment, token)
    _write_letters(garment, token)
    return True


def _write_letters(garment: Contribution, token: str) -> None:
    ask_guardians(garment)
    if garment.email:
        _post_letter(garment, token)


def _write(draft: Contribution, garment: Garment, way: Entry.Way) -> None:
    draft.sheet = store.keep_sheet(
        garment.version, garment.size_name, garment.alterations, **asdict(garment.tools)
    )
    draft.agreement = ledger.open_agreement(garment.answers, actor=Entry.Actor.SENDER, way=way)
    draft.stage = garment.stage
    draft.notes = garment.notes
    draft.credit_name = garment.credit_name
    draft.email = garment.email
    draft.is_younger = garment.is_younger
    draft.guardian_email = garment.guardian_email
    draft.guardian_name = garment.guardian_name
    draft.language = now_spoken()
    draft.save()
    for photo in draft.photos.filter(people=Photo.People.CHILD, sender_is_guardian=True):
        answer_as_sender(draft, photo, list(garment.answers))


def _post_letter(garment: Contribution, token: str) -> None:
    with the_language(garment.language):
        link = letters.address(reverse("private_link", args=[token]))
        facts = {"garment": garment, "link": link, "answers": entries_of(garment)}
        words = render_to_string("letters/sent.txt", facts)
        letters.post(_("Your garment has arrived"), words, garment.email)
