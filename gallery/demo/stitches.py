"""How a knitted stitch looks: small reliefs of plain knitting and K2P1 rib, ready to be lit."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Literal

import cv2
import numpy as np
from numpy.typing import NDArray

Plane = NDArray[np.floating[Any]]
Fabric = Literal["plain", "rib", "purl"]

ROW_HEIGHT = 0.75  # of a stitch's width: 2.1 stitches and 2.8 rows to the centimetre
NEAR, FAR = 72, 26  # pixels a stitch is wide in the two masters
CELLS_NEAR, CELLS_FAR = 18, 36  # both a multiple of 3, the rib's repeat
LEG_RADIUS = 0.225  # of a stitch's width


@dataclass(frozen=True)
class Relief:
    """A block of stitches: its slopes right and down, openness to light, where the plies lie."""

    stitches: int
    rows: int
    slope_x: Plane
    slope_y: Plane
    open: Plane
    ply: Plane


def relief(fabric: Fabric, stitch_px: int, row_px: int) -> Relief:
    """The fabric's relief with each stitch exactly so many pixels wide and high."""
    near = stitch_px > FAR
    master = _master(fabric, NEAR if near else FAR, CELLS_NEAR if near else CELLS_FAR)
    size = (master.stitches * stitch_px, master.rows * row_px)
    way = cv2.INTER_AREA if stitch_px <= (NEAR if near else FAR) else cv2.INTER_CUBIC
    planes = [
        np.asarray(cv2.resize(plane, size, interpolation=way), dtype=np.float32)
        for plane in (master.slope_x, master.slope_y, master.open, master.ply)
    ]
    return Relief(master.stitches, master.rows, *planes)


@lru_cache(maxsize=6)
def _master(fabric: Fabric, stitch_px: int, cells: int) -> Relief:
    row_px = round(stitch_px * ROW_HEIGHT)
    dice = np.random.default_rng([stitch_px, len(fabric)])
    x, y = _grid(cells, stitch_px, row_px)
    height, ply = _legs(x, y, cells, dice)
    if fabric != "plain":
        bumps, bump_ply = _bumps(x, y, cells, dice)
        purl = np.ones_like(x, dtype=bool) if fabric == "purl" else np.floor(x) % 3 == 2
        height = np.where(purl, bumps, height)
        ply = np.where(purl, bump_ply, ply)
    if fabric == "rib":
        height = height + _ribs(x)
    height += 0.010 * _fuzz(height.shape, stitch_px, dice)
    height = _soft(height, stitch_px * 0.018)
    slope_x = (np.roll(height, -1, 1) - np.roll(height, 1, 1)) * (stitch_px / 2)
    slope_y = (np.roll(height, -1, 0) - np.roll(height, 1, 0)) * (stitch_px / 2)
    planes = (slope_x, slope_y, _openness(height, stitch_px), ply)
    return Relief(cells, cells, *(plane.astype(np.float32) for plane in planes))


def _grid(cells: int, stitch_px: int, row_px: int) -> tuple[Plane, Plane]:
    """Every pixel's place in stitches from the left and rows from the bottom."""
    across = (np.arange(cells * stitch_px, dtype=np.float32) + 0.5) / stitch_px
    up = cells - (np.arange(cells * row_px, dtype=np.float32) + 0.5) / row_px
    x, y = np.meshgrid(across, up)
    return x, y


