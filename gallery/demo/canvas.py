"""The picture being drawn: centimetres to pixels, ground and shadows, cloth laid upon them."""

from dataclasses import dataclass, field

import cv2
import numpy as np
from numpy.typing import NDArray

from gallery.demo.fabric import Pixels
from gallery.demo.garment import Points
from gallery.demo.stitches import Plane

LIGHT = (-0.52, -0.78)  # from the upper left, as from a window
SHEET = 1344  # longer side of the coarse sheet that carries ground, shadows and folds
COVERED = (  # shadow of a part upon another: cm right and down, cm soft, 0 to 1 dark
    ((0.05, 0.15), 0.3, 0.36),
    ((0.9, 1.4), 1.2, 0.32),
)
Box = tuple[int, int, int, int]  # left, top, right, bottom
STEP = 16  # pixels between the places where a layer's position is worked out exactly
FINE = 4  # binary places of a drawn point below one pixel


def placed(x: float, y: float, degrees: float = 0.0) -> NDArray[np.float64]:
    """From a part's own cm (upwards) to the scene's (downwards): turned, then moved."""
    turn = np.deg2rad(degrees)
    across = np.array([np.cos(turn), np.sin(turn)])
    up = np.array([np.sin(turn), -np.cos(turn)])
    return np.column_stack([across, up, (x, y)])


def moved(points: Points, place: NDArray[np.float64]) -> Points:
    """The points where the placement puts them."""
    return np.asarray(points @ place[:, :2].T + place[:, 2], dtype=np.float64)


@dataclass
class Layer:
    """Something flat with a surface: outline in its own cm, where it lies, what covers it."""

    outline: Points
    place: NDArray[np.float64]
    surface: Pixels
    to_surface: NDArray[np.float64]  # own cm to pixels of the surface
    shaded_by: list[Points] = field(default_factory=list)
    roundness: float = 1.0  # how much the edges turn away from the light
    edge_cm: float = 0.7
    folds: float = 1.0
    drift: float = 1.0
    dim: float = 1.0
    joined_to: list[Points] = field(default_factory=list)  # no rounded edge towards these

    @property
    def has_light(self) -> bool:
        """Whether anything makes one place of it brighter than another."""
        return bool(self.roundness or self.folds or self.shaded_by or self.dim != 1)

    @property
    def lying(self) -> Points:
        """The outline in the scene's cm."""
        return moved(self.outline, self.place)


