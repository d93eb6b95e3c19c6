"""The places a finished or growing tunic is photographed in, by name."""

from collections.abc import Callable

from gallery.demo.canvas import Canvas
from gallery.demo.chair import chair
from gallery.demo.detail import detail
from gallery.demo.growing import needles
from gallery.demo.shown import flat, hanger
from gallery.demo.staging import Frame
from gallery.demo.wear import Cloth

Scene = Callable[[Cloth, Frame], Canvas]

SCENES: dict[str, Scene] = {
    "flat": flat,
    "hanger": hanger,
    "chair": chair,
    "needles": needles,
    "detail": detail,
}
