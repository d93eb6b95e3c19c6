"""A stretch of knitting as a picture: so many stitches and rows in one yarn, rib below."""

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from gallery.demo.stitches import ROW_HEIGHT, Fabric, Plane, lit, relief
from gallery.demo.yarns import Dye

Pixels = NDArray[np.uint8]
LARGEST_STITCH, SMALLEST_STITCH = 120, 2  # pixels


@dataclass(frozen=True)
class Knit:
    """A picture of fabric and how many pixels one stitch and one row take in it."""

    pixels: Pixels
    stitch_px: int
    row_px: int

    @property
    def rows(self) -> int:
        """Rows from the bottom to the top of the picture."""
        return self.pixels.shape[0] // self.row_px


@dataclass(frozen=True)
class Order:
    """What to knit: stitches and rows in all, how many of the lowest rows are rib."""

    stitches: int
    rows: int
    rib_rows: int = 0
    fabric: Fabric = "plain"


def knit(order: Order, dye: Dye, stitch_px: float, light: tuple[float, float], seed: int) -> Knit:
    """The fabric at about that many pixels a stitch, lit from that side in its own directions."""
    wide = int(np.clip(round(stitch_px), SMALLEST_STITCH, LARGEST_STITCH))
    high = max(2, round(wide * ROW_HEIGHT))
    dice = np.random.default_rng(seed)
    parts = []
    if order.rows > order.rib_rows:
        plain = order.rows - order.rib_rows
        parts.append(_spread(order.fabric, (order.stitches, plain), (wide, high), light, dye))
    if order.rib_rows:
        parts.append(_spread("rib", (order.stitches, order.rib_rows), (wide, high), light, dye))
    pixels = np.vstack(parts)
    return Knit(_uneven(pixels, order, dye, dice), wide, high)


def _spread(
    fabric: Fabric,
    counts: tuple[int, int],
    cell: tuple[int, int],
    light: tuple[float, float],
    dye: Dye,
) -> Pixels:
    """One block of the fabric in colour, repeated to the width and height wanted."""
    stitches, rows = counts
    block = relief(fabric, *cell)
    colour = _coloured(lit(block, light), block.ply, dye)
    across, up = -(-stitches // block.stitches), -(-rows // block.rows)
    tiled = np.tile(colour, (up, across, 1))
    return np.ascontiguousarray(tiled[-rows * cell[1] :, : stitches * cell[0]])


def _coloured(shade: Plane, ply: Plane, dye: Dye) -> Pixels:
    main = np.array(dye.main, dtype=np.float32)
    second = np.array(dye.second or dye.main, dtype=np.float32) * (1.0 if dye.second else 0.93)
    # Plies blend where they meet: a marl is never striped in pure colours.
    mix = (0.5 + (0.62 if dye.second else 1.0) * (ply - 0.5))[..., None]
    yarn = main * mix + second * (1 - mix)
    deep = np.minimum(shade, 1)[..., None]
    glow = np.maximum(shade - 1, 0)[..., None]
    # Shadows keep more of the yarn's own colour than a plain darkening would; highlights whiten.
    colour = yarn * deep ** (1.15 - 0.25 * yarn / 255) + glow * (0.75 * yarn + 40)
    return np.clip(colour, 0, 255).astype(np.uint8)


def _uneven(pixels: Pixels, order: Order, dye: Dye, dice: np.random.Generator) -> Pixels:
    """Every stitch a little lighter or darker, every row a little tighter: a hand was at work."""
    rows, stitches = order.rows, order.stitches
    grain = dice.normal(0, 0.045 if dye.second else 0.022, (rows, stitches))
    grain = (np.roll(grain, 1, 1) + grain) * 0.75 + dice.normal(0, 0.012, (rows, 1))
    tone = np.repeat(grain[..., None], 3, axis=2)
    if dye.second:
        toward = (np.array(dye.second) - np.array(dye.main)) / np.array(dye.main)
        tone = tone + 1.6 * grain[..., None] * toward * -1
    gain = np.clip(128 * (1 + tone), 0, 255).astype(np.uint8)
    size = (pixels.shape[1], pixels.shape[0])
    # Close up the change from stitch to stitch must be soft; far off it is less than a pixel.
    near = pixels.shape[1] > 20 * stitches
    way = cv2.INTER_LINEAR if near else cv2.INTER_NEAREST
    spread = cv2.resize(gain, size, interpolation=way)
    return np.asarray(cv2.multiply(pixels, spread, scale=1 / 128), dtype=np.uint8)
