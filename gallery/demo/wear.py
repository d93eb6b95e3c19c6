"""The tunic as cloth: its parts knitted in one yarn and put where the scene wants them."""

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from gallery.demo.canvas import LIGHT, Canvas, Layer, moved, placed
from gallery.demo.fabric import Knit, Order, Pixels, knit
from gallery.demo.garment import (
    GarmentShape,
    Points,
    band,
    body,
    bumpy,
    neck_edge,
    sleeve,
    softened,
)
from gallery.demo.stitches import Fabric, Plane
from gallery.demo.yarns import Dye

SPARE = 6  # stitches and rows knitted beyond the outline, so that an edge never runs dry
WANDER = 0.22  # cm an edge strays from the straight line


@dataclass(frozen=True)
class Cloth:
    """Whose tunic is drawn: shape, yarn and the seed of its small irregularities."""

    shape: GarmentShape
    dye: Dye
    seed: int

    @property
    def wales(self) -> float:
        """Stitches per cm."""
        return float(self.shape.stitches_per_cm)

    @property
    def courses(self) -> float:
        """Rows per cm."""
        return float(self.shape.rows_per_cm)


@dataclass(frozen=True)
class Pose:
    """Where the hem's centre lies (cm) and how far each sleeve hangs below the horizontal."""

    x: float
    y: float
    left: float
    right: float


def body_place(pose: Pose) -> NDArray[np.float64]:
    """From the body's own cm to the scene's."""
    return placed(pose.x, pose.y)


def sleeve_place(shape: GarmentShape, pose: Pose, side: int) -> NDArray[np.float64]:
    """The sleeve turned about the shoulder tip; side is 1 for the picture's right, −1 for left."""
    angle = np.deg2rad(pose.right if side > 0 else pose.left)
    away = np.array([side * np.cos(angle), np.sin(angle)])
    seamward = np.array([-side * np.sin(angle), np.cos(angle)])
    tip = np.array([side * float(shape.cross_back) / 2, 0])
    tip[1] = -float(shape.hem_to_underarm + shape.armhole_depth)
    start = np.array([pose.x, pose.y]) + tip + away * float(shape.sleeve_length)
    return np.column_stack([seamward, -away, start])


def extent(shape: GarmentShape, pose: Pose) -> tuple[Points, Points]:
    """Upper left and lower right corner of the whole tunic in the scene's cm."""
    parts = [moved(body(shape, front=True), body_place(pose))]
    parts += [moved(sleeve(shape), sleeve_place(shape, pose, side)) for side in (-1, 1)]
    every = np.vstack(parts)
    return every.min(0), every.max(0)


def fabric_layer(
    canvas: Canvas,
    cloth: Cloth,
    outline: Points,
    place: NDArray[np.float64],
    rib: float,
    *,
    fabric: Fabric = "plain",
    salt: int = 0,
    wander: float = WANDER,
) -> Layer:
    """A part knitted upwards from its lowest point, ribbed for the first so many cm."""
    low, high = outline.min(0), outline.max(0)
    stitches = round((high[0] - low[0]) * cloth.wales) + 2 * SPARE
    rows = round((high[1] - low[1]) * cloth.courses) + 2 * SPARE
    rib_rows = round(rib * cloth.courses) + SPARE if rib else 0
    order = Order(stitches + stitches % 3, rows, min(rib_rows, rows), fabric)
    stitch_px = _stitch_px(canvas, cloth)
    made = knit(order, cloth.dye, stitch_px, _own_light(place), cloth.seed + salt)
    to_surface = _to_surface(made, cloth, low)
    soft = softened(outline, wander, cloth.seed + salt, step=0.5 if stitch_px < 16 else 0.08)
    if stitch_px >= 16:  # below that the bumps are smaller than a pixel
        soft = bumpy(soft, cloth.wales, cloth.courses)
    return Layer(soft, place, made.pixels, to_surface)


def _stitch_px(canvas: Canvas, cloth: Cloth) -> float:
    return canvas.px_per_cm / cloth.wales


def _own_light(place: NDArray[np.float64]) -> tuple[float, float]:
    """Where the light comes from as seen in the part's own directions, right and down."""
    right, down = place[:, 0], -place[:, 1]
    scale = float(np.hypot(*right))
    return float(np.dot(right, LIGHT)) / scale, float(np.dot(down, LIGHT)) / scale


