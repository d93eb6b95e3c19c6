"""The tunic folded over the back of a wooden chair."""

import numpy as np

from gallery.demo import props, rooms
from gallery.demo.canvas import Canvas, Layer, placed
from gallery.demo.garment import Points
from gallery.demo.staging import Frame, ground_shadows, lay_all, strip
from gallery.demo.wear import Cloth, fabric_layer

WIDEST_FOLD = 31.0  # cm: wider tunics are folded in three to lie on a chair


def chair(cloth: Cloth, frame: Frame) -> Canvas:
    """Folded lengthwise and laid over the back of a wooden chair."""
    dice = frame.dice()
    long_cm = 104 if frame.portrait else 112
    canvas = Canvas(frame.size, long_cm, dice.uniform(-1.5, 1.5), frame.seed)
    rooms.wall(canvas, dice, floor_cm=38)
    rooms.fall_off(canvas, 0.40)
    rooms.window_light(canvas, dice, 0.28)
    rooms.folds(canvas, dice, "hanging")
    rail, x = -31.0, float(dice.uniform(-3, 3))
    hung = _hung(canvas, cloth, x, rail)
    posts = [props.oblong(x + s * 24 - 2, rail - 8, x + s * 24 + 2, 60) for s in (-1, 1)]
    ground_shadows(canvas, [*posts, *(layer.lying for layer in hung)], (7.5, 5.5), soft=2.6)
    canvas.expose()
    _chair(canvas, x, rail, [layer.lying for layer in hung])
    lay_all(canvas, hung)
    return canvas


def _hung(canvas: Canvas, cloth: Cloth, x: float, rail: float) -> list[Layer]:
    """The folded body in two thicknesses and one sleeve, hanging down from the rail."""
    shape = cloth.shape
    half = float(shape.half_width)
    wide, drop = half / np.ceil(half / WIDEST_FOLD), 0.72 * shape.length
    hem = float(shape.hem_depth)
    left = x - wide * 0.62
    lower = strip(wide, drop + 3.4)
    under = fabric_layer(canvas, cloth, lower, placed(left + 1.1, rail + drop - 0.4), hem, salt=41)
    over = fabric_layer(canvas, cloth, strip(wide, drop), placed(left, rail + drop - 4.0), hem)
    cuff, upper = float(shape.wrist) / 2, float(shape.sleeve_top) / 2
    long_ = 0.80 * float(shape.sleeve_length)
    arm = np.array([(0, 0), (cuff, 0), (upper * 0.9, long_ + 3.6), (-0.6, long_ + 3.6)])
    place = placed(left + wide + 1.2, rail + long_, _small_turn(cloth.seed))
    sleeve = fabric_layer(canvas, cloth, arm, place, float(shape.cuff_depth), salt=42)
    under.shaded_by = [over.lying]
    for layer in (under, over, sleeve):
        layer.edge_cm = 1.3
    return [sleeve, under, over]


def _small_turn(seed: int) -> float:
    """A small turn in degrees, so that nothing hangs like a plumb line."""
    return float(np.random.default_rng(seed).uniform(-3, 1))


def _chair(canvas: Canvas, x: float, rail: float, covers: list[Points]) -> None:
    wood = props.WOOD
    for spindle in np.linspace(-17, 17, 6):
        props.rod(canvas, (x + spindle, 20), (x + spindle, rail), 1.7, wood, shaded_by=covers)
    for side in (-1, 1):
        props.rod(canvas, (x + side * 23, 72), (x + side * 24, 18), 4.0, wood, taper=1.1)
        foot = (x + side * 24, 22)
        props.rod(canvas, foot, (x + side * 25, rail - 7), 4.2, wood, taper=0.8, shaded_by=covers)
    props.rod(canvas, (x - 23, 33), (x + 23, 33), 2.4, wood)
    props.board(canvas, props.oblong(x - 27, 17, x + 27, 22), wood, covers)
    props.board(canvas, props.oblong(x - 26.5, rail - 3.4, x + 26.5, rail + 3.6), wood)
