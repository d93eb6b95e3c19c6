"""Where a photo stands in the frame: filling it, or whole before a blurred, toned-down copy."""

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from gallery.album.film.band import FEATHER, Words, scale_of
from gallery.album.film.looks import LOOKS, Look
from gallery.album.film.motion import prepared_length
from gallery.album.film.plan import FilmPlan

# A photo whose shape is near the frame's fills it; a taller or much wider one stands whole, so
# that no hem, cuff or neckline is cut away or lies under the caption.
FILLS_FROM, FILLS_TO = 0.82, 1.30  # its aspect as a share of the frame's
TOP_MARGIN, BAND_OVERLAP, BARE_MARGIN = 46, 12, 54  # reference pixels
BLURRED_AT, BLUR_SHARE, SHADOW_DEPTH = 8, 1 / 26, 0.55
GRAIN = 2  # levels; a blurred ground without it shows steps between its tones

Picture = NDArray[np.uint8]
Share = tuple[float, float]


@dataclass(frozen=True)
class Box:
    """A rectangle in whole pixels."""

    left: int
    top: int
    width: int
    height: int

    def cut(self, picture: Picture) -> Picture:
        """The part of the picture inside the box, shared, not copied."""
        return picture[self.top : self.top + self.height, self.left : self.left + self.width]


def framed(plan: FilmPlan, photo: Picture, focus: Share, words: Words) -> tuple[Picture, Share]:
    """The prepared sRGB picture, and where the focus lies in it (shares of its sides)."""
    high, wide = photo.shape[:2]
    shape = (wide / high) / (plan.width / plan.height)
    size = (prepared_length(plan.width), prepared_length(plan.height))
    if FILLS_FROM <= shape <= FILLS_TO:
        box = _filling(photo, size, focus, 1 - _band_share(plan, words))
        inside = (
            (focus[0] * wide - box.left) / box.width,
            (focus[1] * high - box.top) / box.height,
        )
        return _resized(box.cut(photo), size), inside
    box = _standing(plan, photo, size, words)
    picture = _backdrop(photo, size, box, LOOKS[plan.look])
    box.cut(picture)[:] = _resized(photo, (box.width, box.height))
    return picture, (
        (box.left + focus[0] * box.width) / size[0],
        (box.top + focus[1] * box.height) / size[1],
    )


def _band_share(plan: FilmPlan, words: Words) -> float:
    """The share of the frame's height the words lie on."""
    return max(0.0, words.height - FEATHER) * scale_of(plan) / plan.height


def _filling(photo: Picture, size: tuple[int, int], focus: Share, free: float) -> Box:
    """The part of the photo that fills the frame, its focus amid the part without words."""
    high, wide = photo.shape[:2]
    scale = max(size[0] / wide, size[1] / high)
    width, height = min(wide, round(size[0] / scale)), min(high, round(size[1] / scale))
    left = _within(focus[0] * wide - width / 2, wide - width)
    top = _within(focus[1] * high - height * free / 2, high - height)
    return Box(left, top, width, height)


def _standing(plan: FilmPlan, photo: Picture, size: tuple[int, int], words: Words) -> Box:
    """Where the whole photo stands in the prepared picture, clear of the words."""
    unit = scale_of(plan) * size[1] / plan.height
    top = TOP_MARGIN * unit
    below = (words.height - BAND_OVERLAP if words.height else BARE_MARGIN) * unit
    room = (size[0] - 2 * BARE_MARGIN * unit, size[1] - top - below)
    high, wide = photo.shape[:2]
    scale = min(room[0] / wide, room[1] / high)
    width, height = max(2, round(wide * scale)), max(2, round(high * scale))
    return Box(round((size[0] - width) / 2), round(top + (room[1] - height) / 2), width, height)


def _backdrop(photo: Picture, size: tuple[int, int], box: Box, look: Look) -> Picture:
    """A blurred copy toned towards the look's veil, with a soft shadow where the photo stands."""
    small = (size[0] // BLURRED_AT, size[1] // BLURRED_AT)
    sharp = _resized(_filling(photo, small, (0.5, 0.5), 1.0).cut(photo), small)
    ground = cv2.GaussianBlur(sharp.astype(np.float32), (0, 0), small[0] * BLUR_SHARE)
    share = look.backdrop_share
    toned = ground * np.float32(share) + np.array(look.veil, np.float32) * np.float32(1 - share)
    toned *= _shadow(small, box)[..., None]
    whole = cv2.resize(toned, size, interpolation=cv2.INTER_CUBIC)
    return _grained(np.asarray(whole, np.float32))


def _shadow(small: tuple[int, int], box: Box) -> NDArray[np.float32]:
    """How much light is left: a soft shadow around and below the photo."""
    left, top, wide, high = (
        round(v / BLURRED_AT) for v in (box.left, box.top, box.width, box.height)
    )
    mask = np.zeros(small[::-1], np.float32)
    lower = top + max(1, small[1] // 90)
    mask[lower : lower + high, left : left + wide] = 1
    soft = cv2.GaussianBlur(mask, (0, 0), max(0.8, small[1] / 45))
    return np.asarray(1 - SHADOW_DEPTH * soft, np.float32)


def _grained(picture: NDArray[np.float32]) -> Picture:
    high, wide = picture.shape[:2]
    grain = np.random.default_rng(0).uniform(-GRAIN / 2, GRAIN / 2, (256, 256)).astype(np.float32)
    tiled = np.tile(grain, (-(-high // 256), -(-wide // 256)))[:high, :wide]
    picture += tiled[..., None]
    np.maximum(picture, 0, out=picture)
    return np.asarray(cv2.convertScaleAbs(picture), np.uint8)  # rounds and stops at 255


def _resized(picture: Picture, size: tuple[int, int]) -> Picture:
    shrinks = size[0] < picture.shape[1]
    way = cv2.INTER_AREA if shrinks else cv2.INTER_CUBIC
    return np.asarray(cv2.resize(picture, size, interpolation=way), np.uint8)


def _within(start: float, room: int) -> int:
    return max(0, min(round(start), room))