class Canvas:
    """A scene of so many cm along its longer side; its middle is (0, 0), x right, y down."""

    def __init__(self, size: tuple[int, int], long_cm: float, tilt: float, seed: int) -> None:
        self.width, self.height = size
        self.px_per_cm = max(size) / long_cm
        self.seed = seed
        self.dice = np.random.default_rng(seed)
        turn = np.deg2rad(tilt)
        cos, sin = np.cos(turn) * self.px_per_cm, np.sin(turn) * self.px_per_cm
        self.view = np.array([[cos, -sin, self.width / 2], [sin, cos, self.height / 2]])
        self.sheet_scale = min(1.0, SHEET / max(size))
        self.sheet_size = (
            round(self.width * self.sheet_scale),
            round(self.height * self.sheet_scale),
        )
        wide, high = self.sheet_size
        self.ground: Plane = np.full((high, wide, 3), 200, dtype=np.float32)
        self.cloth: Plane = np.zeros((high, wide), dtype=np.float32)
        self._sloped: tuple[Plane, Plane, Plane] | None = None
        self.image: Pixels = np.zeros((self.height, self.width, 3), dtype=np.uint8)

    # ---- places -----------------------------------------------------------------------------

    def pixels(self, points: Points) -> Points:
        """The scene's cm as pixels of the picture."""
        return moved(points, self.view)

    def sheet_cm(self) -> tuple[Plane, Plane]:
        """Each cell of the sheet in the scene's cm."""
        wide, high = self.sheet_size
        x, y = np.meshgrid(np.arange(wide) + 0.5, np.arange(high) + 0.5)
        back = cv2.invertAffineTransform(self.view * self.sheet_scale)
        across = back[0, 0] * x + back[0, 1] * y + back[0, 2]
        down = back[1, 0] * x + back[1, 1] * y + back[1, 2]
        return across.astype(np.float32), down.astype(np.float32)

    def sheet_mask(self, points: Points, window: Box | None = None) -> Plane:
        """1 inside the outline (the scene's cm), 0 outside, on the sheet or a window of it."""
        left, top, right, bottom = window or (0, 0, *self.sheet_size)
        mask = np.zeros((bottom - top, right - left), dtype=np.uint8)
        _fill(mask, self.pixels(points) * self.sheet_scale - (left, top))
        return mask.astype(np.float32) / 255

    def sheet_blur(self, plane: Plane, soft_cm: float) -> Plane:
        """Blurred by so many cm; wide blurs are worked out on a coarser grid."""
        sigma = max(soft_cm * self.px_per_cm * self.sheet_scale, 0.3)
        shrink = max(1, int(sigma / 3))
        high, wide = plane.shape
        size = (max(2, wide // shrink), max(2, high // shrink))
        small = cv2.resize(plane, size, interpolation=cv2.INTER_AREA)
        soft = cv2.GaussianBlur(small, (0, 0), sigma / shrink)
        return np.asarray(cv2.resize(soft, (wide, high)), dtype=np.float32)

    # ---- ground -----------------------------------------------------------------------------

    def cast(self, outline: Points, drop: tuple[float, float], soft: float, dark: float) -> None:
        """A shadow on the ground, before it is exposed: shifted by cm, soft by cm, 0 to 1 dark."""
        mask = self.sheet_blur(self.sheet_mask(outline + np.array(drop)), soft)
        # Shadows are a little cooler than the light.
        tint = np.array([1.06, 1.0, 0.92], dtype=np.float32) * dark
        self.ground *= 1 - mask[..., None] * tint

    def expose(self) -> None:
        """The ground becomes the picture; what follows lies upon it."""
        coarse = np.clip(self.ground, 0, 255).astype(np.uint8)
        size = (self.width, self.height)
        self.image = np.asarray(
            cv2.resize(coarse, size, interpolation=cv2.INTER_CUBIC), dtype=np.uint8
        )

    # ---- layers -----------------------------------------------------------------------------

    def lay(self, layer: Layer) -> None:
        """The layer's surface within its outline, lit, shaded and blended at the edge."""
        outline = self.pixels(layer.lying)
        left, top, right, bottom = self._box(outline)
        if right - left < 2 or bottom - top < 2:
            return
        across, down = self._positions(layer, (left, top, right, bottom))
        drawn = cv2.remap(
            layer.surface, across, down, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REFLECT_101
        )
        if layer.has_light:
            light = self._light(layer, (left, top, right, bottom))
            drawn = cv2.multiply(drawn, cv2.merge([light] * 3), scale=1 / 128)
        mask = np.zeros(drawn.shape[:2], dtype=np.uint8)
        _fill(mask, outline - (left, top))
        inside = mask.astype(np.float32) / 255
        under = self.image[top:bottom, left:right]
        self.image[top:bottom, left:right] = cv2.blendLinear(drawn, under, inside, 1 - inside)

    def _box(self, outline: Points) -> Box:
        low, high = np.floor(outline.min(0)) - 2, np.ceil(outline.max(0)) + 2
        left, top = (int(max(0, v)) for v in low)
        right, bottom = int(min(self.width, high[0])), int(min(self.height, high[1]))
        return left, top, right, bottom

    def _positions(self, layer: Layer, box: Box) -> tuple[Plane, Plane]:
        """For every pixel of the box the place on the surface it shows."""
        left, top, right, bottom = box
        wide, high = (right - left) // STEP + 3, (bottom - top) // STEP + 3
        x, y = np.meshgrid(
            left + (np.arange(wide) - 0.5) * STEP, top + (np.arange(high) - 0.5) * STEP
        )
        push = self._drift(x, y) * layer.drift
        chain = _chained(layer.to_surface, _inverse(layer.place), _inverse(self.view))
        shifted_x, shifted_y = x + push[0], y + push[1]
        coarse = [
            (row[0] * shifted_x + row[1] * shifted_y + row[2] - 0.5).astype(np.float32)
            for row in chain
        ]
        size = (wide * STEP, high * STEP)
        full = [cv2.resize(plane, size, interpolation=cv2.INTER_LINEAR) for plane in coarse]
        # The coarse grid's first cell is centred half a step before the box.
        cut = np.s_[STEP : STEP + bottom - top, STEP : STEP + right - left]
        across, down = (np.asarray(plane[cut], dtype=np.float32) for plane in full)
        return across, down

    def _drift(self, x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.float64]:
        """How far, in pixels, the folds push the fabric aside at these pixels."""
        slope_x, slope_y = self._slopes()
        at_x = (x * self.sheet_scale).astype(np.float32)
        at_y = (y * self.sheet_scale).astype(np.float32)
        found = [
            cv2.remap(s, at_x, at_y, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
            for s in (slope_x, slope_y)
        ]
        return np.array(found, dtype=np.float64) * self.px_per_cm * 0.45

    def _slopes(self) -> tuple[Plane, Plane]:
        """Slope of the cloth's folds per cm, right and down; worked out once for each cloth."""
        if self._sloped is None or self._sloped[0] is not self.cloth:
            per_cm = self.px_per_cm * self.sheet_scale
            down, right = np.gradient(self.cloth)
            self._sloped = (self.cloth, right * np.float32(per_cm), down * np.float32(per_cm))
        return self._sloped[1:]

    def _light(self, layer: Layer, box: Box) -> Pixels:
        """Brightness over the box, 128 for plain daylight: folds, rounded edges, shadows."""
        window = self._window(box, 3 * layer.edge_cm)
        cut = np.s_[window[1] : window[3], window[0] : window[2]]
        slope_x, slope_y = (slope[cut] for slope in self._slopes())
        facing = -(slope_x * LIGHT[0] + slope_y * LIGHT[1])
        light = 1 + np.clip(facing * 1.3 * layer.folds, -0.30, 0.24)
        light *= self._rounded(layer, window) * layer.dim
        for cover in layer.shaded_by:
            for drop, soft, dark in COVERED:
                mask = self.sheet_mask(cover + np.array(drop), window)
                light *= 1 - dark * self.sheet_blur(mask, soft)
        return self._enlarged(np.clip(light * 128, 0, 255).astype(np.uint8), window, box)

    def _window(self, box: Box, margin_cm: float) -> Box:
        """The part of the sheet under a box of the picture, with a margin for blurs."""
        scale, margin = self.sheet_scale, margin_cm * self.px_per_cm * self.sheet_scale + 2
        wide, high = self.sheet_size
        left, top = (int(max(0, side * scale - margin)) for side in box[:2])
        right, bottom = (int(side * scale + margin) for side in box[2:])
        return left, top, min(wide, right), min(high, bottom)

    def _enlarged(self, plane: Pixels, window: Box, box: Box) -> Pixels:
        """A window of the sheet at the picture's own size, cut to the box."""
        scale, (left, top, right, bottom) = self.sheet_scale, box
        to_sheet = np.array(
            [
                [scale, 0, (left + 0.5) * scale - 0.5 - window[0]],
                [0, scale, (top + 0.5) * scale - 0.5 - window[1]],
            ]
        )
        full = cv2.warpAffine(
            plane,
            to_sheet,
            (right - left, bottom - top),
            flags=cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP,
            borderMode=cv2.BORDER_REPLICATE,
        )
        return np.asarray(full, dtype=np.uint8)

    def _rounded(self, layer: Layer, window: Box) -> Plane:
        """Edges of cloth are round: they darken, more on the side away from the light."""
        mask = self.sheet_mask(layer.lying, window)
        for other in layer.joined_to:
            mask = np.maximum(mask, self.sheet_mask(other, window))
        soft = self.sheet_blur(mask, layer.edge_cm)
        per_cm = self.px_per_cm * self.sheet_scale * layer.edge_cm
        slope_y, slope_x = np.gradient(soft)
        facing = -(slope_x * LIGHT[0] + slope_y * LIGHT[1]) * per_cm
        shade = 0.80 + 0.20 * np.clip(soft * 2 - 1, 0, 1) + 0.30 * facing
        return np.asarray(1 + (shade - 1) * layer.roundness, dtype=np.float32)


def _fill(mask: Pixels, outline: Points) -> None:
    points = np.round((outline - 0.5) * (1 << FINE)).astype(np.int32)
    cv2.fillPoly(mask, [points], 255, lineType=cv2.LINE_AA, shift=FINE)


def _inverse(place: NDArray[np.float64]) -> NDArray[np.float64]:
    return np.asarray(cv2.invertAffineTransform(place), dtype=np.float64)


def _chained(*maps: NDArray[np.float64]) -> NDArray[np.float64]:
    """Affine maps one after the other, the last one first."""
    whole = np.eye(3)
    for single in maps:
        whole = whole @ np.vstack([single, (0, 0, 1)])
    return whole[:2]
