"""The door that answers in the section of the garment as one types; nothing is kept."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_POST

from gallery.access import keep_private
from gallery.contributions.editing.page import Editing
from gallery.contributions.numbers import mistakes
from gallery.contributions.own import own_garment
from gallery.contributions.sending import NUMBERS, Sending
from gallery.series.models import Series


@require_POST
def garment_live(request: HttpRequest, slug: str) -> HttpResponse:
    """Nearest size, swatch, yarn, how it behaved, and the numbers worked out, for what is typed."""
    series = get_object_or_404(Series.objects.select_related("pattern_version"), slug=slug)
    return _answer(request, Sending(series, {}, request.POST, NUMBERS))


@require_POST
def garment_live_mine(request: HttpRequest, public_id: str) -> HttpResponse:
    """The same for a garment that was sent, by the pattern it was made from."""
    return _answer(request, Editing(own_garment(request, public_id), request.POST, NUMBERS))


def _answer(request: HttpRequest, sending: Sending) -> HttpResponse:
    sending.work_out()
    told = sending.parts.opened & {"tools", "swatch", "yarn"}
    facts = {
        "sending": sending,
        "numbers": sending.worked_out,
        "forms": mistakes(sending),
        "shows_numbers": bool(told or sending.alterations),
    }
    return keep_private(render(request, "contributions/garment_live.html", facts))
