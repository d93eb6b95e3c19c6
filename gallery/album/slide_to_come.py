"""The slide a garment would be in the film, for its sender, before it is sent: her own picture,
drawn by the film's own painter, with as much beside it as she allows."""

import hashlib
import io
import tempfile
from pathlib import Path

from django.conf import settings
from django.http import Http404, HttpRequest, HttpResponse, QueryDict
from django.shortcuts import get_object_or_404
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from gallery.access import keep_private
from gallery.album.film import plan as film
from gallery.album.film import still
from gallery.album.film.errors import FilmError
from gallery.contributions import drafts
from gallery.contributions.models import Contribution, Photo
from gallery.contributions.photos.safely import PictureRefused, remake_safely
from gallery.contributions.pictures import framing_of, original_path
from gallery.contributions.sending import NUMBERS, Sending
from gallery.series.models import Series
from gallery.speaking import the_sites

WIDTH, QUALITY = 1280, 80
SECONDS = 5.0


@require_safe
def slide_to_come(request: HttpRequest, slug: str) -> HttpResponse:
    """The first picture of this browser's draft as a slide; `notes` and `name` say whether its
    numbers and her name would stand beside it."""
    series = get_object_or_404(Series.objects.select_related("pattern_version"), slug=slug)
    draft = drafts.of_browser(request, series)
    photo = draft.row.photos.first() if draft and draft.row and not draft.is_sent else None
    if photo is None or draft is None or draft.row is None:
        raise Http404
    caption = series.pattern_version.pattern.name
    if "notes" in request.GET:
        caption = _caption(series, draft.row) or caption
    credit = str(draft.row.typed.get("credit_name", "")) if "name" in request.GET else ""
    try:
        drawn = _drawn(photo, caption, credit)
    except (FilmError, PictureRefused, OSError) as trouble:
        raise Http404 from trouble
    return keep_private(HttpResponse(drawn, content_type="image/jpeg"))


def _caption(series: Series, row: Contribution) -> str:
    posted = QueryDict(mutable=True)
    posted.update(row.typed)
    with the_sites():
        sending = Sending(series, {}, posted, NUMBERS)
        sending.work_out()
    return sending.worked_out.caption if sending.worked_out else ""


def _drawn(photo: Photo, caption: str, credit: str) -> bytes:
    with tempfile.TemporaryDirectory(dir=settings.FILE_UPLOAD_TEMP_DIR) as folder:
        sizes = {"film": WIDTH}
        (made,) = remake_safely(original_path(photo), Path(folder), sizes, framing_of(photo))
        slide = film.PhotoSlide(
            photo=made.path,
            photo_sha256=hashlib.sha256(made.path.read_bytes()).hexdigest(),
            caption=caption,
            credit=credit,
            description=photo.description,
            seconds=SECONDS,
            ref=photo.public_id,
        )
        written = io.BytesIO()
        still.still(_plan(slide), 0, WIDTH).save(written, "JPEG", quality=QUALITY)
        return written.getvalue()


def _plan(slide: film.PhotoSlide) -> film.FilmPlan:
    with the_sites():
        return film.FilmPlan(
            slides=(slide,),
            width=settings.FILM_WIDTH,
            height=settings.FILM_HEIGHT,
            fps=settings.FILM_FPS,
            credit_words=_("Knitted by"),
            neutral_credit=_("Knitted by a follower of the series"),
        )
