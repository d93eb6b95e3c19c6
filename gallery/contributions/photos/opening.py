"""Opens a picture with the decoders we trust and no others; the only place that decodes."""

import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pillow_heif
from PIL import Image, ImageFile

from gallery.contributions.photos.errors import PictureRefused
from gallery.contributions.photos.limits import (
    LONGEST_SIDE,
    MOST_PIXELS,
    MOST_PIXELS_JPEG,
)
from gallery.contributions.photos.sniff import in_words, kind_of

# Named at every opening: without it Pillow would try all its readers, one of which starts
# Ghostscript on a PostScript file. (Multi-picture JPEGs are read by the JPEG reader.)
FORMATS = ("JPEG", "PNG", "WEBP", "HEIF", "AVIF")

pillow_heif.register_heif_opener(thumbnails=False)
pillow_heif.options.DECODE_THREADS = 1
ImageFile.LOAD_TRUNCATED_IMAGES = False
Image.MAX_IMAGE_PIXELS = MOST_PIXELS_JPEG


def refuse_by_kind(path: Path) -> str:
    """The kind of the picture by its first bytes; refuses what is empty or no picture of ours."""
    if path.stat().st_size == 0:
        raise PictureRefused("empty", "This file is empty. Please choose the picture again.")
    kind = kind_of(path)
    if kind is None:
        raise PictureRefused(
            "kind",
            f"This is {in_words(path)}, not a picture the site can show. "
            "Please send a JPEG, PNG, WebP, HEIC or AVIF picture.",
        )
    return kind


@contextmanager
def opened(path: Path) -> Iterator[Image.Image]:
    """The picture, header read, sizes checked, pixels not decoded yet."""
    kind = refuse_by_kind(path)
    with warnings.catch_warnings():
        warnings.simplefilter("error", Image.DecompressionBombWarning)
        try:
            picture = Image.open(path, formats=FORMATS)
        except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
            raise _too_many(MOST_PIXELS_JPEG if kind == "jpeg" else MOST_PIXELS) from error
        with picture:
            _refuse_size(picture, kind)
            yield picture


def _refuse_size(picture: Image.Image, kind: str) -> None:
    width, height = picture.size
    most = MOST_PIXELS_JPEG if kind == "jpeg" else MOST_PIXELS
    if width * height > most or max(width, height) > LONGEST_SIDE:
        raise _too_many(most)


def _too_many(most: int) -> PictureRefused:
    return PictureRefused(
        "pixels",
        f"This picture has too many pixels (at most {most // 1_000_000} million, and "
        f"{LONGEST_SIDE} on a side). Please send a smaller copy of it.",
    )
