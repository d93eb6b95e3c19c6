"""What the garment lies on or hangs before: table boards, linen, a plastered wall, window light."""

import cv2
import numpy as np
from numpy.typing import NDArray

from gallery.demo.canvas import Canvas
from gallery.demo.stitches import Plane
from gallery.demo.yarns import Colour

BOARDS: tuple[Colour, ...] = ((176, 132, 88), (196, 164, 124), (124, 88, 62), (160, 138, 114))
LINENS: tuple[Colour, ...] = ((226, 218, 202), (206, 196, 178), (188, 196, 190))
WALLS: tuple[Colour, ...] = (
    (226, 214, 194),
    (196, 202, 184),
    (214, 190, 168),
    (186, 196, 200),
    (206, 178, 156),
)


def noise(
    canvas: Canvas, cells: tuple[int, int], dice: np.random.Generator, octaves: int = 3
) -> Plane:
    """Smooth noise of mean 0 and spread 1 over the sheet; cells are its coarsest (across, down)."""
    total = np.zeros(canvas.sheet_size[::-1], dtype=np.float32)
    for octave in range(octaves):
        size = (max(2, cells[1] << octave), max(2, cells[0] << octave))
        coarse = dice.normal(0, 0.6**octave, size).astype(np.float32)
        total += cv2.resize(coarse, canvas.sheet_size, interpolation=cv2.INTER_CUBIC)
    return np.asarray(total / max(float(total.std()), 1e-6), dtype=np.float32)


def boards(canvas: Canvas, dice: np.random.Generator, *, upright: bool) -> None:
    """A table or floor of wooden boards: grain, knots' sweep, narrow gaps."""
    x, y = canvas.sheet_cm()
    along, across = (y, x) if upright else (x, y)
    tone = np.array(BOARDS[dice.integers(len(BOARDS))], dtype=np.float32)
    width = dice.uniform(11, 17)
    long_cm = max(canvas.width, canvas.height) / canvas.px_per_cm
    sweep = noise(canvas, (3, 3), dice, 2) * min(0.8, long_cm / 90)
    place = (across + dice.uniform(0, width)) / width
    board = np.floor(place).astype(np.int32)
    own = dice.normal(0, 1, 64).astype(np.float32)[board % 64]
    grain = _grain(along + own * 40, across + sweep + own * 7, dice)
    light = 1 + 0.05 * own + 0.062 * grain
    inside = place - board
    gap = np.minimum(inside, 1 - inside) * width
    light *= 1 - 0.60 * np.exp(-((gap / 0.11) ** 2)) - 0.10 * np.exp(-gap / 0.5)
    warm = np.array([0.03, 0.0, -0.05], dtype=np.float32) * own[..., None]
    canvas.ground = tone * light[..., None] * (1 + warm)


def _grain(along: Plane, across: Plane, dice: np.random.Generator) -> Plane:
    """Long streaks: a strip of noise, fine across the board and stretched along it."""
    raw = dice.normal(0, 1, (2048, 24)).astype(np.float32)
    streaks = cv2.GaussianBlur(raw, (0, 0), 0.1, sigmaY=0.9)
    broad = cv2.GaussianBlur(streaks, (0, 0), 1.0, sigmaY=7) * 5
    whole = (streaks / streaks.std() + 1.5 * broad / broad.std()) / 2
    at_x, at_y = _to_and_fro(along / 9.0, 23), _to_and_fro(across * 14, 2047)
    return np.asarray(
        cv2.remap(whole.astype(np.float32), at_x, at_y, cv2.INTER_LINEAR), dtype=np.float32
    )


def _to_and_fro(place: Plane, reach: int) -> Plane:
    """From 0 to reach and back again, so that a strip goes on without a visible joint."""
    return np.asarray(np.abs(np.mod(place, 2 * reach) - reach), dtype=np.float32)


def linen(canvas: Canvas, dice: np.random.Generator) -> None:
    """A linen cloth: fine crossing threads, soft creases."""
    x, y = canvas.sheet_cm()
    tone = np.array(LINENS[dice.integers(len(LINENS))], dtype=np.float32)
    slubs = dice.normal(0, 1, (2, 4096)).astype(np.float32)
    # Whole numbers first: a remainder of floats can be rounded up to the divisor itself.
    across = slubs[0][np.floor(x * 9).astype(np.int32) % 4096]
    down = slubs[1][np.floor(y * 9).astype(np.int32) % 4096]
    crease = np.gradient(noise(canvas, (4, 3), dice, 3))
    relief = (crease[0] + crease[1]) * canvas.sheet_size[0] / 110
    light = 1 + 0.018 * (across + down) + 0.035 * relief
    canvas.ground = tone * light[..., None].astype(np.float32)


