"""Opens a picture with the decoders we trust and no others; the only place that decodes."""

import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pillow_heif
from PIL import AvifImagePlugin, Image, ImageFile

from gallery.contributions.photos.errors import INCOMPLETE, PictureRefused, gettext_noop
from gallery.contributions.photos.limits import (
    LONGEST_SIDE,
    MOST_PIXELS,
    MOST_PIXELS_JPEG,
)
from gallery.contributions.photos.sniff import refuse_by_kind

# Exactly one reader is named at every opening. Without it Pillow would try all it has, one of
# which starts Ghostscript on a PostScript file. (Multi-picture JPEGs are read by the JPEG reader.)
READERS = {"jpeg": "JPEG", "png": "PNG", "webp": "WEBP", "heif": "HEIF", "avif": "AVIF"}

# What a reader raises where the file ends early or its parts do not fit together.
DAMAGED = (OSError, SyntaxError, EOFError, ValueError, RuntimeError)

pillow_heif.register_heif_opener(thumbnails=False)
# Each thread takes address space of its own, which the limit counts.
pillow_heif.options.DECODE_THREADS = 1
AvifImagePlugin.DEFAULT_MAX_THREADS = 1
ImageFile.LOAD_TRUNCATED_IMAGES = False
Image.MAX_IMAGE_PIXELS = MOST_PIXELS_JPEG


@contextmanager
def opened(path: Path) -> Iterator[Image.Image]:
    """The picture, header read, sizes checked, pixels not decoded yet; raises PictureRefused."""
    kind = refuse_by_kind(path)
    with warnings.catch_warnings():
        warnings.simplefilter("error", Image.DecompressionBombWarning)
        with _header_read(path, kind) as picture:
            _refuse_size(picture, kind)
            yield picture


def load(picture: Image.Image) -> None:
    """Decode all pixels of the first picture; raises PictureRefused for an incomplete file."""
    try:
        picture.load()
    except DAMAGED as error:
        raise PictureRefused("incomplete", INCOMPLETE) from error


def most_pixels(kind: str) -> int:
    """How many pixels a picture of this kind may have."""
    return MOST_PIXELS_JPEG if kind == "jpeg" else MOST_PIXELS


def _header_read(path: Path, kind: str) -> Image.Image:
    try:
        return Image.open(path, formats=(READERS[kind],))
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        raise _too_many(kind) from error
    except DAMAGED as error:
        raise PictureRefused("incomplete", INCOMPLETE) from error


def _refuse_size(picture: Image.Image, kind: str) -> None:
    width, height = picture.size
    if width * height > most_pixels(kind) or max(width, height) > LONGEST_SIDE:
        raise _too_many(kind)


def _too_many(kind: str) -> PictureRefused:
    return PictureRefused(
        "pixels",
        gettext_noop(
            "This picture has too many pixels (at most %(most)s million, and %(side)s on a side). "
            "Please send a smaller copy of it."
        ),
        {"most": str(most_pixels(kind) // 1_000_000), "side": str(LONGEST_SIDE)},
    )
