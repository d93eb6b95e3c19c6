"""A demo photograph from a garment's own numbers: which shot, and the picture of it."""

from dataclasses import dataclass

import numpy as np
from PIL import Image

from gallery.demo.garment import GarmentShape
from gallery.demo.rooms import finished
from gallery.demo.scenes import SCENES
from gallery.demo.staging import Frame
from gallery.demo.wear import Cloth
from gallery.demo.yarns import dye_named

SIZES = {12: (4032, 3024), 3: (2048, 1536)}  # megapixels asked for: landscape width and height


@dataclass(frozen=True)
class Shot:
    """One photograph to draw: what, in which colour, where, which way up, how large."""

    shape: GarmentShape
    colour: str
    scene: str
    portrait: bool
    megapixels: int
    seed: int


def draw(shot: Shot, scale: float = 1.0) -> Image.Image:
    """The upright picture (RGB); the same shot gives the same pixels.

    Refuses a scene, a colour or a size it does not know. A scale below 1 draws it smaller.
    """
    frame = Frame(_size(shot, scale), shot.seed)
    if shot.scene not in SCENES:
        raise KeyError(f"No scene is called “{shot.scene}”; choose one of {', '.join(SCENES)}.")
    cloth = Cloth(shot.shape, dye_named(shot.colour), shot.seed)
    canvas = SCENES[shot.scene](cloth, frame)
    pixels = finished(canvas, np.random.default_rng(shot.seed + 1))
    return Image.fromarray(pixels)


def _size(shot: Shot, scale: float) -> tuple[int, int]:
    if shot.megapixels not in SIZES:
        raise KeyError(f"Ask for {' or '.join(map(str, SIZES))} megapixels.")
    long_, short = (round(side * scale) for side in SIZES[shot.megapixels])
    return (short, long_) if shot.portrait else (long_, short)
