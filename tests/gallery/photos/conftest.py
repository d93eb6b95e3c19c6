"""Furniture of the picture room: a scene with no symmetry, files written on the spot."""

import io
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pillow_heif
import pytest
from PIL import Image, ImageChops, ImageStat

from gallery.contributions.photos.safely import (
    PictureRefused,
    Received,
    receive_safely,
)

pillow_heif.register_heif_opener(thumbnails=False)


@pytest.fixture
def scene() -> Image.Image:
    """480 × 320: four corners of four colours, so that every turn of it shows."""
    picture = Image.new("RGB", (480, 320), (230, 220, 200))
    for at, colour in {
        (0, 0): (200, 40, 40),
        (240, 0): (40, 160, 60),
        (0, 160): (40, 60, 190),
    }.items():
        picture.paste(colour, (*at, at[0] + 240, at[1] + 160))
    return picture


@pytest.fixture
def written(tmp_path: Path) -> Callable[..., Path]:
    """Write bytes, or a picture in a format, under a name."""

    def write(name: str, content: bytes | Image.Image, kind: str = "", **how: Any) -> Path:
        path = tmp_path / name
        if isinstance(content, Image.Image):
            file = io.BytesIO()
            content.save(file, kind, **how)
            content = file.getvalue()
        path.write_bytes(content)
        return path

    return write


@pytest.fixture
def take(tmp_path: Path) -> Callable[[Path], Received]:
    """Receive a file as the front door does."""
    return lambda path: receive_safely(path, path.name, tmp_path)


@pytest.fixture
def refusal(take: Callable[[Path], Received]) -> Callable[[Path], PictureRefused]:
    """The refusal a file meets."""

    def refuse(path: Path) -> PictureRefused:
        with pytest.raises(PictureRefused) as caught:
            take(path)
        return caught.value

    return refuse


@pytest.fixture
def apart() -> Callable[[Image.Image, Image.Image], float]:
    """Mean absolute difference of two pictures of one size, in 255ths."""

    def difference(one: Image.Image, other: Image.Image) -> float:
        assert one.size == other.size
        means = ImageStat.Stat(ImageChops.difference(one.convert("RGB"), other.convert("RGB"))).mean
        return sum(means) / len(means)

    return difference
