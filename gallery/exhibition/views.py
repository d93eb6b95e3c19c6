"""Doors of the public pages: the front, the garments of a series, one garment."""

from typing import cast

from django.core.paginator import Paginator
from django.db.models import QuerySet
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils import timezone
from django.views.decorators.cache import cache_control
from django.views.decorators.http import require_safe

from alterations.records import store
from gallery.contributions.models import Contribution
from gallery.exhibition import cards, showing
from gallery.series.models import Series

# What was taken back must not come out of a cache: a kept page is asked for again each time.
asked_again = cache_control(no_cache=True)

A_PAGE = 24
LATEST = 8
LINES_AT_ONCE = 9  # another gauge changes nearly every number; the rest is folded away


@require_safe
@asked_again
def front(request: HttpRequest) -> HttpResponse:
    """The series of this site, open calls first, and the latest garments."""
    today = timezone.localdate()
    series = sorted(Series.objects.all(), key=lambda one: not one.is_open(today))
    latest = showing.gathered(showing.shown_garments()[:LATEST])
    facts = {
        "open_series": [one for one in series if one.is_open(today)],
        "other_series": [one for one in series if not one.is_open(today)],
        "cards": [cards.card_of(one) for one in latest],
    }
    return render(request, "exhibition/front.html", facts)


@require_safe
@asked_again
def garments(request: HttpRequest, slug: str) -> HttpResponse:
    """The page of pictures of a series."""
    series = get_object_or_404(Series, slug=slug)
    page = Paginator(showing.shown_garments(series), A_PAGE).get_page(request.GET.get("page"))
    shown = showing.gathered(cast(QuerySet[Contribution], page.object_list))
    facts = {
        "series": series,
        "page": page,
        "cards": [cards.card_of(one) for one in shown],
        "is_open": series.is_open(timezone.localdate()),
    }
    return render(request, "exhibition/garments.html", facts)


@require_safe
@asked_again
def garment(request: HttpRequest, public_id: str) -> HttpResponse:
    """One garment: its pictures, and its numbers where they may be shown."""
    found = showing.gathered(showing.shown_garments().filter(public_id=public_id))
    if not found:
        raise Http404
    shown = found[0]
    sheet = shown.contribution.sheet
    numbers = store.summary_of(sheet) if sheet and shown.words_are_shown else None
    lines = numbers.lines if numbers else ()
    facts = {
        "shown": shown,
        "garment": shown.contribution,
        "series": shown.contribution.series,
        "title": cards.title_of(shown),
        "pictures": cards.with_objections(shown),
        "numbers": numbers,
        "first_lines": lines[:LINES_AT_ONCE],
        "more_lines": lines[LINES_AT_ONCE:],
    }
    return render(request, "exhibition/garment.html", facts)
