"""Draws the demo's photos and saves them as a camera would; several processes at once."""

import datetime
import os
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from alterations.pattern import Pattern
from alterations.recalculate import recalculate
from gallery.demo.camera import save_as_camera_file
from gallery.demo.drawing import Shot, draw
from gallery.demo.people import Knitted, Picture
from gallery.demo.shapes import shape_of

CAMERAS = ("Lumenwick P3", "Heronglass 40", "Oxbow Pocket")  # invented
OPEN_SEA = (-48.8767, -123.3933)  # as far from any land as one can be; nobody lives there
FIRST_DAY = datetime.datetime(2026, 9, 6, 10, 20)
ENDINGS = {"jpeg": "jpg", "heic": "heic", "png": "png", "webp": "webp"}


@dataclass(frozen=True)
class Wanted:
    """One file to be made: which garment, which of its pictures, where to."""

    garment: int
    number: int
    shot: Shot
    picture: Picture
    path: Path
    camera: str
    taken: datetime.datetime


def wanted(pattern: Pattern, knitted: Sequence[Knitted], folder: Path) -> list[Wanted]:
    """All pictures of the garments, each drawn from the garment's own recalculated numbers."""
    return [
        _wanted(pattern, index, one, number, folder)
        for index, one in enumerate(knitted)
        for number in range(len(one.pictures))
    ]


def _wanted(pattern: Pattern, index: int, one: Knitted, number: int, folder: Path) -> Wanted:
    picture = one.pictures[number]
    made = recalculate(pattern, one.size, one.alterations).after
    shot = Shot(
        shape=shape_of(pattern, made.size, made.gauge),
        colour=one.colour,
        scene=picture.scene,
        portrait=picture.portrait,
        megapixels=picture.megapixels,
        seed=index * 10 + number + 1,
    )
    name = f"IMG_{4100 + index * 7 + number}.{ENDINGS[picture.kind]}"
    taken = FIRST_DAY + datetime.timedelta(days=index, hours=number, minutes=13 * index)
    camera = CAMERAS[index % len(CAMERAS)]
    return Wanted(index, number, shot, picture, folder / f"{index:03d}" / name, camera, taken)


def photograph(one: Wanted) -> Wanted:
    """Draw one picture and save it as its camera would."""
    one.path.parent.mkdir(parents=True, exist_ok=True)
    save_as_camera_file(
        draw(one.shot),
        one.path,
        orientation=one.picture.orientation,
        gps=OPEN_SEA if one.picture.has_place else None,
        taken=one.taken,
        camera=one.camera,
        kind=one.picture.kind,
    )
    return one


def photographs(pictures: Sequence[Wanted]) -> Iterator[Wanted]:
    """Draw them all, as many at once as there are processors; in order."""
    with ProcessPoolExecutor(max_workers=os.cpu_count() or 1) as pool:
        yield from pool.map(photograph, pictures)
