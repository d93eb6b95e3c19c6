"""Things around the garment: rods and boards of wood, a ball of yarn, loops on a needle."""

import cv2
import numpy as np
from numpy.typing import NDArray

from gallery.demo.canvas import LIGHT, Canvas, Layer, placed
from gallery.demo.fabric import Pixels
from gallery.demo.garment import Points
from gallery.demo.stitches import Plane
from gallery.demo.yarns import Colour, Dye

WOOD: Colour = (150, 102, 62)
PALE_WOOD: Colour = (206, 170, 122)
STEEL: Colour = (176, 178, 180)
ENAMEL: Colour = (214, 208, 190)


def rod_outline(length: float, thick: float, taper: float = 1.0) -> Points:
    """A rod lying along y from 0 to length, rounded at both ends, in cm."""
    turn = np.linspace(0, np.pi, 13)
    low, high = thick / 2, thick * taper / 2
    bottom = np.column_stack([-low * np.cos(turn), -low * 0.6 * np.sin(turn)])
    top = np.column_stack([high * np.cos(turn), length + high * 0.6 * np.sin(turn)])
    return np.vstack([bottom, top])


def rod(
    canvas: Canvas,
    start: tuple[float, float],
    end: tuple[float, float],
    thick: float,
    colour: Colour = WOOD,
    *,
    taper: float = 1.0,
    shaded_by: list[Points] | None = None,
) -> None:
    """A round stick from one point of the scene to another, shaded as a cylinder."""
    layer = rod_layer(start, end, thick, colour, taper)
    layer.shaded_by = shaded_by or []
    canvas.lay(layer)


def rod_layer(
    start: tuple[float, float],
    end: tuple[float, float],
    thick: float,
    colour: Colour,
    taper: float = 1.0,
) -> Layer:
    """The stick as a layer, so that its shadow can be cast before it is laid."""
    way = np.subtract(end, start)
    length = float(np.hypot(*way))
    turn = float(np.degrees(np.arctan2(way[0], -way[1])))
    per_cm = 24
    surface = _cylinder(thick, length, per_cm, colour, turn)
    to_surface = np.array([[per_cm, 0, surface.shape[1] / 2], [0, -per_cm, length * per_cm]])
    return Layer(
        rod_outline(length, thick, taper),
        placed(*start, turn),
        surface,
        to_surface.astype(np.float64),
        roundness=0,
        folds=0,
        drift=0,
    )


def _cylinder(thick: float, length: float, per_cm: int, colour: Colour, turn: float) -> Pixels:
    wide, high = max(4, round(thick * per_cm)), max(4, round(length * per_cm))
    across = np.linspace(-1, 1, wide)
    angle = np.deg2rad(turn)
    side = LIGHT[0] * np.cos(angle) + LIGHT[1] * np.sin(angle)
    facing = -across * -side + 0.9 * np.sqrt(np.maximum(1 - across**2, 0))
    shade = 0.45 + 0.62 * np.clip(facing, 0, 1.3) / 1.1
    dice = np.random.default_rng([wide, high])
    streaks = cv2.resize(dice.normal(0, 0.05, (6, wide)).astype(np.float32), (wide, high))
    light = shade[None, :] * (1 + streaks)
    return np.clip(np.array(colour) * light[..., None], 0, 255).astype(np.uint8)


def board(
    canvas: Canvas, outline: Points, colour: Colour, shaded_by: list[Points] | None = None
) -> None:
    """A flat piece of wood or enamel with an outline in the scene's cm."""
    dice = np.random.default_rng(len(outline) + colour[0])
    grain = cv2.resize(dice.normal(0, 0.035, (220, 5)).astype(np.float32), (256, 512))
    surface = np.clip(np.array(colour) * (1 + grain[..., None]), 0, 255).astype(np.uint8)
    to_surface = np.array([[1.0, 0, 128], [0, -6.0, 256]])
    flipped = outline * (1, -1)
    canvas.lay(
        Layer(
            flipped,
            placed(0, 0),
            surface,
            to_surface,
            shaded_by=shaded_by or [],
            edge_cm=0.5,
            folds=0,
            drift=0,
        )
    )


