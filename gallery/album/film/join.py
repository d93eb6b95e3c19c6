"""All parts one after another in one MP4, without re-encoding, its index before its pictures."""

import heapq
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

import av

from gallery.album.film import music, segmentfile
from gallery.album.film.encode import Encoded, Encoding, set_up
from gallery.album.film.errors import Cancelled, FilmError
from gallery.album.film.make import Ask, never
from gallery.album.film.plan import FilmPlan
from gallery.album.film.saying import gettext as _
from gallery.album.film.segments import parts, place
from gallery.album.film.wholefile import beside, settle

Timed = tuple[Fraction, Any]


def join(
    plan: FilmPlan,
    cache_dir: Path,
    out: Path,
    *,
    encoding: Encoding | None = None,
    should_stop: Ask = never,
) -> None:
    """Write the film to `out` from the parts in the cache: whole or not at all.

    Refuses, as FilmError, when a part is missing or damaged or the disk is full; Cancelled when
    `should_stop` says so.
    """
    with beside(out) as part:
        write(plan, cache_dir, part, encoding=encoding, should_stop=should_stop)
        settle(part, out)


def write(
    plan: FilmPlan,
    cache_dir: Path,
    path: Path,
    *,
    encoding: Encoding | None = None,
    should_stop: Ask = never,
) -> None:
    """As `join`, straight to `path`: for those who read the film back before they name it."""
    try:
        _write(plan, cache_dir, path, encoding or Encoding(), should_stop)
    except (av.FFmpegError, OSError) as trouble:
        raise FilmError(
            _("The film cannot be written: is the disk full? Make room and start it again.")
        ) from trouble


def _write(
    plan: FilmPlan, cache_dir: Path, path: Path, encoding: Encoding, should_stop: Ask
) -> None:
    sound = music.track(plan, cache_dir)
    options = {"movflags": "+faststart"}
    with av.open(str(path), "w", format="mp4", options=options) as container:
        pictures: Any = container.add_stream("libx264", rate=plan.fps)
        set_up(pictures.codec_context, encoding, (plan.width, plan.height), plan.fps)
        streams = [_pictures(plan, cache_dir, encoding, pictures, should_stop)]
        if sound:
            sounds: Any = container.add_stream("aac", rate=music.SAMPLE_RATE)
            music.set_up(sounds.codec_context)
            streams.append(_sounds(segmentfile.read(sound), sounds))
        # The encoders are opened for their headers only; every packet is ready already.
        container.start_encoding()
        for _time, packet in heapq.merge(*streams, key=lambda timed: timed[0]):
            container.mux_one(packet)


def _pictures(
    plan: FilmPlan, cache_dir: Path, encoding: Encoding, stream: Any, should_stop: Ask
) -> Iterator[Timed]:
    begins = 0
    for part in parts(plan, encoding):
        if should_stop():
            raise Cancelled
        made = segmentfile.read(place(cache_dir, part.key))
        _refuse_other_headers(made, stream)
        yield from _packets(made, stream, Fraction(1, plan.fps), begins)
        begins += part.frames


def _sounds(made: Encoded, stream: Any) -> Iterator[Timed]:
    _refuse_other_headers(made, stream)
    yield from _packets(made, stream, Fraction(1, music.SAMPLE_RATE), 0)


def _packets(made: Encoded, stream: Any, unit: Fraction, begins: int) -> Iterator[Timed]:
    for ready in made.packets:
        packet: Any = av.Packet(ready.data)
        packet.stream, packet.time_base = stream, unit
        packet.pts, packet.dts = ready.pts + begins, ready.dts + begins
        packet.is_keyframe = ready.is_key
        yield packet.dts * unit, packet


def _refuse_other_headers(made: Encoded, stream: Any) -> None:
    if bytes(stream.codec_context.extradata or b"") != made.headers:
        raise FilmError(
            _("The film's parts do not fit together: empty the film's store and render.")
        )
