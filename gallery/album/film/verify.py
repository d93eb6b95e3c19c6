"""Reads a finished film back, frame by frame, and says what is not as planned."""

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

import av

from gallery.album.film.captions import captions_vtt, faults_in_vtt
from gallery.album.film.encode import BT709, LIMITED_RANGE
from gallery.album.film.errors import Cancelled
from gallery.album.film.flashes import COLUMNS, ROWS, FlashMeter
from gallery.album.film.make import Ask, never
from gallery.album.film.plan import FilmPlan
from gallery.album.film.saying import gettext as _
from gallery.album.film.timing import total_frames, total_seconds

ASK_EVERY_FRAMES = 30


def verify(path: Path, plan: FilmPlan, *, should_stop: Ask = never) -> list[str]:
    """Everything wrong with the film, each as a sentence; an empty list when it is right.

    Decodes the whole film. Raises Cancelled when `should_stop` says so.
    """
    faults = list(_box_faults(path))
    try:
        with av.open(str(path), format="mp4") as container:
            faults += _stream_faults(container, plan)
            faults += _frame_faults(container, plan, should_stop)
    except (av.FFmpegError, OSError, IndexError) as trouble:
        faults.append(_("It cannot be read back (%(trouble)s).") % {"trouble": trouble})
    return faults + faults_in_vtt(captions_vtt(plan))


def _stream_faults(container: Any, plan: FilmPlan) -> Iterator[str]:
    context = container.streams.video[0].codec_context
    if (context.width, context.height) != (plan.width, plan.height):
        yield _("It is %(is)s pixels, not %(meant)s.") % {
            "is": f"{context.width}×{context.height}",
            "meant": f"{plan.width}×{plan.height}",
        }
    tags = (context.color_primaries, context.color_trc, context.colorspace)
    if tags != (BT709,) * 3 or context.color_range != LIMITED_RANGE:
        yield _("Its colours are not marked as BT.709, limited range.")
    seconds = Fraction(container.duration or 0, av.time_base)
    if abs(seconds - total_seconds(plan)) > Fraction(1, plan.fps):
        yield _("It runs %(is)s seconds, not %(meant)s.") % {
            "is": f"{float(seconds):.3f}",
            "meant": f"{float(total_seconds(plan)):.3f}",
        }
    if bool(container.streams.audio) != bool(plan.music):
        yield _("It has sound without music in its plan, or music without sound.")


def _frame_faults(container: Any, plan: FilmPlan, should_stop: Ask) -> Iterator[str]:
    stream = container.streams.video[0]
    stream.thread_type = "AUTO"
    count, wrong_time = 0, False
    meter = FlashMeter(plan.fps)
    for frame in container.decode(stream):
        if count % ASK_EVERY_FRAMES == 0 and should_stop():
            raise Cancelled
        wrong_time |= frame.pts * stream.time_base != Fraction(count, plan.fps)
        wrong_time |= frame.is_corrupt
        small = frame.reformat(COLUMNS, ROWS, "rgb24", interpolation="AREA")
        meter.add(small.to_ndarray())
        count += 1
    if count != total_frames(plan):
        yield _("It has %(is)s frames, not %(meant)s.") % {"is": count, "meant": total_frames(plan)}
    if wrong_time:
        yield _("Some of its frames stand at the wrong time or are damaged.")
    if meter.is_too_much:
        yield _("It flashes %(times)s times within one second, which can harm people.") % {
            "times": meter.worst
        }


def _box_faults(path: Path) -> Iterator[str]:
    boxes = [name for name, _ in top_boxes(path)]
    if b"moov" not in boxes or b"mdat" not in boxes:
        yield _("It is not a whole MP4 file.")
    elif boxes.index(b"moov") > boxes.index(b"mdat"):
        yield _("Its index stands behind its pictures, so it could not be watched while it loads.")


def top_boxes(path: Path) -> list[tuple[bytes, int]]:
    """Name and size in bytes of the file's outermost boxes (ISO/IEC 14496-12, 4.2)."""
    boxes = []
    left = path.stat().st_size
    with path.open("rb") as file:
        while left >= 8:
            size, name = int.from_bytes(file.read(4)), file.read(4)
            header = 16 if size == 1 else 8
            size = int.from_bytes(file.read(8)) if size == 1 else size or left
            if size < header:
                break
            boxes.append((name, size))
            file.seek(size - header, 1)
            left -= size
    return boxes
