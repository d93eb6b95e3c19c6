"""Asking again: one letter to each sender whose answer rests on older words."""

from dataclasses import dataclass
from typing import Any

from django.db import transaction
from django.db.models import Exists, OuterRef, Q, QuerySet, Subquery
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _

from gallery import jobs, letters
from gallery.consent import gate
from gallery.consent.models import ConsentText, Entry
from gallery.consent.purposes import PURPOSES, QUESTIONS
from gallery.consent.texts import wordings
from gallery.contributions.arrived import arrived
from gallery.contributions.links import open_link
from gallery.contributions.models import Contribution
from gallery.contributions.tokens import new_token
from gallery.review.models import AskedAgain
from gallery.series.models import Series
from gallery.speaking import the_language


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
    """Senders to write to: their newest answer rests on other words, they took back neither this
    nor everything, gave an address and were not asked about these words."""
    asked = AskedAgain.objects.filter(contribution=OuterRef("pk"), text__sha256=text.sha256)
    return _older_answers(series, text).exclude(email="").filter(~Exists(asked))


def _older_answers(series: Series, text: ConsentText) -> QuerySet[Contribution]:
    newest = Entry.objects.filter(agreement=OuterRef("agreement"), purpose=text.purpose)
    newest = newest.order_by("-seq")
    took_back = Entry.objects.filter(agreement=OuterRef("agreement"), answer=Entry.Answer.WITHDRAWN)
    is_asked = Q(~Exists(took_back))  # a no from the start may be asked once about other words
    for purpose in PURPOSES:
        is_asked |= Q(agreement__in=gate.agreements_allowing(purpose))
    return (
        Contribution.objects.filter(is_asked, arrived(), series=series)
        .annotate(
            words=Subquery(newest.values("text_sha256")[:1]),
            answer=Subquery(newest.values("answer")[:1]),
            asked_in=Subquery(newest.values("text__language")[:1]),
        )
        .filter(_in_reach(series, text), words__isnull=False)
        .exclude(words=text.sha256)
        .exclude(answer=Entry.Answer.WITHDRAWN)
    )


def _in_reach(series: Series, text: ConsentText) -> Q:
    """Whose answers these words concern: of the site's own, those in the same language; of a
    teacher's own, all but those in a language she has words of her own in."""
    if not text.scope:
        return Q(asked_in=text.language)
    own = ConsentText.objects.filter(purpose=text.purpose, scope=series.slug)
    others = own.exclude(language=text.language).values("language")
    return ~Q(asked_in__in=others)


@transaction.atomic
def ask_again(series: Series, text: ConsentText) -> int:
    """Note whom the letters go to and queue them; how many there are."""
    asked = [AskedAgain(contribution=one, text=text) for one in to_ask(series, text)]
    for one in AskedAgain.objects.bulk_create(asked):
        jobs.later(write_again, one.pk)
    return len(asked)


@transaction.atomic
def write_again(asked: int) -> None:
    """Job: one letter with the old words, the new words and a private link; never a second one."""
    waiting = AskedAgain.objects.select_for_update(of=("self",)).filter(written_at__isnull=True)
    one = waiting.select_related("contribution__series", "text").filter(pk=asked).first()
    if one is None:
        return  # written already, or the garment is erased
    if not _is_still_asked(one):
        one.delete()
        return
    AskedAgain.objects.filter(pk=asked).update(written_at=timezone.now())
    with the_language(one.contribution.language):
        letters.post(
            _("New words for a question about your garment"),
            render_to_string("letters/asked_again.txt", _facts(one.contribution, one.text)),
            one.contribution.email,
        )


def _is_still_asked(one: AskedAgain) -> bool:
    """Neither answered nor taken back since, and these are still the words in force."""
    series = one.contribution.series
    in_force = wordings(one.text.purpose, series.slug, one.text.language)[0]
    is_in_force = in_force.sha256 == one.text.sha256
    older = _older_answers(series, one.text).filter(pk=one.contribution_id)
    return is_in_force and bool(one.contribution.email) and older.exists()


def _facts(garment: Contribution, text: ConsentText) -> dict[str, Any]:
    """What the letter says, with a fresh private link."""
    entry = _newest(garment, text.purpose)
    token = new_token()
    open_link(garment, token)
    return {
        "garment": garment,
        "label": next(one.label for one in QUESTIONS if one.purpose == text.purpose),
        "was": entry.text,
        "said_yes": entry.answer == Entry.Answer.GIVEN,
        "now": text,
        "link": letters.address(reverse("private_link", args=[token])),
    }


def _newest(garment: Contribution, purpose: str) -> Entry:
    entries = Entry.objects.filter(agreement=garment.agreement_id, purpose=purpose)
    return entries.select_related("text").order_by("-seq")[0]
