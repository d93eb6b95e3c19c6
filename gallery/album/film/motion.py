"""How a photo moves: a slow scale about a fixed point, exact to fractions of a pixel.

The edges of the scale are not rounded to pixels. The fixed point lies on whole pixels of the
prepared picture and of the film, and the four quarters around it are scaled outwards from it; so
the movement is smooth however slow it is.
"""

import hashlib
from dataclasses import dataclass

from gallery.album.film.plan import Card, Slide

# The prepared picture is 23/20 of the film's size, so that it is never enlarged; 40 film pixels
# are 46 prepared ones, 20 and 23 in the half-size colour planes: all whole.
SPARE_NUMERATOR, SPARE_DENOMINATOR = 23, 20
GRID = 40
LEAST_ZOOM, MOST_ZOOM = 1.06, 1.09


@dataclass(frozen=True)
class Motion:
    """Scale at the beginning and the end of a slide's life, about `anchor` (film pixels)."""

    begin: float
    end: float
    anchor: tuple[int, int]

    def scale(self, age: int, life: int) -> float:
        """The scale at `age` frames of `life`; each frame grows by the same factor."""
        share = age / max(1, life - 1)
        return float(self.begin * (self.end / self.begin) ** share)


def motion_of(slide: Slide, width: int, height: int, focus: tuple[float, float]) -> Motion:
    """The slide's movement in a film of this size; a card stands still.

    In or out, and how far, is drawn from the photo itself, never from its place in the film: a
    slide that moves to another place keeps its pictures. `focus` is the point of interest as
    shares of the frame.
    """
    anchor = (_on_grid(focus[0], width), _on_grid(focus[1], height))
    if isinstance(slide, Card):
        return Motion(1.0, 1.0, anchor)
    seed = hashlib.sha256(f"motion {slide.photo_sha256}".encode()).digest()
    far = LEAST_ZOOM + (MOST_ZOOM - LEAST_ZOOM) * seed[1] / 255
    return Motion(1.0, far, anchor) if seed[0] % 2 else Motion(far, 1.0, anchor)


def prepared_length(film_length: int) -> int:
    """How long a side of the prepared picture is: 23/20 of the film's, rounded up to even."""
    exact_up = -(-film_length * SPARE_NUMERATOR // SPARE_DENOMINATOR)
    return exact_up + exact_up % 2


def prepared_anchor(film_pixel: int) -> int:
    """Where a point of the grid lies in the prepared picture; a whole number by choice of grid."""
    return film_pixel * SPARE_NUMERATOR // SPARE_DENOMINATOR


def _on_grid(share: float, length: int) -> int:
    steps = max(1, min((length - 1) // GRID, round(share * length / GRID)))
    return steps * GRID
