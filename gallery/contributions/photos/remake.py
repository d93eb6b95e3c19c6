"""Looks into a picture, and makes it anew from its pixels in the sizes that may be shown."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from PIL import Image

from gallery.contributions.photos.errors import PictureRefused
from gallery.contributions.photos.limits import FULL_DECODE_PIXELS
from gallery.contributions.photos.opening import opened, refuse_by_kind
from gallery.contributions.photos.upright import (
    SRGB_BYTES,
    fitted,
    fresh,
    in_srgb,
    orientation_of,
    turned,
)

FILM = "film"
FILM_QUALITY, PAGE_QUALITY = 92, 84
SMALL = {"small": 400}


@dataclass(frozen=True)
class Inspected:
    """What a picture is: its kind, its upright size in pixels, notes for the sender."""

    kind: str
    width: int
    height: int
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Remade:
    """One safe size, written as a JPEG in sRGB."""

    size_name: str
    path: Path
    width: int
    height: int


def receive(path: Path, out_dir: Path, sizes: Mapping[str, int]) -> tuple[Inspected, list[Remade]]:
    """Decode once, wholly; tell what it is and write the sizes (longer side in pixels).

    Raises PictureRefused for what is no picture, too large, or incomplete.
    """
    kind = refuse_by_kind(path)
    with opened(path) as picture:
        stored = picture.size
        orientation = orientation_of(picture)
        notes = _notes(picture)
        _draft(picture, max(sizes.values()))
        pixels, colour_notes = _decoded(picture)
    width, height = stored if orientation < 5 else stored[::-1]
    made = _written(turned(pixels, orientation), out_dir, sizes)
    return Inspected(kind, width, height, notes + colour_notes), made


def _notes(picture: Image.Image) -> tuple[str, ...]:
    if getattr(picture, "n_frames", 1) > 1:
        return ("The file holds several pictures; the first one is used.",)
    return ()


def _draft(picture: Image.Image, longer_side: int) -> None:
    """Let a very large JPEG be decoded at a fraction of its size that still is large enough."""
    width, height = picture.size
    if picture.format in ("JPEG", "MPO") and width * height > FULL_DECODE_PIXELS:
        scale = longer_side / max(width, height)
        picture.draft("RGB", (max(1, round(width * scale)), max(1, round(height * scale))))


def _decoded(picture: Image.Image) -> tuple[Image.Image, tuple[str, ...]]:
    try:
        picture.load()
    except (OSError, SyntaxError, EOFError) as error:
        raise PictureRefused(
            "incomplete", "This picture is incomplete or damaged. Please send it again."
        ) from error
    return in_srgb(picture)


def _written(picture: Image.Image, out_dir: Path, sizes: Mapping[str, int]) -> list[Remade]:
    """Each size from the next larger one: scaling down twice costs less than from the whole."""
    made = []
    for name, longer_side in sorted(sizes.items(), key=lambda item: -item[1]):
        picture = fitted(picture, longer_side)
        path = out_dir / f"{name}.jpg"
        fresh(picture).save(
            path,
            "JPEG",
            quality=FILM_QUALITY if name == FILM else PAGE_QUALITY,
            progressive=name != FILM,
            optimize=False,
            icc_profile=SRGB_BYTES,
        )
        made.append(Remade(name, path, *picture.size))
    return made
