"""Doors of the album desk: collect, arrange, write, preview."""

import io
from collections.abc import Callable

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_POST, require_safe

from gallery.access import is_teacher, keep_private
from gallery.album import arrange
from gallery.album.board import board_of
from gallery.album.collect import collect
from gallery.album.film import still
from gallery.album.film.errors import FilmError
from gallery.album.forms import AlbumForm, PlaceForm, SlideForm
from gallery.album.gather import placed, plan_of
from gallery.album.models import Album, Slide
from gallery.series.models import Series

PREVIEW_WIDTH = 640


def own_album(request: HttpRequest, public_id: str) -> Album:
    """The album if it is hers; else the answer is as for one that is not there."""
    album = get_object_or_404(Album.objects.select_related("series"), public_id=public_id)
    if not is_teacher(request.user, album.series.teacher_id):
        raise Http404
    return album


@login_required
def albums(request: HttpRequest, slug: str) -> HttpResponse:
    """The albums of a series; a new one is begun with a title."""
    series = get_object_or_404(Series, slug=slug)
    if not is_teacher(request.user, series.teacher_id):
        raise Http404
    if request.method == "POST":
        title = request.POST.get("title", "").strip()[:200] or series.title
        album = Album.objects.create(series=series, title=title)
        collect(album)
        return redirect("album", public_id=album.public_id)
    return render(request, "album/albums.html", {"series": series, "albums": series.albums.all()})


@login_required
@require_safe
def album(request: HttpRequest, public_id: str) -> HttpResponse:
    """The desk of one album: its slides as pictures, its length, what it still lacks."""
    return _desk(request, own_album(request, public_id))


def _desk(
    request: HttpRequest,
    album: Album,
    form: AlbumForm | None = None,
    typed: tuple[str, SlideForm] | None = None,
) -> HttpResponse:
    facts = {
        "album": album,
        "series": album.series,
        "board": board_of(album, typed),
        "form": form or AlbumForm(instance=album),
        "renders": album.renders.select_related("film")[:5],
    }
    status = 409 if typed else 200
    return keep_private(render(request, "album/album.html", facts, status=status))


@login_required
@require_POST
def album_collect(request: HttpRequest, public_id: str) -> HttpResponse:
    """Take in what is approved and allowed and not there yet."""
    album = own_album(request, public_id)
    came = collect(album)
    words = ngettext("%(n)s photo came in.", "%(n)s photos came in.", came) % {"n": came}
    messages.success(request, words if came else _("Nothing new: every allowed photo is here."))
    return redirect("album", public_id=public_id)


@login_required
@require_POST
def album_details(request: HttpRequest, public_id: str) -> HttpResponse:
    """Change title, pace or music."""
    album = own_album(request, public_id)
    form = AlbumForm(request.POST, request.FILES, instance=album)
    if not form.is_valid():
        return _desk(request, own_album(request, public_id), form)
    form.save()
    messages.success(request, _("The changes are kept."))
    return redirect("album", public_id=public_id)


@login_required
@require_POST
def slide_move(request: HttpRequest, public_id: str, slide_id: str) -> HttpResponse:
    """Move a slide one up, one down or to a place."""
    form = PlaceForm(request.POST)
    if not form.is_valid():
        messages.error(request, _("Give the place as a number."))
        return redirect("album", public_id=public_id)
    place, version = form.cleaned_data["place"], form.cleaned_data["version"]
    return _change(request, public_id, slide_id, lambda slide: arrange.move(slide, place, version))


@login_required
@require_POST
def slide_take_out(request: HttpRequest, public_id: str, slide_id: str) -> HttpResponse:
    """Take a slide out of the album."""
    form = PlaceForm({"place": 1, **request.POST.dict()})
    version = form.cleaned_data["version"] if form.is_valid() else -1
    return _change(request, public_id, slide_id, lambda slide: arrange.take_out(slide, version))


def _change(
    request: HttpRequest, public_id: str, slide_id: str, deed: Callable[[Slide], None]
) -> HttpResponse:
    album = own_album(request, public_id)
    slide = album.slides.filter(public_id=slide_id).first()
    try:
        if slide is not None:
            deed(slide)
    except arrange.ConflictError:
        messages.warning(request, _conflict())
    return redirect("album", public_id=public_id)


def _conflict() -> str:
    return _(
        "The album was changed in another window meanwhile. Nothing was overwritten; "
        "this is how it stands now. Look at it and try again."
    )


@login_required
@require_POST
def slide_words(request: HttpRequest, public_id: str, slide_id: str) -> HttpResponse:
    """Write on a slide; after a conflict what was typed is still there."""
    album = own_album(request, public_id)
    slide = get_object_or_404(album.slides, public_id=slide_id)
    form = SlideForm(request.POST)
    if not form.is_valid():
        messages.error(request, _("At most 600 letters fit on a slide. What you typed is below."))
        return _desk(request, album, typed=(slide_id, form))
    said = form.cleaned_data
    words = "" if "generated" in request.POST else said["words"].replace("\r\n", "\n")
    try:
        arrange.write(slide, said["title"], words, said["version"])
    except arrange.ConflictError:
        messages.warning(request, _conflict())
        return _desk(request, own_album(request, public_id), typed=(slide_id, form))
    return redirect("album", public_id=public_id)


@login_required
@require_safe
def slide_picture(request: HttpRequest, public_id: str, slide_id: str) -> HttpResponse:
    """One slide as the film will show it, drawn by the film's own painter."""
    album = own_album(request, public_id)
    chosen = [one for one in placed(album) if one.row.public_id == slide_id]
    if not chosen or chosen[0].planned is None:
        raise Http404
    try:
        picture = still.still(plan_of(album, chosen), 0, PREVIEW_WIDTH)
    except FilmError as error:
        raise Http404 from error
    drawn = io.BytesIO()
    picture.save(drawn, "JPEG", quality=84)
    return keep_private(HttpResponse(drawn.getvalue(), content_type="image/jpeg"))
