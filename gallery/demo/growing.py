"""A piece in progress: on hand needles, or hanging from a needle bed."""

import numpy as np

from gallery.demo import props, rooms
from gallery.demo.canvas import Canvas, placed
from gallery.demo.staging import Frame, ground_shadows, strip
from gallery.demo.wear import Cloth, fabric_layer


def needles(cloth: Cloth, frame: Frame) -> Canvas:
    """In progress: on hand needles on a table (odd seeds) or hanging from a needle bed (even)."""
    return _on_needles(cloth, frame) if frame.seed % 2 else _on_bed(cloth, frame)


def _on_needles(cloth: Cloth, frame: Frame) -> Canvas:
    dice = frame.dice()
    wide = float(cloth.shape.half_width)
    grown = float(dice.uniform(0.34, 0.52)) * float(cloth.shape.hem_to_underarm) + 8
    long_cm = wide * 1.42 / 0.75 if frame.portrait else wide * 1.62
    canvas = Canvas(frame.size, long_cm, dice.uniform(-5, 5), frame.seed)
    rooms.boards(canvas, dice, upright=bool(dice.random() < 0.5))
    rooms.fall_off(canvas, 0.36)
    rooms.folds(canvas, dice, "lying")
    base = grown / 2 + 2
    piece = fabric_layer(
        canvas, cloth, strip(wide, grown), placed(-wide / 2, base), float(cloth.shape.hem_depth)
    )
    top = base - grown
    ends = (-wide / 2 - 5, top - 0.3), (wide / 2 + 6, top - 0.9)
    needle = props.rod_layer(*ends, 0.75, props.PALE_WOOD)
    knob, point = (-wide * 0.30, base + 7), (wide * 0.34, base + 3.5)
    spare = props.rod_layer(knob, point, 0.75, props.PALE_WOOD)
    yarn = (wide * 0.30, top - 11.5) if frame.portrait else (wide * 0.36, top - 7.5)
    ground_shadows(canvas, [piece.lying, needle.lying, spare.lying], (0.8, 1.2))
    ground_shadows(canvas, [props.disc(*yarn, 4.3)], (2.0, 2.8))
    canvas.expose()
    canvas.lay(spare)
    for x, y in (ends[0], knob):
        props.board(canvas, props.disc(x, y, 0.9), props.WOOD)
    piece.shaded_by = [needle.lying]
    canvas.lay(piece)
    end = props.curve(
        (wide / 2 - 0.5, top), (wide / 2 + 4, top + 3), (wide / 2 + 3.5, top - 5), yarn
    )
    canvas.lay(needle)
    edge = np.array([-wide / 2 + 0.2, top - 0.45]), np.array([wide / 2 - 0.2, top - 0.8])
    props.loops(canvas, *edge, round(wide * cloth.wales), cloth.dye)
    props.strand(canvas, end, 0.28, cloth.dye)
    props.ball(canvas, yarn, 4.6, cloth.dye, seed=frame.seed)
    return canvas


def _on_bed(cloth: Cloth, frame: Frame) -> Canvas:
    dice = frame.dice()
    wide = float(cloth.shape.half_width)
    grown = min(float(cloth.shape.hem_to_underarm), float(dice.uniform(26, 38)))
    long_cm = wide * 1.30 / 0.75 if frame.portrait else wide * 1.75
    canvas = Canvas(frame.size, long_cm, dice.uniform(-1.5, 1.5), frame.seed)
    rooms.wall(canvas, dice)
    rooms.fall_off(canvas, 0.45)
    rooms.window_light(canvas, dice, 0.26)
    rooms.folds(canvas, dice, "hanging")
    top = -grown / 2 - 2
    piece = fabric_layer(
        canvas,
        cloth,
        strip(wide, grown),
        placed(-wide / 2, top + grown),
        float(cloth.shape.hem_depth),
    )
    reach = long_cm
    bed = props.oblong(-reach, top - 9, reach, top - 1.2)
    ground_shadows(canvas, [bed, piece.lying], (2.4, 4.0), soft=1.6)
    canvas.expose()
    props.needle_bed(canvas, top, reach)
    canvas.lay(piece)
    edge = np.array([-wide / 2, top - 0.2]), np.array([wide / 2, top - 0.2])
    props.loops(canvas, *edge, round(wide * cloth.wales), cloth.dye)
    props.carriage(canvas, float(dice.choice([-1, 1])) * wide * 0.52, top)
    props.comb(canvas, wide, top + grown)
    return canvas
