"""How a scene is set: its frame, where the tunic lies in it, shadows on the ground, layers laid."""

from dataclasses import dataclass

import numpy as np

from gallery.demo.canvas import Canvas, Layer
from gallery.demo.garment import GarmentShape, Points
from gallery.demo.wear import Cloth, Pose, extent


@dataclass(frozen=True)
class Frame:
    """The picture's size in pixels and the dice its scene is thrown with."""

    size: tuple[int, int]
    seed: int

    @property
    def portrait(self) -> bool:
        """Higher than wide."""
        return self.size[1] > self.size[0]

    def dice(self) -> np.random.Generator:
        """The same throws every time."""
        return np.random.default_rng(self.seed)


def posed(shape: GarmentShape, arms: Points) -> Pose:
    """Sleeves as far down as wanted, but never so far that the notch's corner stands out."""
    notch = float(shape.half_width - shape.cross_back) / 2
    steepest = np.degrees(np.arctan2(float(shape.armhole_depth), notch)) - 5
    left, right = np.minimum(arms, steepest)
    return Pose(0, 0, float(left), float(right))


def centred(shape: GarmentShape, pose: Pose, dice: np.random.Generator) -> Pose:
    """The pose moved so that the tunic lies about the scene's middle."""
    low, high = extent(shape, pose)
    x, y = -(low + high) / 2 + dice.uniform(-1.2, 1.2, 2)
    return Pose(float(x), float(y), pose.left, pose.right)


def framed(cloth: Cloth, pose: Pose, frame: Frame, *, margin: float, tilt: float) -> Canvas:
    """A canvas just wide and high enough for the tunic and some air around it."""
    low, high = extent(cloth.shape, pose)
    wide, tall = (high - low) * margin
    width, height = frame.size
    px_per_cm = min(width / wide, height / tall)
    return Canvas(frame.size, max(frame.size) / px_per_cm, tilt, frame.seed)


def free_corner(canvas: Canvas, dice: np.random.Generator) -> tuple[float, float]:
    """A free place for a ball of yarn: low, at one side."""
    side = float(dice.choice([-1, 1]))
    wide = canvas.width / canvas.px_per_cm / 2
    high = canvas.height / canvas.px_per_cm / 2
    inset = 8.5 if high > wide else wide * 0.28
    return side * (wide - inset), high - 10.0


def ground_shadows(
    canvas: Canvas, outlines: list[Points], drop: tuple[float, float], soft: float = 1.1
) -> None:
    """One shadow close to the things and one wide and faint, both on the ground."""
    for outline in outlines:
        canvas.cast(outline, (drop[0] * 0.25, drop[1] * 0.25), 0.35, 0.30)
    for outline in outlines:
        canvas.cast(outline, drop, soft * 1.4, 0.36)


def lay_all(canvas: Canvas, layers: list[Layer]) -> None:
    """The layers one upon another, the first undermost."""
    for layer in layers:
        canvas.lay(layer)


def strip(wide: float, long_: float) -> Points:
    """An upright oblong of fabric, its lower left corner at (0, 0), in cm."""
    return np.array([(0, 0), (wide, 0), (wide, long_), (0, long_)], dtype=np.float64)