def wall(canvas: Canvas, dice: np.random.Generator, floor_cm: float | None = None) -> None:
    """A plastered wall, darker towards one side; below floor_cm a skirting board and boards."""
    _, y = canvas.sheet_cm()
    tone = np.array(WALLS[dice.integers(len(WALLS))], dtype=np.float32)
    plaster = 0.012 * noise(canvas, (26, 20), dice, 4) + 0.02 * noise(canvas, (3, 2), dice, 2)
    canvas.ground = tone * (1 + plaster)[..., None]
    if floor_cm is not None:
        _floor(canvas, y, floor_cm, dice)


def _floor(canvas: Canvas, y: Plane, floor_cm: float, dice: np.random.Generator) -> None:
    plain = canvas.ground
    boards(canvas, dice, upright=False)
    below = np.clip((y - floor_cm) * 6, 0, 1)[..., None]
    dusk = 1 - 0.35 * np.exp(-np.maximum(y - floor_cm, 0) / 5)[..., None]
    floor = canvas.ground * dusk
    skirt = np.clip((y - floor_cm + 9) * 6, 0, 1)[..., None]
    lip = np.exp(-(((y - floor_cm + 9) / 0.35) ** 2))[..., None]
    white = np.array([232, 226, 214], dtype=np.float32) * (0.93 - 0.25 * lip)
    canvas.ground = (plain * (1 - skirt) + white * skirt) * (1 - below) + floor * below


def window_light(canvas: Canvas, dice: np.random.Generator, strength: float) -> None:
    """Slanting panes of sun with soft bars between them, warm where they fall; 0 to 0.5 strong."""
    x, y = canvas.sheet_cm()
    long_cm = max(canvas.width, canvas.height) / canvas.px_per_cm
    lean, fall = dice.uniform(0.25, 0.6), dice.uniform(0.18, 0.42)
    slant = x * 0.94 + y * lean + dice.uniform(-0.22, 0.22) * long_cm
    rise = y - fall * x + dice.uniform(-0.18, 0.18) * long_cm
    pane = long_cm * dice.uniform(0.16, 0.28)
    lit = _panes(slant / pane, 1.1) * _panes(rise / (pane * 1.35), 1.35)
    soft = canvas.sheet_blur(lit, long_cm * 0.010)
    sun = np.array([1.0, 0.88, 0.66], dtype=np.float32) * strength
    canvas.ground = canvas.ground * (1 - 0.35 * strength + soft[..., None] * sun)


def _panes(place: Plane, reach: float) -> Plane:
    bar = np.abs(np.mod(place + 0.5, 1) - 0.5) < 0.045
    return np.asarray((np.abs(place) < reach) & ~bar, dtype=np.float32)


def fall_off(canvas: Canvas, strength: float) -> None:
    """Daylight comes from the upper left and fades towards the lower right."""
    wide, high = canvas.sheet_size
    x, y = np.meshgrid(np.linspace(0, 1, wide), np.linspace(0, 1, high))
    light = 1 + strength * (0.5 - (0.55 * x + 0.45 * y))
    canvas.ground = canvas.ground * light[..., None].astype(np.float32)


def folds(canvas: Canvas, dice: np.random.Generator, kind: str) -> None:
    """How the cloth lies: gently uneven on a table, in long upright waves when it hangs."""
    wide, high = canvas.sheet_size
    portrait = high > wide
    if kind == "hanging":
        long_ = noise(canvas, (16, 2) if portrait else (22, 2), dice, 2)
        canvas.cloth = 0.20 * long_ + 0.16 * noise(canvas, (7, 5), dice, 2)
    else:
        canvas.cloth = 0.30 * noise(canvas, (8, 6), dice, 3)
    canvas.cloth = canvas.sheet_blur(canvas.cloth, 0.5)


def finished(canvas: Canvas, dice: np.random.Generator) -> NDArray[np.uint8]:
    """The picture with the lens's darker corners, a warm cast and a little sensor noise."""
    image = _vignetted(canvas)
    side = 512
    speckle = dice.normal(0, 3.2, (side, side, 3)) + dice.normal(0, 2.2, (side, side, 1))
    speckle = cv2.GaussianBlur(speckle.astype(np.float32), (0, 0), 0.6).round().astype(np.int8)
    again = (-(-canvas.height // side), -(-canvas.width // side), 1)
    sheet = np.tile(speckle, again)[: canvas.height, : canvas.width]
    return np.asarray(cv2.add(image, sheet, dtype=cv2.CV_8U), dtype=np.uint8)


def _vignetted(canvas: Canvas) -> NDArray[np.uint8]:
    high, wide = 48, 64
    x, y = np.meshgrid(np.linspace(-1, 1, wide), np.linspace(-1, 1, high))
    dark = 1 - 0.20 * (x**2 + y**2) ** 1.2 / 2
    cast = np.array([1.09, 1.065, 1.02]) * dark[..., None] * 128
    size = (canvas.width, canvas.height)
    full = cv2.resize(cast.astype(np.float32).round().astype(np.uint8), size)
    return np.asarray(cv2.multiply(canvas.image, full, scale=1 / 128), dtype=np.uint8)