def _legs(x: Plane, y: Plane, cells: int, dice: np.random.Generator) -> tuple[Plane, Plane]:
    """The V of plain knitting: two full, slanting legs a stitch, each tucked under the next row."""
    lean = dice.normal(0, 0.022, (3, cells, cells)).astype(np.float32)
    turn = dice.uniform(0, 1, (cells, cells)).astype(np.float32)
    column = np.floor(x).astype(np.int32) % cells
    sideways = x - np.floor(x) - 0.5
    height = np.full(x.shape, -0.12, dtype=np.float32)
    ply = np.full(x.shape, 0.5, dtype=np.float32)
    for below in (-1, 0, 1):
        row = np.floor(y).astype(np.int32) + below
        upward = y - row
        wobble = lean[:, row % cells, column]
        along = (upward + 0.42) / 1.50
        inside = np.clip(along, 0, 1)
        bulge = np.sin(np.pi * inside)
        radius = LEG_RADIUS * (0.20 + 0.80 * bulge**0.6) + wobble[0] * 0.4
        for side in (-1, 1):
            axis = side * (0.075 + 0.30 * inside**1.1) + wobble[1]
            off = (sideways - axis) * 0.90  # a leg leans about 25° from upright
            round_ = 1 - (off / radius) ** 2
            shown = (round_ > 0) & (along > 0) & (along < 1)
            top = radius * np.sqrt(np.maximum(round_, 0)) + 0.12 * bulge + wobble[2]
            better = shown & (top > height)
            height = np.where(better, top, height)
            strand = _twist(along, off / radius, turn[row % cells, column], side)
            ply = np.where(better, strand, ply)
    return height + 0.020 * (ply - 0.5), ply


def _twist(along: Plane, off: Plane, turn: Plane, side: int) -> Plane:
    """Two plies wound about one another, as dark and light turns of the yarn."""
    wave = np.sin(2 * np.pi * (2.6 * along + side * 0.42 * off + turn))
    return np.asarray(0.5 + 0.5 * wave, dtype=np.float32)


def _bumps(x: Plane, y: Plane, cells: int, dice: np.random.Generator) -> tuple[Plane, Plane]:
    """The purl side: flat arcs lying across the column, one above the other."""
    tilt = dice.normal(0, 0.03, (cells, cells)).astype(np.float32)
    column = np.floor(x).astype(np.int32) % cells
    row = np.floor(y).astype(np.int32) % cells
    sideways = (x - np.floor(x) - 0.5) * 2
    upward = y - np.floor(y) - 0.58 + 0.30 * sideways**2 + tilt[row, column]
    round_ = np.maximum(1 - (upward / 0.40) ** 2, 0) * (1 - 0.55 * sideways**4)
    ply = np.asarray(0.5 + 0.5 * np.sin(2 * np.pi * (1.1 * sideways + upward)), dtype=np.float32)
    return np.asarray(0.20 * np.sqrt(round_) - 0.08, dtype=np.float32), ply


def _ribs(x: Plane) -> Plane:
    """Knit pairs stand forward, the purl column between them sinks back."""
    place = np.mod(x, 3)
    return np.asarray(0.22 * np.cos(2 * np.pi * (place - 1) / 3), dtype=np.float32)


def _fuzz(shape: tuple[int, ...], stitch_px: int, dice: np.random.Generator) -> Plane:
    noise = dice.normal(0, 1, shape).astype(np.float32)
    soft = cv2.GaussianBlur(
        noise, (0, 0), max(stitch_px / 40, 0.6), sigmaY=max(stitch_px / 24, 0.8)
    )
    return np.asarray(soft / max(float(soft.std()), 1e-6), dtype=np.float32)


def _soft(plane: Plane, sigma: float) -> Plane:
    """Blurred so that the block still joins itself at its edges."""
    rim = int(sigma * 4) + 1
    wide = np.pad(plane, rim, mode="wrap").astype(np.float32)
    return np.asarray(cv2.GaussianBlur(wide, (0, 0), sigma)[rim:-rim, rim:-rim], dtype=np.float32)


def _openness(height: Plane, stitch_px: int) -> Plane:
    """How much of the sky a point sees: less in the gaps between the legs."""
    around = _soft(height, stitch_px * 0.16)
    return np.asarray(np.clip(0.82 + 1.9 * (height - around), 0.25, 1.14), dtype=np.float32)


def lit(block: Relief, light: tuple[float, float], gain: float = 1.0) -> Plane:
    """Brightness of each pixel, about 1 on average, under light from that side (right, down)."""
    # Half the sideways light, as both legs of the V must show.
    slant = -(0.5 * block.slope_x * light[0] + block.slope_y * light[1])
    facing = np.clip(slant * 0.34 * gain, -0.42, 0.42)
    shade = block.open * (0.96 + facing)
    return np.asarray(shade / float(shade.mean()), dtype=np.float32)
