"""Doors beside a film: the copies handed on, and the sheet of what it rests on."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from gallery.access import keep_private, signed_in
from gallery.album.authority import sheet_of
from gallery.album.contents import contents_of
from gallery.album.copies import (
    CopyForm,
    holders_of,
    keep_copy,
    mark_told,
    notice_of,
    strike_copy,
)
from gallery.album.whose import own_film


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def film_copies(request: HttpRequest, public_id: str) -> HttpResponse:
    """Who has a copy; a new one is written down; once the film is closed, the letter to them."""
    film = own_film(request, public_id)
    form = CopyForm(request.POST or None, initial={"given_on": timezone.localdate()})
    if request.method == "POST" and form.is_valid():
        keep_copy(film, form.cleaned_data, signed_in(request))
        messages.success(request, _("Written down."))
        return redirect("film_copies", public_id)
    facts = {
        "wish": film.render,
        "album": film.render.album,
        "film": film,
        "form": form,
        "contents": contents_of(film),
        "holders": holders_of(film),
        "notice": notice_of(film),
    }
    return keep_private(render(request, "album/copies.html", facts))


@login_required
@require_POST
def copy_struck(request: HttpRequest, public_id: str) -> HttpResponse:
    """Strike out a copy that was written down by mistake."""
    if strike_copy(own_film(request, public_id), _chosen(request)):
        messages.success(request, _("Struck out; it stays to be read."))
    else:
        messages.info(request, _("It was struck out already."))
    return redirect("film_copies", public_id)


@login_required
@require_POST
def copy_told(request: HttpRequest, public_id: str) -> HttpResponse:
    """Write down that whoever has a copy was told that the film is closed."""
    if mark_told(own_film(request, public_id), _chosen(request)):
        messages.success(request, _("Written down that they were told."))
    else:
        messages.info(request, _("There was nothing to write down: look at the list."))
    return redirect("film_copies", public_id)


def _chosen(request: HttpRequest) -> int:
    """The number of the copy meant; 0, which is no copy, where none can be read."""
    key = request.POST.get("copy", "")
    return int(key) if key.isascii() and key.isdecimal() and len(key) < 12 else 0


@login_required
@require_safe
def film_authority(request: HttpRequest, public_id: str) -> HttpResponse:
    """The authority sheet, to be read and printed."""
    sheet = sheet_of(own_film(request, public_id))
    facts = {"sheet": sheet, "film": sheet.film, "wish": sheet.film.render}
    return keep_private(
        render(request, "album/authority.html", {**facts, "album": sheet.film.render.album})
    )


@login_required
@require_safe
def authority_file(request: HttpRequest, public_id: str) -> HttpResponse:
    """The same sheet for a machine."""
    sheet = sheet_of(own_film(request, public_id))
    style = {"ensure_ascii": False, "indent": 1}
    return keep_private(JsonResponse(sheet.plain(), json_dumps_params=style))
