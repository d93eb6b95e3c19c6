"""One slide as a picture, painted by the same code as the film: storyboard and poster."""

import io
from dataclasses import replace
from pathlib import Path

from PIL import Image

from gallery.album.film import planes
from gallery.album.film.errors import FilmError
from gallery.album.film.paint import painted
from gallery.album.film.plan import SMALLEST_SIDE, FilmPlan
from gallery.album.film.saying import gettext as _
from gallery.album.film.timing import shots
from gallery.album.film.wholefile import beside, settle

POSTER_QUALITY = 90


def still(plan: FilmPlan, index: int, width: int = 640) -> Image.Image:
    """Slide `index` (from 0) in the middle of its life, about `width` pixels wide.

    Lines break as in the film, whatever the width. Refuses, as FilmError, what the film would.
    """
    if not 0 <= index < len(plan.slides):
        raise FilmError(
            _("The film has no slide %(number)s: it has %(all)s.")
            % {"number": index + 1, "all": len(plan.slides)}
        )
    shot = shots(plan)[index]
    small = _sized(plan, width)
    into = planes.empty(small.width, small.height)
    painted(small, plan.slides[index]).draw(into, shot.life // 2, shot.life)
    return Image.fromarray(planes.to_rgb(into))


def poster(plan: FilmPlan, path: Path) -> None:
    """Write the film's first slide as a JPEG of the film's size."""
    written = io.BytesIO()
    still(plan, 0, plan.width).save(written, "JPEG", quality=POSTER_QUALITY, progressive=True)
    with beside(path) as part:
        part.write_bytes(written.getvalue())
        settle(part, path)


def _sized(plan: FilmPlan, width: int) -> FilmPlan:
    """The plan at about this width: even sides, none below the smallest the painter knows."""
    scale = max(width / plan.width, SMALLEST_SIDE / min(plan.width, plan.height))
    sides = (round(side * scale / 2) * 2 for side in (plan.width, plan.height))
    return replace(plan, width=next(sides), height=next(sides))
