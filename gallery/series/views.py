"""Doors of the series: its short address and code, the pattern's numbers, help."""

import io

import segno
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_safe

from alterations.records import store
from gallery.letters import address
from gallery.series.models import Series


@require_safe
def call_qr(request: HttpRequest, slug: str) -> HttpResponse:
    """The short address as a QR code for the video's programme notes, as SVG."""
    series = get_object_or_404(Series, slug=slug)
    link = address(reverse("short_address", args=[series.short_code]))
    drawing = io.BytesIO()
    # Error level M and a quiet zone of 4 modules as ISO/IEC 18004 asks for.
    segno.make(link, error="m", micro=False).save(
        drawing, kind="svg", scale=8, border=4, title=link, light="#fff", dark="#000"
    )
    return HttpResponse(drawing.getvalue(), content_type="image/svg+xml")


@require_safe
def short_address(request: HttpRequest, code: str) -> HttpResponse:
    """The address short enough to be typed from a screen."""
    series = get_object_or_404(Series, short_code=code.lower())
    return redirect("call", slug=series.slug)


@require_safe
def pattern_numbers(request: HttpRequest, slug: str) -> HttpResponse:
    """The base pattern's numbers as a table of sizes."""
    series = get_object_or_404(Series.objects.select_related("pattern_version"), slug=slug)
    pattern = store.pattern_of(series.pattern_version)
    facts = {"series": series, "pattern": pattern, "tables": store.tables_of(pattern)}
    return render(request, "series/pattern_numbers.html", facts)


@require_safe
def pattern_file(request: HttpRequest, slug: str) -> HttpResponse:
    """The pattern file itself, to keep or to feed to another program."""
    series = get_object_or_404(Series.objects.select_related("pattern_version"), slug=slug)
    answer = HttpResponse(series.pattern_version.text, content_type="application/toml")
    answer["Content-Disposition"] = f'attachment; filename="{series.slug}-pattern.toml"'
    return answer


@require_safe
def help_page(request: HttpRequest) -> HttpResponse:
    """How the site works, and whom to ask."""
    return render(request, "series/help.html")
