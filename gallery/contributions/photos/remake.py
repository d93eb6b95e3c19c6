"""Looks into a picture, and makes it anew from its pixels in the sizes that may be shown."""

from collections.abc import Mapping
from pathlib import Path

from PIL import Image

from gallery.contributions.photos.answers import Inspected, Remade
from gallery.contributions.photos.colour import SRGB_BYTES, in_srgb, plain_samples
from gallery.contributions.photos.errors import gettext_noop
from gallery.contributions.photos.framed import framed
from gallery.contributions.photos.framing import Framing
from gallery.contributions.photos.limits import DRAFT_MARGIN, LONGEST_BEFORE_CUT
from gallery.contributions.photos.measure import WORKING_SIDE, measured
from gallery.contributions.photos.opening import load, opened
from gallery.contributions.photos.sniff import refuse_by_kind
from gallery.contributions.photos.upright import fitted, fresh, orientation_of, turned

FILM = "film"
WHOLE_PICTURE = Framing()
ENDINGS = {"JPEG": "jpg", "WEBP": "webp"}
WEBP_EFFORT = 4  # of 0 to 6, what encoders take where nobody says otherwise
FILM_QUALITY, PAGE_QUALITY = 92, 84  # the film scales its pictures again, so it gets finer ones


def receive(
    path: Path,
    out_dir: Path,
    sizes: Mapping[str, int],
    framing: Framing = WHOLE_PICTURE,
    into: str = "JPEG",
) -> tuple[Inspected, list[Remade]]:
    """Decode once, wholly; tell what it is and write the sizes (longer side in pixels), turned and
    cut as its sender wished, as JPEG or WEBP.

    Raises PictureRefused for what is no picture, too large, or incomplete.
    """
    kind = refuse_by_kind(path)
    longest = _longest(sizes, framing)
    with opened(path) as picture:
        width, height = picture.size
        notes = _notes(picture)
        _draft(picture, longest * DRAFT_MARGIN)
        load(picture)
        orientation = orientation_of(picture)
        # Scaled before its colours are worked out: far fewer pixels to convert and to hold.
        pixels = fitted(plain_samples(picture), longest)
    pixels, colour_notes = in_srgb(pixels)
    if orientation >= 5:
        width, height = height, width
    pixels = framed(turned(pixels, orientation), framing)
    made = _written(pixels, out_dir, sizes, into)
    return Inspected(kind, width, height, notes + colour_notes, *measured(pixels)), made


def _longest(sizes: Mapping[str, int], framing: Framing) -> int:
    """The longer side to decode to, so that enough pixels are left after the cut."""
    wanted = max(*sizes.values(), WORKING_SIDE)
    return min(round(wanted / framing.least_share), max(wanted, LONGEST_BEFORE_CUT))


def _notes(picture: Image.Image) -> tuple[str, ...]:
    if getattr(picture, "n_frames", 1) > 1:
        return (gettext_noop("The file holds several pictures; only the first one is used."),)
    return ()


def _draft(picture: Image.Image, longer_side: int) -> None:
    """Let a JPEG be decoded at a half, a quarter or an eighth where enough pixels remain."""
    if picture.format not in ("JPEG", "MPO"):
        return
    width, height = picture.size
    scale = longer_side / max(width, height)
    picture.draft(None, (max(1, round(width * scale)), max(1, round(height * scale))))


def _written(
    picture: Image.Image, out_dir: Path, sizes: Mapping[str, int], kind: str
) -> list[Remade]:
    """Each size from the next larger one: scaling down twice costs less than from the whole."""
    made = []
    for name, longer_side in sorted(sizes.items(), key=lambda item: -item[1]):
        picture = fitted(picture, longer_side)
        path = out_dir / f"{name}.{ENDINGS[kind]}"
        quality = FILM_QUALITY if name == FILM else PAGE_QUALITY
        how = {"method": WEBP_EFFORT} if kind == "WEBP" else {"progressive": name != FILM}
        fresh(picture).save(path, kind, quality=quality, icc_profile=SRGB_BYTES, **how)
        made.append(Remade(name, path, *picture.size))
    return made
