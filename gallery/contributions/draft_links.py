"""Going on with a draft elsewhere: a link by letter, and a letter before the draft is forgotten."""

import datetime
from typing import Any

from django import forms
from django.conf import settings
from django.contrib import messages
from django.db import transaction
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods, require_safe

from gallery import letters
from gallery.access import keep_private
from gallery.contributions import drafts, limits
from gallery.contributions.drafts import LIFE, Draft
from gallery.contributions.models import Contribution, PrivateLink
from gallery.contributions.tokens import is_token, kept_of, new_token
from gallery.series.models import Series
from gallery.speaking import now_spoken, the_language

WARNED_BEFORE = datetime.timedelta(days=7)
MOST_LETTERS = 3  # of one draft, so that nobody can be flooded by it


GO_ON = gettext_lazy("Go on with your garment")
ENDS = gettext_lazy("Your garment is not sent yet")


class NotPostedError(Exception):
    """No letter leaves; its text says why and what to do."""


def ask_for_link(draft: Draft, series: Series, email: str, came_from: str) -> None:
    """Post a link to go on with this draft elsewhere; raises NotPostedError with the reason."""
    address = _good_address(email)
    if not settings.POSTS_LETTERS:
        raise NotPostedError(_("This site cannot send letters at the moment."))
    if not limits.may_ask_for_link(came_from):
        raise NotPostedError(_("That was asked for several times just now. Please try in an hour."))
    if not limits.may_write_to(address):
        raise NotPostedError(_("The link was posted already. Please look among your letters."))
    _post(drafts.begin(draft, series), address)


def _good_address(email: str) -> str:
    try:
        return forms.EmailField(max_length=254).clean(email)
    except forms.ValidationError as error:
        words = _("Please write your whole e-mail address first, like anna@example.org.")
        raise NotPostedError(words) from error


@transaction.atomic
def _post(row: Contribution, address: str) -> None:
    row = Contribution.objects.select_for_update().get(pk=row.pk)
    links = row.links.filter(purpose=PrivateLink.Purpose.DRAFT)
    if row.sent_at is not None or links.count() >= MOST_LETTERS:
        raise NotPostedError(_("The link was posted already. Please look among your letters."))
    row.email, row.language = address, now_spoken()
    row.save(update_fields=["email", "language"])
    _write(row, "letters/draft_link.txt", GO_ON)


@transaction.atomic
def warn(row: Contribution) -> bool:
    """Write once, a week before a draft is forgotten; False where there is nobody to write to."""
    waiting = Contribution.objects.filter(pk=row.pk, sent_at__isnull=True, warned_at__isnull=True)
    if not row.email or not waiting.update(warned_at=timezone.now()):
        return False
    _write(row, "letters/draft_ends.txt", ENDS)
    return True


def _write(row: Contribution, template: str, subject: Any) -> None:
    token = new_token()
    row.links.create(
        purpose=PrivateLink.Purpose.DRAFT,
        token_sha256=kept_of(token),
        expires_at=timezone.now() + LIFE,
    )
    with the_language(row.language):
        link = letters.address(reverse("draft_link", args=[token]))
        facts = {"series": row.series, "link": link, "until": drafts.kept_until(row)}
        letters.post(str(subject), render_to_string(template, facts), row.email)


def to_warn() -> list[Contribution]:
    """The drafts that will be forgotten within a week, whose senders asked for a link."""
    before = timezone.now() - LIFE + WARNED_BEFORE
    waiting = Contribution.objects.filter(sent_at__isnull=True, warned_at__isnull=True)
    return list(waiting.filter(touched_at__lte=before).exclude(email="").select_related("series"))


def forgotten() -> list[Contribution]:
    """The drafts nobody touched for sixty days; of those with an address, a week after the letter
    at the earliest."""
    now = timezone.now()
    old = Contribution.objects.filter(sent_at__isnull=True, touched_at__lte=now - LIFE)
    waits = old.exclude(email="").exclude(warned_at__lte=now - WARNED_BEFORE)
    return list(old.exclude(pk__in=waits.values("pk")))


@require_safe
def draft_link(request: HttpRequest, token: str) -> HttpResponse:
    """Open the draft behind a posted link in this browser; following it changes nothing kept."""
    if not is_token(token):
        raise Http404
    link = drafts.good_links(kept_of(token)).select_related("contribution__series").first()
    if link is None:
        raise Http404
    row = link.contribution
    answer = redirect("send", slug=row.series.slug)
    answer.status_code = 303
    answer["Referrer-Policy"] = "no-referrer"  # this address holds the token
    return keep_private(drafts.hand_over(request, answer, Draft(token, row)))


@require_http_methods(["GET", "HEAD", "POST"])
def throw_away(request: HttpRequest, slug: str) -> HttpResponse:
    """Ask, then forget this browser's draft with its pictures."""
    series = get_object_or_404(Series, slug=slug)
    draft = drafts.of_browser(request, series)
    if draft is None or draft.row is None or draft.is_sent:
        raise Http404
    if request.method == "POST":
        drafts.throw_away(draft.row)
        messages.success(request, _("The draft is thrown away, with its pictures."))
        return redirect("call", slug=slug)
    facts = {"series": series, "pictures": draft.row.photos.count()}
    return keep_private(render(request, "contributions/throw_away.html", facts))
