"""Doors of one slide: its place, its words, its picture; out of the film and back."""

from collections.abc import Callable

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import FileResponse, Http404, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404, redirect
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from gallery.access import keep_private
from gallery.album import arrange
from gallery.album.board import Typed
from gallery.album.desk import desk_page, say_conflict
from gallery.album.film.errors import FilmError
from gallery.album.forms import PlaceForm, SlideForm, VersionForm
from gallery.album.gather import Placed, placed
from gallery.album.models import Slide
from gallery.album.previews import WIDTHS, preview
from gallery.album.whose import own_album


@login_required
@require_POST
def slide_move(request: HttpRequest, public_id: str, slide_id: str) -> HttpResponse:
    """Move a slide one up, one down or to a place."""
    slide = _own_slide(request, public_id, slide_id)
    form = PlaceForm(request.POST)
    if not form.is_valid():
        messages.error(request, _("Give the place as a number, for example 3."))
        return _back_to(slide)
    place, version = form.cleaned_data["place"], form.cleaned_data["version"]
    return _change(request, slide, lambda: arrange.move(slide, place, version))


@login_required
@require_POST
def slide_out(request: HttpRequest, public_id: str, slide_id: str) -> HttpResponse:
    """Take a slide out of the film."""
    slide = _own_slide(request, public_id, slide_id)
    return _change(request, slide, lambda: arrange.take_out(slide, _seen_version(request)))


@login_required
@require_POST
def slide_back(request: HttpRequest, public_id: str, slide_id: str) -> HttpResponse:
    """Put a slide back into the film."""
    slide = _own_slide(request, public_id, slide_id)
    return _change(request, slide, lambda: arrange.put_back(slide, _seen_version(request)))


@login_required
@require_POST
def slide_name(request: HttpRequest, public_id: str, slide_id: str) -> HttpResponse:
    """Neutral words in place of a name, or the name again."""
    slide = _own_slide(request, public_id, slide_id)
    hides = request.POST.get("name") == "hide"
    return _change(request, slide, lambda: arrange.name(slide, hides, _seen_version(request)))


@login_required
@require_POST
def slide_words(request: HttpRequest, public_id: str, slide_id: str) -> HttpResponse:
    """Write on a slide; what could not be kept is still there."""
    slide = _own_slide(request, public_id, slide_id)
    form = SlideForm(request.POST)
    typed = Typed(slide_id, form)
    if not form.is_valid():
        return desk_page(request, slide.album, typed=typed)
    said = form.cleaned_data
    words = "" if _is_generated(request, slide, said["words"]) else said["words"]
    try:
        arrange.write(slide, said["title"], words, said["version"])
    except arrange.ConflictError:
        say_conflict(request, has_typed=True)
        return desk_page(request, own_album(request, public_id), typed=typed, status=409)
    return _back_to(slide)


@login_required
@require_safe
def slide_picture(
    request: HttpRequest, public_id: str, slide_id: str, width: int
) -> HttpResponseBase:
    """One slide as the film will show it."""
    slide = _own_slide(request, public_id, slide_id)
    drawn = _placed(slide).drawn
    if drawn is None or width not in WIDTHS:
        raise Http404
    try:
        path = preview(slide.album, drawn, width)
    except FilmError as error:
        raise Http404 from error
    return keep_private(FileResponse(path.open("rb"), content_type="image/jpeg"))


def _own_slide(request: HttpRequest, public_id: str, slide_id: str) -> Slide:
    album = own_album(request, public_id)
    slide = get_object_or_404(album.slides, public_id=slide_id)
    slide.album = album
    return slide


def _placed(slide: Slide) -> Placed:
    return next(one for one in placed(slide.album) if one.row.pk == slide.pk)


def _is_generated(request: HttpRequest, slide: Slide, words: str) -> bool:
    """Whether the caption is to follow the record: asked for, or left exactly as it was made."""
    is_garment = slide.kind == Slide.Kind.GARMENT
    return is_garment and ("generated" in request.POST or words == _placed(slide).generated)


def _seen_version(request: HttpRequest) -> int:
    form = VersionForm(request.POST)
    return form.cleaned_data["version"] if form.is_valid() else -1


def _change(request: HttpRequest, slide: Slide, deed: Callable[[], None]) -> HttpResponse:
    try:
        deed()
    except arrange.ConflictError:
        say_conflict(request)
    return _back_to(slide)


def _back_to(slide: Slide) -> HttpResponse:
    page = reverse("album", args=[slide.album.public_id])
    return redirect(f"{page}#slide-{slide.public_id}")
