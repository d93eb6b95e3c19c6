"""One frame of a part: a slide alone, two in a cross-fade, or the last one fading to dark."""

from dataclasses import dataclass

from gallery.album.film.paint import Painted
from gallery.album.film.planes import Planes, mix
from gallery.album.film.segments import Part


@dataclass(frozen=True)
class Cast:
    """What a part is drawn from; `spare` is room for the picture it fades from."""

    part: Part
    own: Painted
    before: Painted | None
    spare: Planes


def draw_frame(cast: Cast, number: int, into: Planes) -> None:
    """Draw frame `number` of the part."""
    part, own, before = cast.part, cast.own, cast.before
    if part.kind == "hold":
        own.draw(into, part.shot.in_frames + number, part.shot.life)
        return
    share, leaving, coming = fade(number, part.frames)
    if part.kind == "out":
        own.draw(into, part.shot.life - part.frames + number, part.shot.life, leaving)
        mix(1 - share, into, None, into)
        return
    own.draw(into, number, part.shot.life, coming)
    if before and part.before_shot:
        age = part.before_shot.life - part.frames + number
        before.draw(cast.spare, age, part.before_shot.life, leaving)
    mix(share, into, cast.spare if before else None, into)


def fade(number: int, frames: int) -> tuple[float, float, float]:
    """For a frame of a cross-fade: the new picture's share, the old letters', the new letters'.

    The old caption has gone halfway through, before the new one begins: two captions over one
    another cannot be read.
    """
    time = (number + 0.5) / frames
    return time * time * (3 - 2 * time), max(0.0, 1 - 2 * time), max(0.0, 2 * time - 1)
