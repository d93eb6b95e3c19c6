"""Doors of the call: what to send, what it is used for, how privacy is kept."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_safe

from gallery.consent.texts import current_texts
from gallery.contributions.people.guardian import LIFE
from gallery.letters import address
from gallery.series.models import Series


@require_safe
def call(request: HttpRequest, slug: str) -> HttpResponse:
    """What to send, what it will be used for, until when."""
    series = get_object_or_404(Series, slug=slug)
    today = timezone.localdate()
    facts = {
        "series": series,
        "is_open": series.is_open(today),
        "opens_later": today < series.opens_on,
        "questions": current_texts(scope=series.slug),
        "short_address": address(reverse("short_address", args=[series.short_code])),
    }
    return render(request, "exhibition/call.html", facts)


@require_safe
def privacy(request: HttpRequest) -> HttpResponse:
    """Who keeps what, why, for how long, and what a sender may ask for."""
    facts = {"questions": current_texts(), "guardian_days": LIFE.days}
    return render(request, "exhibition/privacy.html", facts)
