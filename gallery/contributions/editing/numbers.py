"""The door that works changes out as one types on the page of a sent garment."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_POST

from gallery.access import keep_private
from gallery.contributions.editing.page import Editing
from gallery.contributions.numbers import mistakes
from gallery.contributions.own import own_garment
from gallery.contributions.sending import NUMBERS


@require_POST
def work_out_mine(request: HttpRequest, public_id: str) -> HttpResponse:
    """Base and made for what is typed now, by the pattern it was made from; nothing is kept."""
    editing = Editing(own_garment(request, public_id), request.POST, NUMBERS)
    editing.work_out()
    facts = {"sending": editing, "numbers": editing.worked_out, "forms": mistakes(editing)}
    return keep_private(render(request, "contributions/worked_out_live.html", facts))
