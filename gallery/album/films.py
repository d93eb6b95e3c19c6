"""Doors of the film: ask for it, watch it being made, look at it, hand it over."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import FileResponse, Http404, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import redirect, render
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from gallery.access import keep_private, signed_in
from gallery.album import making, pack
from gallery.album.contents import contents_of
from gallery.album.film import captions
from gallery.album.film.errors import FilmError
from gallery.album.film.plan import FilmPlan
from gallery.album.models import Film, Render
from gallery.album.publish import films
from gallery.album.ranged import ranged
from gallery.album.state import standing_of
from gallery.album.whose import own_album, own_film, own_render


@login_required
@require_POST
def make_film(request: HttpRequest, public_id: str) -> HttpResponse:
    """Wish for the film of the album as it is now."""
    album = own_album(request, public_id)
    try:
        wish = making.ask_for_film(album, signed_in(request))
    except FilmError as error:
        messages.error(request, str(error))
        return redirect("album", public_id=public_id)
    return redirect("film", public_id=wish.public_id)


@login_required
@require_safe
def film(request: HttpRequest, public_id: str) -> HttpResponse:
    """How far the film is; when it is there, the film."""
    wish = own_render(request, public_id)
    standing = standing_of(wish)
    facts = {"wish": wish, "album": wish.album, "standing": standing}
    if request.headers.get("HX-Request"):
        answer = keep_private(render(request, "album/film_progress.html", facts))
        if not standing.is_going_on:
            answer["HX-Refresh"] = "true"  # the whole page shows something else now
        return answer
    if hasattr(wish, "film"):
        facts |= _film_facts(wish)
    return keep_private(render(request, "album/film.html", facts))


def _film_facts(wish: Render) -> dict[str, object]:
    return {
        "film": wish.film,
        "contents": contents_of(wish.film),
        "copies": wish.film.copies.filter(struck_at__isnull=True),
        "is_older": wish.album_version != wish.album.version,
    }


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
    _open_plan(found)
    return keep_private(ranged(request, films().path(found.sha256), "video/mp4"))


@login_required
@require_safe
def film_poster(request: HttpRequest, public_id: str) -> HttpResponseBase:
    """The picture that stands for the film."""
    found = own_film(request, public_id)
    _open_plan(found)
    return keep_private(ranged(request, films().path(found.poster_sha256), "image/jpeg"))


@login_required
@require_safe
def film_captions(request: HttpRequest, public_id: str) -> HttpResponse:
    """The captions for the player."""
    words = captions.captions_vtt(_open_plan(own_film(request, public_id)))
    return keep_private(HttpResponse(words, content_type="text/vtt; charset=utf-8"))


def _open_plan(found: Film) -> FilmPlan:
    """What the film shows; a film that holds something taken back is as if not there."""
    try:
        return pack.open_plan(found)
    except pack.PackClosedError as error:
        raise Http404 from error


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
            _("The pack is closed: something was taken back since this film was made."),
        )
        return redirect("film", public_id=public_id)
    name = f"{slugify(found.render.album.title) or 'film'}-pack.zip"
    return keep_private(
        FileResponse(packed, as_attachment=True, filename=name, content_type="application/zip")
    )
