"""Whose album it is: the teacher of its series (or the site's keeper)."""

from django.http import Http404, HttpRequest
from django.shortcuts import get_object_or_404

from gallery.access import is_teacher
from gallery.album.models import Album, Film, Render
from gallery.series.models import Series


def own_series(request: HttpRequest, slug: str) -> Series:
    """The series if it is hers."""
    series = get_object_or_404(Series.objects.select_related("pattern_version"), slug=slug)
    _refuse_others(request, series)
    return series


def own_album(request: HttpRequest, public_id: str) -> Album:
    """The album if it is hers."""
    albums = Album.objects.select_related("series__pattern_version__pattern")
    album = get_object_or_404(albums, public_id=public_id)
    _refuse_others(request, album.series)
    return album


def own_render(request: HttpRequest, public_id: str) -> Render:
    """The render if it is hers."""
    renders = Render.objects.select_related("album__series", "film")
    wish = get_object_or_404(renders, public_id=public_id)
    _refuse_others(request, wish.album.series)
    return wish


def own_film(request: HttpRequest, public_id: str) -> Film:
    """The finished film of that render if it is hers."""
    wish = own_render(request, public_id)
    if not hasattr(wish, "film"):
        raise Http404
    return wish.film


def _refuse_others(request: HttpRequest, series: Series) -> None:
    if not is_teacher(request.user, series.teacher_id):
        raise Http404
