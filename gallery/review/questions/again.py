"""Asking again: one letter to each sender whose answer rests on older words."""

from dataclasses import dataclass

from django.db import transaction
from django.db.models import Exists, OuterRef, Q, QuerySet, Subquery
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils.translation import gettext as _

from gallery import jobs, letters
from gallery.consent import gate
from gallery.consent.models import ConsentText, Entry
from gallery.consent.purposes import PURPOSES, QUESTIONS
from gallery.contributions.links import open_link
from gallery.contributions.models import Contribution
from gallery.contributions.tokens import new_token
from gallery.review.models import AskedAgain
from gallery.series.models import Series


@dataclass(frozen=True)
class Asking:
    """How asking again stands for one wording: letters that could go, went, and were answered."""

    to_ask: int
    asked: int
    answered: int
    without_address: int


def asking_about(series: Series, text: ConsentText) -> Asking:
    """Counts for the words in force."""
    asked = Contribution.objects.filter(series=series, asked_again__text__sha256=text.sha256)
    older = _older_answers(series, text)
    return Asking(
        to_ask=to_ask(series, text).count(),
        asked=asked.distinct().count(),
        answered=asked.exclude(pk__in=older.values("pk")).distinct().count(),
        without_address=older.filter(email="").count(),
    )


def to_ask(series: Series, text: ConsentText) -> QuerySet[Contribution]:
    """Senders to write to: their newest answer rests on other words, they allow something still,
    did not take this back, gave an address and were not asked about these words."""
    asked = AskedAgain.objects.filter(contribution=OuterRef("pk"), text__sha256=text.sha256)
    return _older_answers(series, text).exclude(email="").filter(~Exists(asked))


def _older_answers(series: Series, text: ConsentText) -> QuerySet[Contribution]:
    newest = Entry.objects.filter(agreement=OuterRef("agreement"), purpose=text.purpose)
    newest = newest.order_by("-seq")
    allows = Q()
    for purpose in PURPOSES:
        allows |= Q(agreement__in=gate.agreements_allowing(purpose))
    return (
        Contribution.objects.filter(allows, series=series, sent_at__isnull=False)
        .annotate(
            words=Subquery(newest.values("text_sha256")[:1]),
            answer=Subquery(newest.values("answer")[:1]),
        )
        .exclude(words=text.sha256)
        .exclude(answer=Entry.Answer.WITHDRAWN)
    )


def ask_again(series: Series, text: ConsentText) -> int:
    """Queue the letters; how many there are."""
    keys = list(to_ask(series, text).values_list("pk", flat=True))
    for key in keys:
        jobs.later(write_again, key, text.pk)
    return len(keys)


@transaction.atomic
def write_again(contribution: int, text_key: int) -> None:
    """Job: one letter with the old words, the new words and a private link; never a second one."""
    text = ConsentText.objects.get(pk=text_key)
    garment = Contribution.objects.select_related("series").filter(pk=contribution).first()
    if garment is None or not to_ask(garment.series, text).filter(pk=contribution).exists():
        return  # erased, answered or taken back meanwhile, or written to already
    AskedAgain.objects.create(contribution=garment, text=text)
    entry = _newest(garment, text.purpose)
    label = next(one.label for one in QUESTIONS if one.purpose == text.purpose)
    token = new_token()
    open_link(garment, token)
    facts = {
        "garment": garment,
        "label": label,
        "was": entry.text,
        "said_yes": entry.answer == Entry.Answer.GIVEN,
        "now": text,
        "link": letters.address(reverse("private_link", args=[token])),
    }
    subject = _("New words for a question about your garment")
    letters.post(subject, render_to_string("letters/asked_again.txt", facts), garment.email)


def _newest(garment: Contribution, purpose: str) -> Entry:
    entries = Entry.objects.filter(agreement=garment.agreement_id, purpose=purpose)
    return entries.select_related("text").order_by("-seq")[0]
