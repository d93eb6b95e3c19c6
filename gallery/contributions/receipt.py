"""The sender's receipt: what was answered to which words, when and how; as a page and as JSON."""

from dataclasses import dataclass
from typing import Any

from django.conf import settings
from django.urls import reverse

from gallery.consent.models import Entry
from gallery.consent.purposes import QUESTIONS
from gallery.consent.record import RECEIPT, RECORD, Controller, record_of
from gallery.contributions.models import Contribution
from gallery.letters import address

LABELS = {question.purpose: question.label for question in QUESTIONS}


@dataclass(frozen=True)
class Told:
    """One entry of the ledger as the receipt tells it."""

    label: str
    entry: Entry

    @property
    def sign(self) -> str:
        """The sign in parts/state.html."""
        signs = {Entry.Answer.GIVEN: "yes", Entry.Answer.WITHDRAWN: "withdrawn"}
        return signs.get(Entry.Answer(self.entry.answer), "no")


def controller_of(garment: Contribution) -> Controller:
    """Whoever is responsible for what happens with this garment."""
    return Controller(
        name=garment.series.teacher_name,
        contact=settings.CONTACT_EMAIL,
        page=address(reverse("privacy")),
    )


def entries_of(garment: Contribution) -> list[Told]:
    """Every answer in its order; none where nothing was asked."""
    if garment.agreement is None:
        return []
    entries = garment.agreement.entries.select_related("text").order_by("seq")
    return [Told(LABELS[entry.purpose], entry) for entry in entries]


def receipt_of(garment: Contribution, *, whole: bool = False) -> dict[str, Any]:
    """The machine-readable receipt (or, whole, the record) of a sent garment."""
    if garment.agreement is None:
        return {}
    kind = RECORD if whole else RECEIPT
    return record_of(garment.agreement, controller_of(garment), kind)