def oblong(left: float, top: float, right: float, bottom: float) -> Points:
    """A box in the scene's cm with slightly rounded corners."""
    r = min(0.6, (right - left) / 4, (bottom - top) / 4)
    corners = [(right - r, top + r, -90), (right - r, bottom - r, 0)]
    corners += [(left + r, bottom - r, 90), (left + r, top + r, 180)]
    arcs = []
    for x, y, start in corners:
        turn = np.deg2rad(start + np.linspace(0, 90, 6))
        arcs.append(np.column_stack([x + r * np.cos(turn), y + r * np.sin(turn)]))
    return np.vstack(arcs)


def disc(x: float, y: float, radius: float) -> Points:
    """A circle in the scene's cm."""
    turn = np.linspace(0, 2 * np.pi, 72, endpoint=False)
    return np.column_stack([x + radius * np.cos(turn), y + radius * np.sin(turn)])


def ball(
    canvas: Canvas, centre: tuple[float, float], radius: float, dye: Dye, *, seed: int
) -> None:
    """A ball of yarn wound in many directions."""
    side = int(np.clip(2 * radius * canvas.px_per_cm, 24, 900))
    surface = _wound(side, dye, np.random.default_rng(seed), radius)
    per_cm = side / (2 * radius)
    canvas.lay(
        Layer(
            disc(0, 0, radius),
            placed(*centre),
            surface,
            np.array([[per_cm, 0, side / 2], [0, -per_cm, side / 2]]),
            roundness=0.4,
            folds=0,
            drift=0,
        )
    )


def _wound(side: int, dye: Dye, dice: np.random.Generator, radius: float) -> Pixels:
    span = np.linspace(-1, 1, side, dtype=np.float32)
    x, y = np.meshgrid(span, span)
    z = np.sqrt(np.maximum(1 - x**2 - y**2, 0))
    strand = np.full((side, side), 0.5, dtype=np.float32)
    per_strand = radius / 0.33  # strands a third of a centimetre apart
    edge = np.ones((side, side), dtype=np.float32)
    for _ in range(30):
        axis = dice.normal(0, 1, 3) * (1, 1, 0.8)
        axis /= np.linalg.norm(axis)
        height = x * axis[0] + y * axis[1] + z * axis[2] - dice.uniform(-0.5, 0.5)
        wide = dice.uniform(0.12, 0.30)
        band = np.abs(height) < wide
        wave = np.abs(np.sin(np.pi * height * per_strand))
        strand = np.where(band, wave, strand)
        edge = np.where(band, np.clip((wide - np.abs(height)) * 14, 0, 1), edge)
    round_ = np.clip(0.44 + 0.54 * z - 0.30 * (x * -LIGHT[0] + y * -LIGHT[1]), 0.12, 1.2)
    shade = round_ * (0.58 + 0.50 * np.sqrt(strand)) * (0.78 + 0.22 * edge)
    return _dyed(shade, strand, dye, dice)


def _dyed(shade: Plane, strand: Plane, dye: Dye, dice: np.random.Generator) -> Pixels:
    main = np.array(dye.main, dtype=np.float32)
    if dye.second is None:
        colour = main * shade[..., None]
    else:
        coarse = dice.uniform(0, 1, (40, 40)).astype(np.float32)
        mix = cv2.resize(coarse, strand.shape[::-1], interpolation=cv2.INTER_LINEAR)[..., None]
        mix = np.clip((mix - 0.5) * 3 + 0.5, 0, 1)
        colour = (main * mix + np.array(dye.second) * (1 - mix)) * shade[..., None]
    return np.clip(colour, 0, 255).astype(np.uint8)


