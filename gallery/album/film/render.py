"""The whole way from a plan to a film that was read back and found right."""

import hashlib
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from gallery.album.film.check import problems
from gallery.album.film.encode import Encoding
from gallery.album.film.errors import FilmError
from gallery.album.film.join import write
from gallery.album.film.make import Ask, Progress, encode_missing, never, silent
from gallery.album.film.plan import FilmPlan
from gallery.album.film.saying import gettext as _
from gallery.album.film.timing import total_frames, total_seconds
from gallery.album.film.verify import verify
from gallery.album.film.wholefile import beside, settle


@dataclass(frozen=True)
class Film:
    """A finished film."""

    path: Path
    frames: int
    seconds: Fraction
    sha256: str
    size: int


def render(
    plan: FilmPlan,
    cache_dir: Path,
    out: Path,
    *,
    workers: int = 2,
    should_stop: Ask = never,
    progress: Progress = silent,
    encoding: Encoding | None = None,
) -> Film:
    """Make the film; under `out` stands a whole, verified film or what stood there before.

    Raises FilmError with a sentence when the plan cannot be filmed, Cancelled when `should_stop`
    says so. What was made is kept in `cache_dir`, so that the next call goes on from there.
    """
    refuse_problems(plan)
    encode_missing(
        plan,
        cache_dir,
        workers=workers,
        should_stop=should_stop,
        progress=progress,
        encoding=encoding,
    )
    return finish(plan, cache_dir, out, should_stop=should_stop, encoding=encoding)


def finish(
    plan: FilmPlan,
    cache_dir: Path,
    out: Path,
    *,
    should_stop: Ask = never,
    encoding: Encoding | None = None,
    before_publishing: Callable[[], None] = lambda: None,
) -> Film:
    """Join the parts that are all there, read the film back, give it its name.

    `before_publishing` is called last of all; what it raises keeps the film from its name.
    """
    with beside(out) as unproved:
        write(plan, cache_dir, unproved, encoding=encoding, should_stop=should_stop)
        faults = verify(unproved, plan, should_stop=should_stop)
        if faults:
            raise FilmError(
                _("The film was made but is not right: %(faults)s") % {"faults": " ".join(faults)}
            )
        film = _film(plan, unproved, out)
        before_publishing()
        settle(unproved, out)
        return film


def refuse_problems(plan: FilmPlan) -> None:
    """Raise the plan's problems, if it has any, as one FilmError."""
    found = problems(plan)
    if found:
        raise FilmError(" ".join(found))


def _film(plan: FilmPlan, written: Path, named: Path) -> Film:
    with written.open("rb") as file:
        digest = hashlib.file_digest(file, "sha256").hexdigest()
    size = written.stat().st_size
    return Film(named, total_frames(plan), total_seconds(plan), digest, size)
