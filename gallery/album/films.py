"""Doors of the film: ask for it, watch it being made, look at it, hand it over."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import FileResponse, Http404, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from gallery.access import is_teacher, keep_private
from gallery.album import making, pack
from gallery.album.desk import own_album
from gallery.album.film import captions
from gallery.album.film.errors import FilmError
from gallery.album.models import Film, Render
from gallery.album.publish import films
from gallery.album.ranged import ranged
from gallery.album.state import standing_of


def own_render(request: HttpRequest, public_id: str) -> Render:
    """The render if it is hers; else the answer is as for one that is not there."""
    wish = get_object_or_404(
        Render.objects.select_related("album__series", "film"), public_id=public_id
    )
    if not is_teacher(request.user, wish.album.series.teacher_id):
        raise Http404
    return wish


def own_film(request: HttpRequest, public_id: str) -> Film:
    """The finished film of that render if it is hers."""
    wish = own_render(request, public_id)
    if not hasattr(wish, "film"):
        raise Http404
    return wish.film


@login_required
@require_POST
def make_film(request: HttpRequest, public_id: str) -> HttpResponse:
    """Wish for the film of the album as it is now."""
    album = own_album(request, public_id)
    try:
        wish = making.ask_for_film(album, request.user)
    except FilmError as error:
        messages.error(request, str(error))
        return redirect("album", public_id=public_id)
    return redirect("film", public_id=wish.public_id)


@login_required
@require_safe
def film(request: HttpRequest, public_id: str) -> HttpResponse:
    """How far the film is; when it is there, the film."""
    wish = own_render(request, public_id)
    facts = {"wish": wish, "album": wish.album, "standing": standing_of(wish)}
    if hasattr(wish, "film"):
        facts |= {
            "film": wish.film,
            "is_open": pack.is_open(wish.film),
            "items": wish.film.items.all(),
        }
    template = "album/film_progress.html" if request.htmx else "album/film.html"
    answer = keep_private(render(request, template, facts))
    if request.htmx and not facts["standing"].is_going_on:
        answer["HX-Refresh"] = "true"  # the whole page shows the film now
    return answer


@login_required
@require_POST
def film_cancel(request: HttpRequest, public_id: str) -> HttpResponse:
    """Stop making the film."""
    making.cancel(own_render(request, public_id))
    return redirect("film", public_id=public_id)


@login_required
@require_POST
def film_go_on(request: HttpRequest, public_id: str) -> HttpResponse:
    """Take the making up again where it stopped."""
    making.go_on(own_render(request, public_id))
    return redirect("film", public_id=public_id)


@login_required
@require_safe
def film_file(request: HttpRequest, public_id: str) -> HttpResponseBase:
    """The film itself, in parts as the player asks for them."""
    found = own_film(request, public_id)
    return keep_private(ranged(request, films().path(found.sha256), "video/mp4"))


@login_required
@require_safe
def film_poster(request: HttpRequest, public_id: str) -> HttpResponseBase:
    """The picture that stands for the film."""
    found = own_film(request, public_id)
    poster = FileResponse(films().open(found.poster_sha256), content_type="image/jpeg")
    return keep_private(poster)


@login_required
@require_safe
def film_captions(request: HttpRequest, public_id: str) -> HttpResponse:
    """The captions for the player."""
    words = captions.captions_vtt(pack.plan_behind(own_film(request, public_id)))
    return keep_private(HttpResponse(words, content_type="text/vtt; charset=utf-8"))


@login_required
@require_safe
def film_pack(request: HttpRequest, public_id: str) -> HttpResponseBase:
    """The pack to download; closed where a permission was taken back."""
    found = own_film(request, public_id)
    try:
        packed = pack.write_pack(found)
    except pack.PackClosedError:
        messages.warning(
            request,
            _("The pack is closed: a permission was taken back since this film was made."),
        )
        return redirect("film", public_id=public_id)
    name = f"{slugify(found.render.album.title) or 'film'}-pack.zip"
    return keep_private(
        FileResponse(packed, as_attachment=True, filename=name, content_type="application/zip")
    )
