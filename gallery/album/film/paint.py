"""One slide, prepared once: picture and band in planar YUV, ready to be drawn at any age."""

import hashlib
import io
from dataclasses import dataclass
from pathlib import Path

import cv2
import numpy as np
from numpy.typing import NDArray
from PIL import Image

from gallery.album.film import cards, planes
from gallery.album.film.band import Band, Words, band_of, words_of
from gallery.album.film.errors import FilmError
from gallery.album.film.framing import framed
from gallery.album.film.motion import Motion, motion_of, prepared_anchor, prepared_length
from gallery.album.film.plan import Card, FilmPlan, PhotoSlide, Slide
from gallery.album.film.planes import Plane, Planes
from gallery.album.film.saying import gettext as _

PAINTER = 1  # raise it whenever the same plan would be painted otherwise: it is part of every key
SHARPEN_SIGMA, SHARPEN_BY = 0.7, 0.65
# A JPEG unpacks at a half, a quarter or an eighth for less than the whole costs.
REDUCED = (
    (8, cv2.IMREAD_REDUCED_COLOR_8),
    (4, cv2.IMREAD_REDUCED_COLOR_4),
    (2, cv2.IMREAD_REDUCED_COLOR_2),
)

Picture = NDArray[np.uint8]


@dataclass(frozen=True)
class Quarter:
    """A quarter of one plane, mirrored so that its anchored corner is the first pixel."""

    picture: Plane
    rows: slice
    columns: slice
    flip: int | None


@dataclass(frozen=True)
class Painted:
    """A slide ready to be drawn into frames of one size."""

    motion: Motion
    still: Planes | None
    quarters: tuple[tuple[Quarter, ...], ...]
    band: Band | None

    def draw(self, into: Planes, age: int, life: int, strength: float = 1.0) -> None:
        """Draw the slide at `age` frames of its `life`; `strength` fades its letters."""
        if self.still:
            for target, plane in zip(into.all(), self.still.all(), strict=True):
                target[:] = plane
        else:
            scale = self.motion.scale(age, life) * 20 / 23
            for target, quarters in zip(into.all(), self.quarters, strict=True):
                for quarter in quarters:
                    _scaled(quarter, target[quarter.rows, quarter.columns], scale)
        if self.band:
            self.band.lay(into, strength)


def _scaled(quarter: Quarter, target: Plane, scale: float) -> None:
    high, wide = target.shape
    # The explicit factor keeps the scale exact; the region only says how much is read.
    region = quarter.picture[: round(high / scale), : round(wide / scale)]
    if quarter.flip is None:
        cv2.resize(region, None, dst=target, fx=scale, fy=scale)
        return
    mirrored = cv2.resize(region, None, fx=scale, fy=scale)
    cv2.flip(mirrored, quarter.flip, dst=target)


def painted(plan: FilmPlan, slide: Slide) -> Painted:
    """Prepare the slide for films of the plan's size; about 4 MB at 1080p.

    Refuses, as FilmError, a photo that is gone, is not the one the plan names or is no JPEG, and
    words that do not fit.
    """
    if isinstance(slide, Card):
        return _painted_card(plan, slide)
    words = words_of(plan, slide)
    if words is None:
        raise FilmError(_("A caption does not fit into its band: shorten it."))
    return _painted_photo(plan, slide, words)


def _painted_card(plan: FilmPlan, card: Card) -> Painted:
    page = cards.page_of(plan, card)
    if page is None:
        raise FilmError(_("A card holds more words than fit: shorten it or make two of it."))
    still = planes.of_rgb(cards.ground_of(plan))
    motion = motion_of(card, plan.width, plan.height, (0.5, 0.5))
    return Painted(motion, still, (), cards.words_on(plan, page))


def _painted_photo(plan: FilmPlan, slide: PhotoSlide, words: Words) -> Painted:
    width, height = prepared_length(plan.width), prepared_length(plan.height)
    photo = _loaded(slide, width, height)
    picture, focus = framed(plan, photo, slide.focus, words)
    master = planes.of_rgb(picture)
    soft = cv2.GaussianBlur(master.y, (0, 0), SHARPEN_SIGMA)
    cv2.addWeighted(master.y, 1 + SHARPEN_BY, soft, -SHARPEN_BY, 0, dst=master.y)
    np.clip(master.y, 16, 235, out=master.y)
    motion = motion_of(slide, plan.width, plan.height, focus)
    quarters = tuple(
        _quarters(plane, motion.anchor, half=index > 0) for index, plane in enumerate(master.all())
    )
    return Painted(motion, None, quarters, band_of(plan, words))


def _quarters(master: Plane, anchor: tuple[int, int], *, half: bool) -> tuple[Quarter, ...]:
    share = 2 if half else 1
    x, y = (value // share for value in anchor)
    mx, my = (prepared_anchor(value) // share for value in anchor)
    right, below, left, above = slice(x, None), slice(y, None), slice(0, x), slice(0, y)
    whole = np.ascontiguousarray
    return (
        Quarter(whole(master[my:, mx:]), below, right, None),
        Quarter(whole(master[my:, :mx][:, ::-1]), below, left, 1),
        Quarter(whole(master[:my, mx:][::-1]), above, right, 0),
        Quarter(whole(master[:my, :mx][::-1, ::-1]), above, left, -1),
    )


def _loaded(slide: PhotoSlide, width: int, height: int) -> Picture:
    """The photo as sRGB pixels, decoded no larger than needed; checked to be the right one."""
    data = read_photo(slide.photo)
    if hashlib.sha256(data).hexdigest() != slide.photo_sha256:
        raise FilmError(
            _(
                "The photo “%(caption)s” is not the one the film was made with: put it into the "
                "album anew."
            )
            % {"caption": slide.caption[:60]}
        )
    photo = _decoded(data, width, height)
    if photo is None:
        raise FilmError(
            _("The photo “%(caption)s” cannot be read: take it out or put it in anew.")
            % {"caption": slide.caption[:60]}
        )
    return photo


def _decoded(data: bytes, width: int, height: int) -> Picture | None:
    try:
        with Image.open(io.BytesIO(data), formats=["JPEG"]) as header:
            spare = min(header.width // width, header.height // height)
    except OSError:
        return None
    flags = next((flag for most, flag in REDUCED if spare >= most), cv2.IMREAD_COLOR)
    packed = np.frombuffer(data, np.uint8)
    photo = cv2.imdecode(packed, flags | cv2.IMREAD_IGNORE_ORIENTATION)
    return None if photo is None else np.asarray(cv2.cvtColor(photo, cv2.COLOR_BGR2RGB), np.uint8)


def read_photo(path: Path) -> bytes:
    """The bytes of a JPEG master; refuses, as FilmError, what is missing or something else."""
    try:
        data = path.read_bytes()
    except OSError as trouble:
        raise FilmError(_("A photo of the film is gone: take its slide out.")) from trouble
    # OpenCV would open many formats; the masters of our intake are all JPEG.
    if not data.startswith(b"\xff\xd8\xff"):
        raise FilmError(_("A photo of the film is not a JPEG picture: put it into the album anew."))
    return data
