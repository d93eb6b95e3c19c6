"""Cached parts and previews never outlive the permission of the photo they show."""

import shutil
from collections.abc import Container
from pathlib import Path

from django.conf import settings
from django.db.models import QuerySet

from gallery.album.film import segmentfile, segments
from gallery.album.models import Film
from gallery.album.previews import folder
from gallery.album.publish import films
from gallery.consent import gate
from gallery.consent.purposes import FILM
from gallery.contributions.models import Photo, Rendition
from gallery.contributions.people.cleared import cleared_photos
from gallery.contributions.pictures import FILM as FILM_SIZE
from gallery.review import standing

A_DAY = 24 * 3600.0


def forget(photo: Photo) -> None:
    """Remove everything cached that shows this photo."""
    made = photo.renditions.filter(size=FILM_SIZE).values_list("sha256", flat=True)
    for sha256 in made:
        forget_picture(sha256)


def forget_picture(sha256: str) -> None:
    """Remove every cached part and preview that shows the picture with this content."""
    segments.forget_photo(Path(settings.SEGMENTS_DIR), sha256)
    shutil.rmtree(folder() / sha256, ignore_errors=True)


def forget_all_not_allowed() -> int:
    """Job: remove every cached part and preview of photos that may not be shown now, erased ones
    included, and film files that were never listed; give how many parts and previews went."""
    allowed = set(_allowed_pictures())
    listed = set(Film.objects.values_list("sha256", flat=True))
    listed |= set(Film.objects.values_list("poster_sha256", flat=True))
    films().sweep(listed, A_DAY)
    return _sweep_parts(allowed) + _sweep_previews(allowed)


def _allowed_pictures() -> QuerySet[Rendition, str]:
    allowed = standing.approved_photos().filter(
        contribution__agreement__in=gate.agreements_allowing(FILM),
        pk__in=cleared_photos(FILM).values("pk"),
    )
    ids = set(allowed.values_list("pk", flat=True))
    return Rendition.objects.filter(photo__in=ids, size=FILM_SIZE).values_list("sha256", flat=True)


def _sweep_parts(allowed: Container[str]) -> int:
    gone = 0
    for path in Path(settings.SEGMENTS_DIR).glob("*/*.part"):
        if any(sha256 not in allowed for sha256 in segmentfile.photos_in(path)):
            path.unlink(missing_ok=True)
            gone += 1
    return gone


def _sweep_previews(allowed: Container[str]) -> int:
    gone = [one for one in folder().glob("*") if one.name != "cards" and one.name not in allowed]
    for one in gone:
        shutil.rmtree(one, ignore_errors=True)
    return len(gone)
