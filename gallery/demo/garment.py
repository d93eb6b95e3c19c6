"""The outlines of a tunic's parts in centimetres, from the finished measurements alone."""

from dataclasses import dataclass
from fractions import Fraction

import numpy as np
from numpy.typing import NDArray

Points = NDArray[np.float64]  # one row a point: cm to the right, cm upwards
Cm = float | Fraction


@dataclass(frozen=True)
class GarmentShape:
    """Finished measurements in cm, laid flat, with the gauge of the plain fabric.

    half_width: seam to seam below the arms; armhole_depth: notch to shoulder tip; shoulder_drop:
    shoulder tip to neck point; front_neck_depth: neck point down to the front neck's centre;
    sleeve_length: cuff edge to the bound-off top; sleeve_top, wrist: opened flat.
    """

    half_width: Cm
    hem_to_underarm: Cm
    armhole_depth: Cm
    cross_back: Cm
    neck_width: Cm
    shoulder_drop: Cm
    front_neck_depth: Cm
    sleeve_length: Cm
    sleeve_top: Cm
    wrist: Cm
    hem_depth: Cm
    cuff_depth: Cm
    band_depth: Cm
    stitches_per_cm: Cm
    rows_per_cm: Cm

    @property
    def length(self) -> float:
        """Hem to neck point in cm."""
        return float(self.hem_to_underarm + self.armhole_depth + self.shoulder_drop)

    @property
    def body_stitches(self) -> int:
        """Visible stitches across the half width."""
        return round(float(self.half_width * self.stitches_per_cm))


def body(shape: GarmentShape, *, front: bool) -> Points:
    """The body from the hem's centre line (0, 0): hem, notches, square armholes, held shoulders."""
    half, across, neck = (
        float(m) / 2 for m in (shape.half_width, shape.cross_back, shape.neck_width)
    )
    arm = float(shape.hem_to_underarm)
    tip = arm + float(shape.armhole_depth)
    right = [(half, 0.0), (half, arm), (across, arm), (across, tip), (neck, shape.length)]
    edge = neck_edge(shape) if front else np.array([(neck, shape.length), (-neck, shape.length)])
    left = [(-x, y) for x, y in reversed(right)]
    return np.vstack([right[:-1], edge, left[1:]]).astype(np.float64)


def neck_edge(shape: GarmentShape) -> Points:
    """The front neck from the right neck point to the left one: steep at the sides, then flat."""
    half, depth = float(shape.neck_width) / 2, float(shape.front_neck_depth)
    turn = np.linspace(0, np.pi, 49)
    x = half * np.sign(np.cos(turn)) * np.abs(np.cos(turn)) ** 0.72
    y = shape.length - depth * np.sin(turn) ** 0.8
    return np.column_stack([x, y])


def band(shape: GarmentShape, *, front: bool) -> Points:
    """The neckband standing in the neck opening, from the picked-up edge inwards."""
    half, depth = float(shape.neck_width) / 2, float(shape.band_depth)
    if not front:
        low, high = shape.length - 0.8, shape.length + depth * 0.42
        curve = np.linspace(-1, 1, 25)
        top = np.column_stack([curve * (half - 0.5), high - 0.5 * (1 - curve**2)])
        return np.vstack([top, [(half - 0.3, low), (-half + 0.3, low)]])
    lower = neck_edge(shape)
    rise = depth * (0.42 + 0.58 * (1 - (lower[:, 0] / half) ** 2))
    upper = np.column_stack([lower[:, 0] * 0.975, lower[:, 1] + rise])
    sewn_on = 0.3  # cm of the band that lie over the front, so that no gap opens
    return np.vstack([lower - (0, sewn_on), upper[::-1]])


def sleeve(shape: GarmentShape) -> Points:
    """A sleeve folded along its middle: fold at x = 0, cuff edge at y = 0, seam at the right."""
    length, cuff = float(shape.sleeve_length), float(shape.cuff_depth)
    notch = float(shape.half_width - shape.cross_back) / 2
    wrist, top = float(shape.wrist) / 2, float(shape.sleeve_top) / 2
    tucked = 3.0  # cm that lie behind the body, so that no gap opens where the parts meet
    return np.array(
        [
            (0, 0),
            (wrist, 0),
            (wrist, cuff),
            (top, max(length - notch, cuff + 1)),
            (top, length + tucked),
            (0, length),
        ],
        dtype=np.float64,
    )


def softened(outline: Points, wander: float, seed: int, step: float = 0.5) -> Points:
    """The outline as cloth lies: a point every so many cm (step), wandering by so many cm."""
    walked = _walk(outline, step)
    dice = np.random.default_rng(seed)
    drift = np.zeros_like(walked)
    place = np.arange(len(walked)) / len(walked)
    for wave in range(2, 14):
        strength = dice.normal(0, 1, 2) / wave**0.6
        angle = 2 * np.pi * (wave * place + dice.uniform())
        drift += np.sin(angle)[:, None] * strength
    drift *= wander / max(float(np.abs(drift).max()), 1e-9)
    return np.asarray(walked + drift, dtype=np.float64)


def bumpy(outline: Points, wales: float, courses: float) -> Points:
    """The edge stitch by stitch: bumps of half a millimetre, one a row at the sides, one a stitch
    below; the outline needs points closer than a quarter stitch."""
    low, high = outline.min(0), outline.max(0)
    outward = np.sign(outline[:, 0] - (low[0] + high[0]) / 2)
    side = 0.05 * np.abs(np.sin(np.pi * outline[:, 1] * courses)) * outward
    near_hem = np.clip(1 - (outline[:, 1] - low[1]) / 0.5, 0, 1)
    below = 0.07 * np.abs(np.sin(np.pi * outline[:, 0] * wales)) * near_hem
    return outline + np.column_stack([side, -below])


def _walk(outline: Points, step: float) -> Points:
    ends = np.roll(outline, -1, axis=0)
    legs = []
    for start, end in zip(outline, ends, strict=True):
        count = max(1, int(np.hypot(*(end - start)) / step))
        legs.append(start + (end - start) * (np.arange(count) / count)[:, None])
    return np.vstack(legs)
