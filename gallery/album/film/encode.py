"""Frames into H.264 packets: every part encoded alone, so that parts join without re-encoding."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import av

from gallery.album.film.planes import Planes, views

BT709 = 1  # the code point of ITU-R BT.709 for primaries, transfer and matrix (ITU-T H.273)
LIMITED_RANGE = 1
GLOBAL_HEADER = 0x0040_0000  # headers apart from the packets, as MP4 keeps them


@dataclass(frozen=True)
class Encoding:
    """Settings of libx264; part of every key.

    One thread a part, because several parts are made at once. `stitchable` keeps the headers of
    all parts identical; `qcomp` 0.8 evens out the step in quality at each key frame.
    """

    preset: str = "veryfast"
    crf: float = 21
    key_every: int = 150
    qcomp: float = 0.8
    tuning: str = "partitions=none:me=dia:b-adapt=0"

    def options(self) -> dict[str, str]:
        """The options as libx264 takes them."""
        fixed = "scenecut=0:open-gop=0:stitchable=1:force-cfr=1"
        params = f"keyint={self.key_every}:qcomp={self.qcomp:g}:{fixed}:{self.tuning}"
        return {
            "preset": self.preset,
            "crf": f"{self.crf:g}",
            "profile": "high",
            "x264-params": params,
        }


@dataclass(frozen=True)
class Shape:
    """How many frames a part has, how large (pixels), how many a second."""

    frames: int
    width: int
    height: int
    fps: int


@dataclass(frozen=True)
class Packet:
    """One encoded picture or piece of sound; times in the units of its stream."""

    data: bytes
    pts: int
    dts: int
    is_key: bool


@dataclass(frozen=True)
class Encoded:
    """The packets of a part and the headers a player needs."""

    headers: bytes
    packets: tuple[Packet, ...]


def libraries() -> str:
    """Which libraries decide the bytes; part of every key."""
    parts = (f"{name} {'.'.join(map(str, v))}" for name, v in sorted(av.library_versions.items()))
    return f"av {av.__version__}, {', '.join(parts)}"


def set_up(context: Any, encoding: Encoding, size: tuple[int, int], fps: int) -> None:
    """Set a libx264 context: size, time base 1/fps, colours tagged BT.709, limited range."""
    context.width, context.height = size
    context.pix_fmt = "yuv420p"
    context.time_base = Fraction(1, fps)
    context.framerate = Fraction(fps)
    context.color_primaries = context.color_trc = context.colorspace = BT709
    context.color_range = LIMITED_RANGE
    context.thread_count = 1
    context.options = encoding.options()


def encoded(
    draw: Callable[[int, Planes], None],
    shape: Shape,
    encoding: Encoding,
    each: Callable[[], None] = lambda: None,
) -> Encoded:
    """Draw the frames one after another and encode them as one closed part.

    `each` is called before every frame; what it raises ends the part.
    """
    context: Any = av.CodecContext.create("libx264", "w")
    size = (shape.width, shape.height)
    set_up(context, encoding, size, shape.fps)
    context.flags |= GLOBAL_HEADER
    frame = av.VideoFrame(*size, "yuv420p")
    into = views(frame)
    packets: list[Packet] = []
    for number in range(shape.frames):
        each()
        draw(number, into)
        frame.pts = number
        packets += map(_packet, context.encode(frame))
    packets += map(_packet, context.encode(None))
    return Encoded(bytes(context.extradata), tuple(packets))


def _packet(packet: Any) -> Packet:
    return Packet(bytes(packet), packet.pts, packet.dts, bool(packet.is_keyframe))
