"""The whole tunic shown: spread out flat, or on a hanger before a wall."""

import numpy as np

from gallery.demo import props, rooms
from gallery.demo.canvas import Canvas
from gallery.demo.garment import GarmentShape
from gallery.demo.staging import (
    Frame,
    centred,
    framed,
    free_corner,
    ground_shadows,
    lay_all,
    posed,
)
from gallery.demo.wear import Cloth, Pose, tunic


def flat(cloth: Cloth, frame: Frame) -> Canvas:
    """Spread out on boards or linen, seen from above, a ball of its yarn beside it."""
    dice = frame.dice()
    arms = dice.uniform(60, 68, 2) if frame.portrait else dice.uniform(24, 44, 2)
    pose = centred(cloth.shape, posed(cloth.shape, arms), dice)
    canvas = framed(cloth, pose, frame, margin=1.13, tilt=dice.uniform(-3.2, 3.2))
    if dice.random() < 0.68:
        rooms.boards(canvas, dice, upright=bool(dice.random() < 0.5))
    else:
        rooms.linen(canvas, dice)
    rooms.fall_off(canvas, 0.34)
    if dice.random() < 0.5:
        rooms.window_light(canvas, dice, 0.22)
    rooms.folds(canvas, dice, "lying")
    layers = tunic(canvas, cloth, pose)
    corner = free_corner(canvas, dice)
    ground_shadows(canvas, [layer.lying for layer in layers], (0.9, 1.3))
    ground_shadows(canvas, [props.disc(*corner, 4.0)], (1.8, 2.6))
    canvas.expose()
    lay_all(canvas, layers)
    x, y = corner
    inward = -np.sign(x)
    tail = props.curve((x, y + 2), (x + inward * 5, y + 5), (x + inward * 9, y + 3.6))
    props.strand(canvas, tail, 0.28, cloth.dye)
    props.ball(canvas, corner, 4.8, cloth.dye, seed=frame.seed)
    return canvas


def hanger(cloth: Cloth, frame: Frame) -> Canvas:
    """On a wooden hanger before a plastered wall with window light."""
    dice = frame.dice()
    pose = centred(cloth.shape, posed(cloth.shape, dice.uniform(66, 74, 2)), dice)
    pose = Pose(pose.x, pose.y + 5, pose.left, pose.right)
    canvas = framed(cloth, pose, frame, margin=1.34, tilt=dice.uniform(-1.2, 1.2))
    rooms.wall(canvas, dice)
    rooms.fall_off(canvas, 0.42)
    rooms.window_light(canvas, dice, 0.34)
    rooms.folds(canvas, dice, "hanging")
    layers = tunic(canvas, cloth, pose)
    ground_shadows(canvas, [layer.lying for layer in layers], (3.2, 3.6))
    canvas.expose()
    lay_all(canvas, layers[:2])
    _hook(canvas, cloth.shape, pose)
    lay_all(canvas, layers[2:])
    return canvas


def _hook(canvas: Canvas, shape: GarmentShape, pose: Pose) -> None:
    top = pose.y - shape.length
    steel = props.curve(
        (pose.x, top - 1),
        (pose.x, top - 5.5),
        (pose.x + 2.2, top - 7.2),
        (pose.x + 2.0, top - 10.2),
        (pose.x - 0.6, top - 11.2),
        (pose.x - 2.2, top - 9.6),
    )
    props.wire(canvas, steel, 0.36)
    props.rod(canvas, (pose.x, top - 10.1), (pose.x, top - 10.9), 2.4, props.PALE_WOOD)
    reach = float(shape.cross_back) / 2 - 2
    for side in (-1, 1):
        end = (pose.x + side * reach, top + float(shape.shoulder_drop) + 1.2)
        props.rod(canvas, (pose.x - side * 0.4, top - 0.7), end, 2.0, props.PALE_WOOD)
