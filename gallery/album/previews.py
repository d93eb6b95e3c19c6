"""Slides as pictures, drawn by the film's own painter and kept under what decides their pixels."""

import io
from dataclasses import replace
from pathlib import Path

from django.conf import settings

from gallery.album.film import segments, still
from gallery.album.film.errors import FilmError
from gallery.album.film.plan import FilmPlan, PhotoSlide, Slide
from gallery.album.film.wholefile import beside, settle
from gallery.album.gather import bare_plan
from gallery.album.models import Album

WIDTHS = (640, 1280)
QUALITY = 84


def folder() -> Path:
    """Where the pictures lie: a folder for each photo, so that all of one can be forgotten."""
    return Path(settings.SEGMENTS_DIR) / "stills"


def preview(album: Album, slide: Slide, width: int) -> Path:
    """The slide as a picture of about that width; drawn now where it was never asked for.

    Where its words do not fit it is drawn without them. Raises FilmError where it cannot be drawn.
    """
    plan = replace(bare_plan(album, (slide,)), music=None)
    path = _place(plan, slide, width)
    if not path.is_file():
        _keep(_drawn(plan, slide, width), path)
    return path


def _place(plan: FilmPlan, slide: Slide, width: int) -> Path:
    hold = next(part for part in segments.parts(plan) if part.kind == "hold")
    shown = slide.photo_sha256 if isinstance(slide, PhotoSlide) else "cards"
    return folder() / shown / f"{hold.key}-{width}.jpg"


def _drawn(plan: FilmPlan, slide: Slide, width: int) -> bytes:
    try:
        picture = still.still(plan, 0, width)
    except FilmError:
        if not isinstance(slide, PhotoSlide):
            raise
        wordless = replace(slide, caption="", credit="")
        picture = still.still(replace(plan, slides=(wordless,)), 0, width)
    drawn = io.BytesIO()
    picture.save(drawn, "JPEG", quality=QUALITY)
    return drawn.getvalue()


def _keep(drawn: bytes, path: Path) -> None:
    path.parent.mkdir(mode=0o750, parents=True, exist_ok=True)
    with beside(path) as part:
        part.write_bytes(drawn)
        settle(part, path)
