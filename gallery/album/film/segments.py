"""The parts a film is made of, and the key under which each is kept.

Every slide has an *in* part (it cross-fades from its neighbour) and a *hold* part; after the last
slide an *out* part fades to dark. A part's key is a hash of everything that decides its pixels and
of nothing else: never the slide's place in the film.
"""

import hashlib
import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from functools import cache
from pathlib import Path
from typing import Any

import cv2
import PIL

from gallery.album.film import segmentfile
from gallery.album.film.encode import Encoding, libraries
from gallery.album.film.lettering import SHAPES, typeface_mark
from gallery.album.film.paint import PAINTER
from gallery.album.film.plan import FilmPlan, PhotoSlide, Slide, credit_line
from gallery.album.film.timing import Shot, shots


@dataclass(frozen=True)
class Part:
    """One piece of the film: `kind` is in, hold or out; `before` is what an *in* fades from."""

    kind: str
    index: int
    slide: Slide
    shot: Shot
    before: Slide | None
    before_shot: Shot | None
    frames: int
    key: str

    @property
    def photos(self) -> tuple[str, ...]:
        """The sha256 of every photo seen in this part."""
        seen = (self.before, self.slide)
        return tuple(slide.photo_sha256 for slide in seen if isinstance(slide, PhotoSlide))


def parts(plan: FilmPlan, encoding: Encoding | None = None) -> tuple[Part, ...]:
    """All parts of the film in order."""
    return tuple(_parts(plan, encoding or Encoding()))


def _parts(plan: FilmPlan, encoding: Encoding) -> Iterator[Part]:
    before: Slide | None = None
    before_shot: Shot | None = None
    ground = _ground(plan, encoding)
    for slide, shot in zip(plan.slides, shots(plan), strict=True):
        key = _key(plan, ground, "in", (before, slide))
        yield Part("in", shot.index, slide, shot, before, before_shot, shot.in_frames, key)
        key = _key(plan, ground, "hold", (slide,))
        yield Part("hold", shot.index, slide, shot, None, None, shot.hold_frames, key)
        before, before_shot = slide, shot
    if before and before_shot:
        key = _key(plan, ground, "out", (before,))
        out_frames = before_shot.in_frames
        yield Part("out", before_shot.index, before, before_shot, None, None, out_frames, key)


def _key(plan: FilmPlan, ground: str, kind: str, seen: tuple[Slide | None, ...]) -> str:
    facts = [ground, kind, [_facts(plan, slide) for slide in seen]]
    return hashlib.sha256(json.dumps(facts, sort_keys=True).encode()).hexdigest()


def _facts(plan: FilmPlan, slide: Slide | None) -> dict[str, Any] | None:
    """What of a slide decides its pixels."""
    if slide is None:
        return None
    facts = asdict(slide)
    unseen = {"ref", "photo", "description", "credit"}
    shown = {name: value for name, value in facts.items() if name not in unseen}
    if isinstance(slide, PhotoSlide):
        shown["credit_line"] = credit_line(plan, slide)
    return shown


def _ground(plan: FilmPlan, encoding: Encoding) -> str:
    """What decides the pixels of every part of this film alike."""
    film = [plan.width, plan.height, plan.fps, plan.fade_seconds, plan.look]
    return json.dumps([film, asdict(encoding), _tools()], sort_keys=True)


@cache
def _tools() -> list[Any]:
    return [PAINTER, typeface_mark(), SHAPES, cv2.__version__, PIL.__version__, libraries()]


def place(cache_dir: Path, key: str) -> Path:
    """Where the part with this key lies in the cache."""
    return cache_dir / key[:2] / f"{key}.part"


def missing(plan: FilmPlan, cache_dir: Path, encoding: Encoding | None = None) -> list[Part]:
    """The parts not yet in the cache, in order, each key once."""
    absent: dict[str, Part] = {}
    for part in parts(plan, encoding):
        if part.key not in absent and not segmentfile.is_whole(place(cache_dir, part.key)):
            absent[part.key] = part
    return list(absent.values())


def forget_photo(cache_dir: Path, photo_sha256: str) -> int:
    """Remove every part that shows this photo; give how many there were."""
    gone = 0
    for path in cache_dir.glob("*/*.part"):
        if photo_sha256 in segmentfile.photos_in(path):
            path.unlink(missing_ok=True)
            gone += 1
    return gone
