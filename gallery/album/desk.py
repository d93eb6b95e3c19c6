"""Doors of the album desk: begin an album, collect, change its details."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from gallery.access import keep_private
from gallery.album import arrange
from gallery.album.board import Typed, board_of
from gallery.album.collect import begin, collect
from gallery.album.forms import AlbumForm, TitleForm, VersionForm
from gallery.album.models import Album
from gallery.album.pack import is_open
from gallery.album.whose import own_album, own_series
from gallery.vault import VaultError

LATEST_FILMS = 5


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def albums(request: HttpRequest, slug: str) -> HttpResponse:
    """The albums of a series; a new one is begun with a title."""
    series = own_series(request, slug)
    form = TitleForm(request.POST or None, initial={"title": series.title})
    if request.method == "POST" and form.is_valid():
        return redirect("album", public_id=begin(series, form.cleaned_data["title"]).public_id)
    facts = {"series": series, "albums": series.albums.all(), "form": form}
    return keep_private(render(request, "album/albums.html", facts))


@login_required
@require_safe
def album(request: HttpRequest, public_id: str) -> HttpResponse:
    """The desk of one album: its slides as pictures, its length, what it still lacks."""
    return desk_page(request, own_album(request, public_id))


def desk_page(
    request: HttpRequest,
    album: Album,
    *,
    form: AlbumForm | None = None,
    typed: Typed | None = None,
    status: int = 200,
) -> HttpResponse:
    """The album's page, with what was typed and not kept."""
    renders = list(album.renders.select_related("film")[:LATEST_FILMS])
    made = [wish.film for wish in renders if hasattr(wish, "film")]
    facts = {
        "album": album,
        "series": album.series,
        "closed": [film.render_id for film in made if not is_open(film)],
        "board": board_of(album, typed),
        "form": form or AlbumForm(instance=album),
        "renders": renders,
    }
    return keep_private(render(request, "album/album.html", facts, status=status))


def say_conflict(request: HttpRequest, *, has_typed: bool = False) -> None:
    """Tell that somebody else was faster."""
    words = _(
        "The album was changed in another window meanwhile. Nothing was overwritten: this is how "
        "it stands now. Look at it and try again."
    )
    kept = _("What you typed is still in its field.") if has_typed else ""
    messages.warning(request, f"{words} {kept}".strip())


@login_required
@require_POST
def album_collect(request: HttpRequest, public_id: str) -> HttpResponse:
    """Take in what is approved and allowed and not there yet."""
    came = collect(own_album(request, public_id))
    words = ngettext("%(n)s photo came in.", "%(n)s photos came in.", came) % {"n": came}
    messages.success(request, words if came else _("Nothing new: every allowed photo is here."))
    return redirect("album", public_id=public_id)


@login_required
@require_POST
def album_details(request: HttpRequest, public_id: str) -> HttpResponse:
    """Change title, pace, look or music."""
    album = own_album(request, public_id)
    seen = VersionForm(request.POST)
    form = AlbumForm(request.POST, request.FILES, instance=album)
    if not form.is_valid():
        return desk_page(request, own_album(request, public_id), form=form)
    try:
        form.keep_music()
        arrange.change(album, form.save, seen.cleaned_data["version"] if seen.is_valid() else -1)
    except arrange.ConflictError:
        say_conflict(request, has_typed=True)
        return desk_page(request, own_album(request, public_id), form=form, status=409)
    except VaultError as error:
        form.add_error("music", str(error))
        return desk_page(request, own_album(request, public_id), form=form)
    messages.success(request, _("The changes are kept."))
    return redirect("album", public_id=public_id)
