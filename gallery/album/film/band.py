"""The band of words over the lower part of a photo: a veil, the caption, the credit."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import cv2
import numpy as np
from numpy.typing import NDArray

from gallery.album.film.lettering import (
    REFERENCE_SIDE,
    Sheet,
    broken,
    runs_right_to_left,
)
from gallery.album.film.looks import LOOKS, Colour
from gallery.album.film.plan import FilmPlan, PhotoSlide, credit_line
from gallery.album.film.planes import Plane, Planes, yuv_of

MOST_LINES = 3
CAPTION, CREDIT = 54, 40  # type sizes; all measures in reference pixels
LINE, CREDIT_LINE = 66, 54
MARGIN, ABOVE, BELOW, FEATHER = 110, 26, 44, 48
FIRST_STRONG_ISOLATE, POP_ISOLATE = "\u2068", "\u2069"

Floats = NDArray[np.float32]


@dataclass(frozen=True)
class Words:
    """What a band says, already in lines; sizes in reference pixels."""

    lines: tuple[str, ...]
    credit: tuple[str, ...]

    @property
    def height(self) -> float:
        written = LINE * len(self.lines) + CREDIT_LINE * len(self.credit)
        return ABOVE + written + BELOW + FEATHER if written else 0


def reference_width(plan: FilmPlan) -> float:
    """The frame's width when its shorter side is 1080 pixels."""
    return plan.width * REFERENCE_SIDE / min(plan.width, plan.height)


def scale_of(plan: FilmPlan) -> float:
    """Film pixels to one reference pixel."""
    return min(plan.width, plan.height) / REFERENCE_SIDE


def words_of(plan: FilmPlan, slide: PhotoSlide) -> Words | None:
    """The slide's words in lines; None when caption or credit do not fit."""
    room = reference_width(plan) - 2 * MARGIN
    lines = broken(slide.caption, "caption", CAPTION, room, MOST_LINES)
    label, name = credit_line(plan, slide)
    shown = f"{label} {FIRST_STRONG_ISOLATE}{name}{POP_ISOLATE}" if name else label
    credit = broken(shown, "text", CREDIT, room, MOST_LINES)
    return None if lines is None or credit is None else Words(tuple(lines), tuple(credit))


@dataclass(frozen=True)
class Band:
    """The layers for the rows from `top` down; a layer is what to add and what share to keep."""

    top: int
    veil: tuple[float, float, float]
    veil_share: Floats  # one number a row of luma
    letters: tuple[Floats, ...]  # for each plane: the letters' colour times their cover
    cover: tuple[Floats, ...]
    full: tuple[tuple[Plane, Plane], ...] = ()

    def lay(self, picture: Planes, strength: float) -> None:
        """Lay the band on the picture; `strength` (0 to 1) fades the letters, never the veil."""
        layers = self.full if self.full and strength >= 1 else self.layers(strength)
        for index, (plane, (add, keep)) in enumerate(zip(picture.all(), layers, strict=True)):
            rows = plane[self.top // 2 if index else self.top :]
            cv2.multiply(rows, keep, dst=rows, scale=1 / 255)
            cv2.add(rows, add, dst=rows)

    def layers(self, strength: float) -> tuple[tuple[Plane, Plane], ...]:
        """What to add and what share (of 255) to keep of the photo, for each plane."""
        return tuple(self._layer(index, strength) for index in range(3))

    def _layer(self, index: int, strength: float) -> tuple[Plane, Plane]:
        share = self.veil_share[::2] if index else self.veil_share
        see_through = 1 - strength * self.cover[index]
        keep = 255 * see_through * (1 - share)
        add = see_through * share * self.veil[index] + strength * self.letters[index]
        return _rounded(add), _rounded(keep)


def band_of(plan: FilmPlan, words: Words) -> Band | None:
    """The band with these words for a film of this size; None where nothing is said."""
    if not words.height:
        return None
    look, scale = LOOKS[plan.look], scale_of(plan)
    height = round(words.height * scale / 2) * 2
    sheets = (
        (_caption(words, plan.width, height, scale), look.ink),
        (_credit(words, plan.width, height, scale), look.soft_ink),
    )
    share = _veil_share(height, FEATHER * scale) * np.float32(look.veil_share)
    return laid(sheets, plan.height - height, look.veil, share)


def laid(
    sheets: Sequence[tuple[Sheet, Colour]], top: int, veil: Colour, veil_share: Floats
) -> Band:
    """The sheets in their colours over a veil, ready to be laid on pictures from row `top`."""
    letters, cover = [], []
    for index in range(3):
        masks = [_at(sheet, index) for sheet, _ in sheets]
        tones = [np.float32(yuv_of(colour)[index]) for _, colour in sheets]
        letters.append(np.sum([m * t for m, t in zip(masks, tones, strict=True)], axis=0))
        cover.append(np.sum(masks, axis=0))
    bare = Band(top, yuv_of(veil), veil_share, tuple(letters), tuple(cover))
    return replace(bare, full=bare.layers(1.0))


def _caption(words: Words, width: int, height: int, scale: float) -> Sheet:
    sheet = Sheet(width, height, scale)
    leftwards = runs_right_to_left(" ".join(words.lines))
    for number, line in enumerate(words.lines):
        base = FEATHER + ABOVE + LINE * (number + 0.78)
        _write(sheet, line, ("caption", CAPTION), base, right=leftwards)
    return sheet


def _credit(words: Words, width: int, height: int, scale: float) -> Sheet:
    sheet = Sheet(width, height, scale)
    below_caption = FEATHER + ABOVE + LINE * len(words.lines)
    # The credit stands on the caption's side, so that the two are read as one.
    leftwards = runs_right_to_left(" ".join(words.lines or words.credit))
    for number, line in enumerate(words.credit):
        base = below_caption + CREDIT_LINE * (number + 0.74)
        _write(sheet, line, ("text", CREDIT), base, right=leftwards)
    return sheet


def _write(sheet: Sheet, text: str, kind: tuple[str, int], base: float, *, right: bool) -> None:
    edge = sheet.mask.width / sheet.scale - MARGIN
    place, anchor = ((edge, base), "rs") if right else ((MARGIN, base), "ls")
    sheet.write(text, *kind, place, anchor=anchor, leftwards=runs_right_to_left(text))


def _at(sheet: Sheet, plane: int) -> Floats:
    """How far the sheet's letters cover each pixel of this plane, 0 to 1."""
    mask = np.asarray(np.asarray(sheet.mask, np.float32) / 255, np.float32)
    if not plane:
        return mask
    half = (mask.shape[1] // 2, mask.shape[0] // 2)
    return np.asarray(cv2.resize(mask, half, interpolation=cv2.INTER_AREA), np.float32)


def _veil_share(height: int, feather: float) -> Floats:
    """The veil grows softly from nothing over its upper edge, then stays."""
    rise = np.clip((np.arange(height, dtype=np.float32) + 0.5) / max(1.0, feather), 0, 1)
    return (rise * rise * (3 - 2 * rise))[:, None]


def _rounded(values: Floats) -> Plane:
    return np.clip(np.rint(values), 0, 255).astype(np.uint8)
