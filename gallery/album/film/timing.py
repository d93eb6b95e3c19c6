"""When each slide comes and goes, in whole frames; time codes come from frames, never from sums."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from gallery.album.film.plan import FilmPlan


@dataclass(frozen=True)
class Shot:
    """One slide in time, all in frames: it comes in, holds, and leaves while the next comes in."""

    index: int
    start: int
    in_frames: int
    hold_frames: int

    @property
    def end(self) -> int:
        """The frame on which the next slide begins to come in."""
        return self.start + self.in_frames + self.hold_frames

    @property
    def life(self) -> int:
        """How many frames the slide is to be seen, its leaving included."""
        return 2 * self.in_frames + self.hold_frames


def in_frames(plan: FilmPlan, seconds: float) -> int:
    """Seconds as a whole number of frames, the nearest one."""
    return round(Fraction(str(seconds)) * plan.fps)


def shots(plan: FilmPlan) -> tuple[Shot, ...]:
    """All slides in time, in order."""
    return tuple(_shots(plan))


def _shots(plan: FilmPlan) -> Iterator[Shot]:
    start, fade = 0, in_frames(plan, plan.fade_seconds)
    for index, slide in enumerate(plan.slides):
        shot = Shot(index, start, fade, in_frames(plan, slide.seconds) - fade)
        start = shot.end
        yield shot


def total_frames(plan: FilmPlan) -> int:
    """The film's length in frames, the fade to dark at its end included; 0 without slides."""
    if not plan.slides:
        return 0
    return shots(plan)[-1].end + in_frames(plan, plan.fade_seconds)


def total_seconds(plan: FilmPlan) -> Fraction:
    """The film's length in seconds, exact."""
    return Fraction(total_frames(plan), plan.fps)


def caption_frames(shot: Shot) -> tuple[int, int]:
    """From which frame to which the slide's own words are to be seen.

    Each caption has faded out before the next comes in, halfway through the cross-fade.
    """
    half = shot.in_frames // 2
    return shot.start + half, shot.end + half


def time_code(frame: int, fps: int) -> str:
    """The frame's time as HH:MM:SS.mmm, as WebVTT writes it (nearest millisecond)."""
    milliseconds = round(Fraction(frame * 1000, fps))
    seconds, milliseconds = divmod(milliseconds, 1000)
    minutes, seconds = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02}:{minutes:02}:{seconds:02}.{milliseconds:03}"


def short_time(frame: int, fps: int) -> str:
    """The frame's time as M:SS or H:MM:SS, whole seconds begun, as a video's description has it."""
    minutes, seconds = divmod(frame // fps, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{seconds:02}" if hours else f"{minutes}:{seconds:02}"
