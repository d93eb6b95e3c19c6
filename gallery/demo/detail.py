"""Close to the fabric: stitches, rib and edges."""

import numpy as np

from gallery.demo import rooms
from gallery.demo.canvas import Canvas, placed
from gallery.demo.garment import body
from gallery.demo.staging import Frame, ground_shadows, lay_all, strip
from gallery.demo.wear import Cloth, fabric_layer, front_band, inside


def detail(cloth: Cloth, frame: Frame) -> Canvas:
    """Close to the fabric: a corner of the hem, or the neckband when the seed divides by three."""
    dice = frame.dice()
    long_cm = float(dice.uniform(20, 27))
    canvas = Canvas(frame.size, long_cm, float(dice.uniform(-14, 14)), frame.seed)
    rooms.boards(canvas, dice, upright=bool(dice.random() < 0.5))
    rooms.fall_off(canvas, 0.40)
    rooms.folds(canvas, dice, "lying")
    canvas.cloth *= 0.45
    span = long_cm * 0.75
    if frame.seed % 3 == 0:
        return _neck_detail(canvas, cloth, span)
    x = -span * float(dice.uniform(0.28, 0.40))
    y = span * float(dice.uniform(0.26, 0.36))
    piece = fabric_layer(
        canvas, cloth, strip(span * 1.6, span * 1.6), placed(x, y), float(cloth.shape.hem_depth)
    )
    ground_shadows(canvas, [piece.lying], (0.35, 0.5))
    canvas.expose()
    canvas.lay(piece)
    return canvas


def _neck_detail(canvas: Canvas, cloth: Cloth, span: float) -> Canvas:
    place = placed(0, cloth.shape.length - span * 0.06)
    shown = body(cloth.shape, front=True)
    shown = shown[(shown[:, 1] > 0)]
    shown[:, 1] = np.maximum(shown[:, 1], cloth.shape.length - span * 1.5)
    front = fabric_layer(canvas, cloth, shown, place, 0, salt=3)
    layers = [*inside(canvas, cloth, place, front), front, front_band(canvas, cloth, place)]
    ground_shadows(canvas, [layer.lying for layer in layers], (0.4, 0.6))
    canvas.expose()
    lay_all(canvas, layers)
    return canvas
