"""Furniture of the film's tests: photos drawn on the spot, short films of stamp size."""

import hashlib
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import av
import numpy as np
import pytest
from PIL import Image

from gallery.album.film.plan import Card, FilmPlan, PhotoSlide

WIDTH, HEIGHT = 320, 180
MakeSlide = Callable[..., PhotoSlide]


def hilly(size: tuple[int, int], seed: int) -> Image.Image:
    """A picture with soft and fine detail, the same for the same seed."""
    rng = np.random.default_rng(seed)
    coarse = Image.fromarray(rng.integers(0, 255, (9, 16, 3), dtype=np.uint8))
    fine = Image.fromarray(rng.integers(0, 255, (90, 160, 3), dtype=np.uint8))
    return Image.blend(coarse.resize(size), fine.resize(size), 0.25)


@pytest.fixture
def slide(tmp_path: Path) -> MakeSlide:
    """Make a photo slide: of one colour, or hilly by a seed; the rest as a slide takes it."""

    def make(look: int | tuple[int, int, int] = 1, size: tuple[int, int] = (480, 270), **rest: Any):
        picture = Image.new("RGB", size, look) if isinstance(look, tuple) else hilly(size, look)
        path = tmp_path / f"photo-{look}-{size[0]}x{size[1]}.jpg".replace(" ", "")
        picture.save(path, "JPEG", quality=95, subsampling=0)
        digest = hashlib.sha256(path.read_bytes()).hexdigest()
        told = {"caption": f"Size {look}", "seconds": 1.0, **rest}
        return PhotoSlide(path, digest, **told)

    return make


@pytest.fixture
def plan(slide: MakeSlide) -> FilmPlan:
    """Two seconds and a fade: a title card and a photo, 30 frames a second; 60 + 9 frames."""
    card = Card("Ostrimane Tunic", ("The Ostrimane Evenings",), seconds=1.0)
    return FilmPlan((card, slide(1, credit="Wrenna Quist")), WIDTH, HEIGHT, 30, 0.3)


@pytest.fixture
def four(plan: FilmPlan, slide: MakeSlide) -> FilmPlan:
    """Four seconds and a fade: a card and three photos."""
    return replace(plan, slides=(*plan.slides, slide(2, (270, 480)), slide(3)))


@pytest.fixture
def cache(tmp_path: Path) -> Path:
    return tmp_path / "cache"


@pytest.fixture
def decoded() -> Callable[[Path], list[np.ndarray]]:
    """The luma of every frame of a film."""

    def read(path: Path) -> list[np.ndarray]:
        with av.open(str(path)) as container:
            return [f.to_ndarray()[: f.height].copy() for f in container.decode(video=0)]

    return read