def _to_surface(made: Knit, cloth: Cloth, low: Points) -> NDArray[np.float64]:
    across, up = cloth.wales * made.stitch_px, cloth.courses * made.row_px
    left = SPARE * made.stitch_px - low[0] * across
    bottom = made.pixels.shape[0] - SPARE * made.row_px + low[1] * up
    return np.array([[across, 0, left], [0, -up, bottom]])


def tunic(canvas: Canvas, cloth: Cloth, pose: Pose) -> list[Layer]:
    """The whole tunic, front towards us, undermost part first."""
    shape, place = cloth.shape, body_place(pose)
    front = fabric_layer(
        canvas, cloth, body(shape, front=True), place, float(shape.hem_depth), salt=3
    )
    arms = [_arm(canvas, cloth, pose, side) for side in (-1, 1)]
    for arm in arms:
        arm.shaded_by = [front.lying]
    front.joined_to = [arm.lying for arm in arms]
    collar = front_band(canvas, cloth, place)
    return [*inside(canvas, cloth, place, front), *arms, front, collar]


def _arm(canvas: Canvas, cloth: Cloth, pose: Pose, side: int) -> Layer:
    place = sleeve_place(cloth.shape, pose, side)
    cuff = float(cloth.shape.cuff_depth)
    return fabric_layer(canvas, cloth, sleeve(cloth.shape), place, cuff, salt=10 + side)


def inside(canvas: Canvas, cloth: Cloth, place: NDArray[np.float64], front: Layer) -> list[Layer]:
    """What shows through the neck opening: the back's purl side and its band."""
    shape = cloth.shape
    half, top = float(shape.neck_width) / 2 - 0.3, shape.length - 0.2
    low = top - float(shape.front_neck_depth) - 2
    patch = np.array([(-half, low), (half, low), (half, top), (-half, top)])
    back = fabric_layer(canvas, cloth, patch, place, 0, fabric="purl", salt=21, wander=0.1)
    outline = band(shape, front=False)
    collar = fabric_layer(canvas, cloth, outline, place, 20, salt=22, wander=0.12)
    back.dim, collar.dim = 0.62, 0.84
    back.shaded_by = [collar.lying]
    return [back, collar]


def front_band(canvas: Canvas, cloth: Cloth, place: NDArray[np.float64]) -> Layer:
    """The ribbed band picked up along the front neck; its columns follow the curve."""
    outline = band(cloth.shape, front=True)
    per_cm = min(canvas.px_per_cm, 60)
    low, high = outline.min(0) - 0.5, outline.max(0) + 0.5
    x, y = np.arange(low[0], high[0], 1 / per_cm), np.arange(high[1], low[1], -1 / per_cm)
    surface = _bent_rib(cloth, x, y, _stitch_px(canvas, cloth), _own_light(place))
    to_surface = np.array([[per_cm, 0, -low[0] * per_cm], [0, -per_cm, high[1] * per_cm]])
    layer = Layer(softened(outline, 0.08, cloth.seed + 31), place, surface, to_surface)
    layer.edge_cm, layer.roundness = 0.5, 0.9
    return layer


def _bent_rib(
    cloth: Cloth, x: Plane, y: Plane, stitch_px: float, light: tuple[float, float]
) -> Pixels:
    """Rib over a grid of places (the body's cm), bent so that it rises from the neck's edge."""
    edge = neck_edge(cloth.shape)[::-1]
    along = np.concatenate([[0], np.cumsum(np.hypot(*np.diff(edge, axis=0).T))])
    rows = 14  # more than any band has
    order = Order(3 * round(along[-1] * cloth.wales / 3) + 3, rows, rows)
    made = knit(order, cloth.dye, stitch_px, light, cloth.seed + 30)
    lean = np.interp(x, edge[:, 0], 1 / np.hypot(1, np.gradient(edge[:, 1], edge[:, 0])))
    above = (y[:, None] - np.interp(x, edge[:, 0], edge[:, 1])[None, :]) * lean[None, :]
    across = np.interp(x, edge[:, 0], along) * cloth.wales * made.stitch_px
    down = made.pixels.shape[0] - 1 - above * cloth.courses * made.row_px
    bent = cv2.remap(
        made.pixels,
        np.tile(across, (len(y), 1)).astype(np.float32),
        down.astype(np.float32),
        cv2.INTER_LINEAR,
        borderMode=cv2.BORDER_REFLECT_101,
    )
    return np.asarray(bent, dtype=np.uint8)
