"""The film's music: the teacher's own file, looped or cut to the film's length, faded, as AAC.

Only five kinds of file are opened, each recognised by its first bytes and opened as exactly that:
FFmpeg would otherwise also follow playlists, which can name any other file of the machine.
"""

import hashlib
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import av
import numpy as np
from numpy.typing import NDArray

from gallery.album.film import segmentfile
from gallery.album.film.encode import GLOBAL_HEADER, Encoded, Packet, libraries
from gallery.album.film.errors import Cancelled, FilmError
from gallery.album.film.plan import FilmPlan, Music
from gallery.album.film.saying import gettext as _
from gallery.album.film.saying import gettext_noop
from gallery.album.film.segments import place
from gallery.album.film.timing import total_seconds

SAMPLE_RATE, BIT_RATE = 48_000, 160_000
FADE_IN_SECONDS, FADE_OUT_SECONDS = 0.6, 3.0
LARGEST_BYTES = 200 * 1024 * 1024
HEAD_BYTES = 64
ADVICE = gettext_noop("choose an MP3, M4A, WAV, FLAC or Ogg file, or make the film without music.")
SILENT = gettext_noop("There is no sound in the music file “%(name)s”: %(advice)s")
GONE = gettext_noop("The music file “%(name)s” is gone: %(advice)s")
UNKNOWN = gettext_noop("“%(name)s” is not a music file we know: %(advice)s")
TOO_LARGE = gettext_noop("The music file “%(name)s” is larger than 200 MB: %(advice)s")
DAMAGED = gettext_noop("The music file “%(name)s” is damaged: %(advice)s")

Sound = NDArray[np.float32]


def container_of(head: bytes) -> str | None:
    """FFmpeg's name of the container whose file begins like this; None for everything else."""
    if head.startswith(b"ID3") or (len(head) > 1 and head[0] == 0xFF and head[1] & 0xE6 == 0xE2):
        return "mp3"  # an ID3v2 tag, or the frame sync of MPEG audio layer III
    if head[4:8] == b"ftyp":
        return "mov"
    if head.startswith(b"RIFF") and head[8:12] == b"WAVE":
        return "wav"
    return {b"fLaC": "flac", b"OggS": "ogg"}.get(head[:4])


def problem(music: Music) -> str | None:
    """Why this file cannot be the film's music, as a sentence; None when it can."""
    try:
        next(_decoded(music.path))
    except FilmError as trouble:
        return str(trouble)
    except StopIteration:
        return _said(SILENT, music.path)
    return None


def track(plan: FilmPlan, cache_dir: Path) -> Path | None:
    """The film's sound as a part in the cache, made now if it is not there; None without music."""
    if plan.music is None:
        return None
    path = place(cache_dir, _key(plan, plan.music))
    if not segmentfile.is_whole(path):
        segmentfile.write(path, _encoded(plan.music, samples_of(plan)), ())
    return path


def samples_of(plan: FilmPlan) -> int:
    """The film's length in samples of sound, to the nearest one."""
    return round(total_seconds(plan) * SAMPLE_RATE)


def set_up(context: Any) -> None:
    """Set an AAC context: stereo, 48 kHz."""
    context.sample_rate = SAMPLE_RATE
    context.layout = "stereo"
    context.format = "fltp"
    context.bit_rate = BIT_RATE


def _key(plan: FilmPlan, music: Music) -> str:
    try:
        sound = hashlib.sha256(music.path.read_bytes()).hexdigest()
    except OSError as trouble:
        raise FilmError(_said(GONE, music.path)) from trouble
    fades = [SAMPLE_RATE, BIT_RATE, FADE_IN_SECONDS, FADE_OUT_SECONDS]
    facts = json.dumps(["music", sound, samples_of(plan), fades, libraries()])
    return hashlib.sha256(facts.encode()).hexdigest()


def _encoded(music: Music, samples: int) -> Encoded:
    context: Any = av.CodecContext.create("aac", "w")
    set_up(context)
    context.flags |= GLOBAL_HEADER
    packets: list[Packet] = []
    done = 0
    for sound in _blocks(_as_long_as(music.path, samples), 1024):
        frame = av.AudioFrame.from_ndarray(_faded(sound, done, samples), "fltp", "stereo")
        frame.sample_rate, frame.pts = SAMPLE_RATE, done
        packets += [Packet(bytes(p), p.pts, p.dts, True) for p in context.encode(frame)]
        done += sound.shape[1]
    packets += [Packet(bytes(p), p.pts, p.dts, True) for p in context.encode(None)]
    return Encoded(bytes(context.extradata), tuple(packets))


def _faded(sound: Sound, begins: int, samples: int) -> Sound:
    at = np.arange(begins, begins + sound.shape[1], dtype=np.float32)
    rising = at / (FADE_IN_SECONDS * SAMPLE_RATE)
    falling = (samples - at) / (FADE_OUT_SECONDS * SAMPLE_RATE)
    loudness = np.clip(np.minimum(rising, falling), 0, 1)
    return np.ascontiguousarray(sound * loudness, np.float32)


def _as_long_as(path: Path, samples: int) -> Iterator[Sound]:
    """The music from its beginning, again and again, until `samples` are reached."""
    left = samples
    while left:
        before = left
        for sound in _decoded(path):
            yield sound[:, :left]
            left = max(0, left - sound.shape[1])
            if not left:
                return
        if left == before:
            raise FilmError(_said(SILENT, path))


def _blocks(sounds: Iterator[Sound], length: int) -> Iterator[Sound]:
    """The same sound in blocks of `length` samples, as the encoder wants them; the last shorter."""
    held = np.empty((2, 0), np.float32)
    for sound in sounds:
        held = np.concatenate([held, sound], axis=1)
        whole = held.shape[1] - held.shape[1] % length
        for at in range(0, whole, length):
            yield held[:, at : at + length]
        held = held[:, whole:]
    if held.shape[1]:
        yield held


def _decoded(path: Path) -> Iterator[Sound]:
    """The file's sound, stereo at 48 kHz; refuses, as FilmError, what is no music file."""
    try:
        with path.open("rb") as file:
            container = container_of(file.read(HEAD_BYTES))
            if container is None:
                raise FilmError(_said(UNKNOWN, path))
            if path.stat().st_size > LARGEST_BYTES:
                raise FilmError(_said(TOO_LARGE, path))
            file.seek(0)
            yield from _sounds(file, container)
    except (FilmError, Cancelled):
        raise
    except FileNotFoundError as trouble:
        raise FilmError(_said(GONE, path)) from trouble
    except (av.FFmpegError, OSError, ValueError, IndexError) as trouble:
        raise FilmError(_said(DAMAGED, path)) from trouble


def _sounds(file: Any, container: str) -> Iterator[Sound]:
    # Handed over as an open file and with no protocol allowed, so that nothing inside it can make
    # FFmpeg open another one.
    options = {"protocol_whitelist": "none", "enable_drefs": "0"}
    only = options if container == "mov" else {"protocol_whitelist": "none"}
    with av.open(file, format=container, options=only) as opened:
        resampler = av.AudioResampler(format="fltp", layout="stereo", rate=SAMPLE_RATE)
        stream = opened.streams.audio[0]
        for frame in opened.decode(stream):
            for part in resampler.resample(frame):
                yield np.asarray(part.to_ndarray(), np.float32)
        for part in resampler.resample(None):
            yield np.asarray(part.to_ndarray(), np.float32)


def _said(words: str, path: Path) -> str:
    return _(words) % {"name": path.name, "advice": _(ADVICE)}
