"""Doors of the desk: what waits, the garments of a series, one garment and the verdicts on it."""

from collections.abc import Sequence

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.core.paginator import Page, Paginator
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_POST, require_safe

from gallery.access import keep_private, signed_in
from gallery.contributions.models import Contribution
from gallery.review import listing
from gallery.review.decide import (
    ChangedMeanwhileError,
    DecidedMeanwhileError,
    Ruling,
    approve_waiting,
    decide,
)
from gallery.review.forms import VerdictForm
from gallery.review.held import held_for
from gallery.review.models import Verdict
from gallery.review.on_table import NAME_OF_KNITTER, WORDS, on_table
from gallery.review.standing import newest_verdict
from gallery.review.state import standings_of
from gallery.review.whose import own_garment, own_series

A_PAGE = 30
EVERYTHING = "all"


@login_required
@require_safe
def desk(request: HttpRequest) -> HttpResponse:
    """What waits, oldest first, and each series with the ways on from it."""
    standings = standings_of(listing.sent_to(request.user))
    page = _page(request, listing.group_of(standings, "waiting"))
    changed = listing.group_of(standings, "changed")
    series = listing.series_on_desk(request.user, standings)
    facts = {
        "page": page,
        "changed": listing.listed(changed, standings),
        "waiting": listing.listed(list(page), standings),
        "series": series,
        "several": len(series) > 1,
        "held": held_for(request.user).count(),
    }
    return keep_private(render(request, "review/desk.html", facts))


@login_required
@require_safe
def desk_series(request: HttpRequest, slug: str) -> HttpResponse:
    """The garments of a series with their state in words, all or one group of them."""
    series = own_series(request, slug)
    standings = standings_of(listing.sent_in(series))
    wanted = request.GET.get("show", listing.ALL)
    group = wanted if wanted in listing.GROUPS else listing.ALL
    page = _page(request, listing.group_of(standings, group))
    facts = {
        "series": series,
        "group": group,
        "counts": listing.counts_of(standings),
        "page": page,
        "garments": listing.listed(list(page), standings),
    }
    return keep_private(render(request, "review/desk_series.html", facts))


@login_required
@require_safe
def desk_garment(request: HttpRequest, public_id: str) -> HttpResponse:
    """One garment, photo by photo, with what is allowed beside each."""
    return _table_page(request, own_garment(request, public_id))


@login_required
@require_POST
def decide_on(request: HttpRequest, public_id: str) -> HttpResponse:
    """Keep the verdict whose button was pressed."""
    garment = own_garment(request, public_id)
    about = request.POST.get("about", "")
    if about == EVERYTHING:
        return _approve_all(request, garment)
    photo = garment.photos.filter(public_id=about).first()
    if photo is None and about not in (WORDS, NAME_OF_KNITTER):
        raise Http404
    form = VerdictForm(about, request.POST)
    if not form.is_valid():
        return _table_page(request, garment, form, about)
    said = form.cleaned_data
    ruling = Ruling(
        photo,
        Verdict.Decision(said["decision"]),
        said["note"],
        form.seen_before,
        form.edition_before,
        of_name=about == NAME_OF_KNITTER,
    )
    try:
        decide(garment, ruling, signed_in(request))
    except (DecidedMeanwhileError, ChangedMeanwhileError) as meanwhile:
        return _meanwhile(request, garment, about, meanwhile)
    messages.success(request, _kept_words(garment, ruling))
    return redirect(_place(garment, about))


def _page(request: HttpRequest, keys: Sequence[int]) -> Page[int]:
    return Paginator(keys, A_PAGE).get_page(request.GET.get("page"))


def _approve_all(request: HttpRequest, garment: Contribution) -> HttpResponse:
    form = VerdictForm(EVERYTHING, {"decision": Verdict.Decision.APPROVE, **request.POST.dict()})
    form.full_clean()
    try:
        kept = approve_waiting(garment, form.seen_before, signed_in(request), form.edition_before)
    except (DecidedMeanwhileError, ChangedMeanwhileError) as meanwhile:
        return _meanwhile(request, garment, EVERYTHING, meanwhile)
    words = ngettext("%(n)s thing is approved.", "%(n)s things are approved.", len(kept))
    messages.success(
        request, words % {"n": len(kept)} if kept else _("Noted. Nothing waits any more.")
    )
    return redirect("desk_garment", public_id=garment.public_id)


def _meanwhile(
    request: HttpRequest, garment: Contribution, about: str, meanwhile: Exception
) -> HttpResponse:
    """Say so, show how it stands now, and keep the note that was typed."""
    if isinstance(meanwhile, ChangedMeanwhileError):
        words = _(
            "Its knitter changed something meanwhile. Nothing was decided: this is how it stands "
            "now. Look at it and decide again; your note is still in its field."
        )
    else:
        words = _(
            "Somebody decided meanwhile, perhaps in another window. Nothing was overwritten: this "
            "is how it stands now. Look at it and decide again; your note is still in its field."
        )
    messages.warning(request, words)
    garment.refresh_from_db()
    photo = garment.photos.filter(public_id=about).first()
    newest = newest_verdict(garment, photo, of_name=about == NAME_OF_KNITTER)
    typed = {
        "note": request.POST.get("note", ""),
        "seen": newest.pk if newest else 0,
        "edition": garment.edition,
    }
    return _table_page(request, garment, VerdictForm(about, initial=typed), about, status=409)


def _table_page(
    request: HttpRequest,
    garment: Contribution,
    form: VerdictForm | None = None,
    about: str = "",
    status: int = 200,
) -> HttpResponse:
    facts = {
        "table": on_table(garment, {about: form} if form else None),
        "garment": garment,
        "series": garment.series,
        "came_back": form,
        "came_back_about": about,
        "next": listing.next_waiting(request.user, garment),
    }
    return keep_private(render(request, "review/desk_garment.html", facts, status=status))


def _place(garment: Contribution, about: str) -> str:
    """The page, at the thing that was decided on."""
    return f"{reverse('desk_garment', args=[garment.public_id])}#{about}"


def _kept_words(garment: Contribution, ruling: Ruling) -> str:
    if ruling.decision == Verdict.Decision.APPROVE:
        return _("Approved.")
    if garment.email:
        return _("Kept. A letter is on its way to its knitter.")
    return _("Kept. Its knitter left no address and reads it on the private page.")
