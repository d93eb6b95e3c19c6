"""Pictures as the encoder wants them: planar YUV 4:2:0, BT.709, limited range."""

from dataclasses import dataclass
from typing import Any

import av
import cv2
import numpy as np
from av.video.reformatter import ColorRange, Colorspace, Interpolation, VideoReformatter
from numpy.typing import NDArray

Plane = NDArray[np.uint8]
_CAREFUL = (
    Interpolation.BICUBIC
    | Interpolation.ACCURATE_RND
    | Interpolation.FULL_CHR_H_INT
    | Interpolation.FULL_CHR_H_INP
)
BLACK = (16, 128, 128)


@dataclass(frozen=True)
class Planes:
    """Luma at full size, the two chroma planes at half."""

    y: Plane
    u: Plane
    v: Plane

    def all(self) -> tuple[Plane, Plane, Plane]:
        return self.y, self.u, self.v


def empty(width: int, height: int) -> Planes:
    """Room for one picture, not yet painted; both sides even."""
    half = (height // 2, width // 2)
    return Planes(
        np.empty((height, width), np.uint8), np.empty(half, np.uint8), np.empty(half, np.uint8)
    )


def of_rgb(rgb: NDArray[np.uint8]) -> Planes:
    """An sRGB picture (height, width, 3), even sides, as planes.

    swscale converts: OpenCV's own conversion has the BT.601 matrix, which is the wrong colour
    under a BT.709 tag.
    """
    frame = av.VideoFrame.from_ndarray(np.ascontiguousarray(rgb), format="rgb24")
    converted = VideoReformatter().reformat(
        frame,
        format="yuv420p",
        dst_colorspace=Colorspace.ITU709,
        src_color_range=ColorRange.JPEG,
        dst_color_range=ColorRange.MPEG,
        interpolation=_CAREFUL,
    )
    return Planes(*(view.copy() for view in views(converted).all()))


def to_rgb(planes: Planes) -> NDArray[np.uint8]:
    """Planes back as an sRGB picture, for stills."""
    height, width = planes.y.shape
    frame = av.VideoFrame(width, height, "yuv420p")
    for view, plane in zip(views(frame).all(), planes.all(), strict=True):
        view[:] = plane
    converted = VideoReformatter().reformat(
        frame,
        format="rgb24",
        src_colorspace=Colorspace.ITU709,
        src_color_range=ColorRange.MPEG,
        dst_color_range=ColorRange.JPEG,
        interpolation=_CAREFUL,
    )
    return np.asarray(converted.to_ndarray(), np.uint8)


def views(frame: Any) -> Planes:
    """The three planes of a video frame, shared, not copied."""
    return Planes(*(_view(plane) for plane in frame.planes))


def _view(plane: Any) -> Plane:
    # A row of the buffer may be longer than the picture is wide.
    rows = np.frombuffer(plane, np.uint8).reshape(-1, plane.line_size)
    return rows[: plane.height, : plane.width]


def yuv_of(colour: tuple[int, int, int]) -> tuple[float, float, float]:
    """One sRGB colour as luma and chroma (ITU-R BT.709, limited range), not yet rounded."""
    red, green, blue = (value / 255 for value in colour)
    luma = 0.2126 * red + 0.7152 * green + 0.0722 * blue
    return (
        16 + 219 * luma,
        128 + 224 * (blue - luma) / 1.8556,
        128 + 224 * (red - luma) / 1.5748,
    )


def mix(share: float, own: Planes, other: Planes | None, into: Planes) -> None:
    """`share` of `own` over `other` (over black where there is no other)."""
    others = other.all() if other else (None, None, None)
    for mine, theirs, target, black in zip(own.all(), others, into.all(), BLACK, strict=True):
        if theirs is None:
            cv2.convertScaleAbs(mine, dst=target, alpha=share, beta=(1 - share) * black)
        else:
            cv2.addWeighted(mine, share, theirs, 1 - share, 0, dst=target)