def strand(canvas: Canvas, points: Points, thick: float, dye: Dye) -> None:
    """A loose end of yarn along a path in the scene's cm."""
    path = np.round(canvas.pixels(points) * 16).astype(np.int32)
    width = max(1, round(thick * canvas.px_per_cm))
    dark, mid = (tuple(int(c * f) for c in dye.main) for f in (0.45, 0.92))
    light = tuple(min(255, int(c * 1.12) + 8) for c in dye.main)
    shift = max(1, width // 3)
    _line(canvas, path + 16 * shift, dark, width)
    _line(canvas, path, mid, width)
    _line(canvas, path - 16 * max(1, width // 6), light, max(1, width // 3))


def _line(canvas: Canvas, path: NDArray[np.int32], colour: tuple[int, ...], width: int) -> None:
    cv2.polylines(canvas.image, [path], False, colour, width, cv2.LINE_AA, shift=4)


def curve(*through: tuple[float, float]) -> Points:
    """A smooth path through the points (Catmull-Rom), in the scene's cm."""
    knots = np.array([through[0], *through, through[-1]], dtype=np.float64)
    t = np.linspace(0, 1, 16, endpoint=False)[:, None]
    parts = []
    for a, b, c, d in zip(knots, knots[1:], knots[2:], knots[3:], strict=False):
        cubic = (-a + 3 * b - 3 * c + d) * t**3 + (2 * a - 5 * b + 4 * c - d) * t**2
        parts.append(0.5 * (cubic + (c - a) * t + 2 * b))
    return np.vstack([*parts, knots[-1:]])


def loops(canvas: Canvas, start: Points, end: Points, count: int, dye: Dye) -> None:
    """Stitches sitting on a needle: one short, slanting loop over the rod for each."""
    for i in range(count):
        x, y = start + (end - start) * ((i + 0.5) / count)
        legs = ((-0.10, 0.80), (-0.05, 0), (0.06, -0.42), (0.13, -0.36))
        over = curve(*((x + across, y + down) for across, down in legs))
        strand(canvas, over, 0.20, dye)


def wire(canvas: Canvas, points: Points, thick: float) -> None:
    """A bent steel wire along a path in the scene's cm."""
    path = np.round(canvas.pixels(points) * 16).astype(np.int32)
    width = max(1, round(thick * canvas.px_per_cm))
    _line(canvas, path, (92, 88, 84), width)
    _line(canvas, path - 16 * max(1, width // 5), (206, 202, 194), max(1, width // 3))


def needle_bed(canvas: Canvas, y: float, reach: float) -> None:
    """A knitting machine's bed above the fabric: enamelled rail, slots, a row of needles."""
    board(canvas, oblong(-reach, y - 11, reach, y - 1.6), ENAMEL)
    board(canvas, oblong(-reach, y - 9.2, reach, y - 6.8), (92, 92, 90))
    board(canvas, oblong(-reach, y - 3.0, reach, y - 1.2), STEEL)
    pitch = 0.65
    for i in range(int(-reach / pitch / 2), int(reach / pitch / 2) + 1):
        x = i * pitch
        needle = np.array([(x, y - 5.6), (x, y + 0.15)])
        wire(canvas, needle, 0.17)
        wire(canvas, np.array([(x, y - 5.9), (x, y - 5.2)]), 0.30)


def carriage(canvas: Canvas, x: float, y: float) -> None:
    """The carriage that slides over the needles, with its handle."""
    board(canvas, oblong(x - 9, y - 12.5, x + 9, y - 2.4), (120, 142, 138))
    board(canvas, oblong(x - 7.6, y - 11.2, x + 7.6, y - 5.6), (226, 218, 198))
    board(canvas, disc(x + 4.4, y - 8.4, 1.5), (150, 92, 62))
    rod(canvas, (x - 6, y - 13.4), (x + 6, y - 13.4), 2.2, WOOD)


def comb(canvas: Canvas, wide: float, y: float) -> None:
    """The cast-on comb and its two weights at the lower edge."""
    for side in (-0.28, 0.28):
        hook = side * wide
        wire(canvas, np.array([(hook, y + 0.8), (hook, y + 2.2)]), 0.3)
        board(canvas, oblong(side * wide - 2.6, y + 1.8, side * wide + 2.6, y + 6.4), (96, 96, 98))
    board(canvas, oblong(-wide / 2 - 1, y - 0.7, wide / 2 + 1, y + 1.1), STEEL)
