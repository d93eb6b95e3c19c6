"""The film's music: which files are taken, how long it plays, how it fades."""

import wave
from dataclasses import replace
from pathlib import Path

import av
import numpy as np
import pytest

from gallery.album.film import music
from gallery.album.film.check import problems
from gallery.album.film.plan import Music
from gallery.album.film.render import render
from gallery.album.film.verify import verify

RATE = 48_000
KINDS = {
    "mp3": ("mp3", "libmp3lame"),
    "m4a": ("ipod", "aac"),
    "flac": ("flac", "flac"),
    "ogg": ("ogg", "libopus"),
}


def hum(seconds: float) -> np.ndarray:
    tone = np.sin(2 * np.pi * 440 * np.arange(round(seconds * RATE)) / RATE) * 0.5
    return np.stack([tone, tone])


def wav(path: Path, seconds: float) -> Path:
    with wave.open(str(path), "wb") as file:
        file.setnchannels(2)
        file.setsampwidth(2)
        file.setframerate(RATE)
        file.writeframes((hum(seconds).T * 32767).astype("<i2").tobytes())
    return path


def packed(path: Path, container: str, codec: str) -> Path:
    with av.open(str(path), "w", format=container) as out:
        stream = out.add_stream(codec, rate=RATE, layout="stereo")
        sound = av.AudioFrame.from_ndarray(hum(1).astype(np.float32), "fltp", "stereo")
        sound.sample_rate = RATE
        resampler = av.AudioResampler(stream.codec_context.format, "stereo", RATE)
        for part in resampler.resample(sound):
            out.mux(stream.encode(part))
        out.mux(stream.encode(None))
    return path


def heard(path: Path) -> np.ndarray:
    with av.open(str(path)) as container:
        return np.concatenate([f.to_ndarray() for f in container.decode(audio=0)], axis=1)


@pytest.mark.parametrize("seconds", [0.4, 2.3, 9.0])
def test_music_is_looped_or_cut_to_the_film(plan, cache, tmp_path, seconds):
    with_music = replace(plan, music=Music(wav(tmp_path / "m.wav", seconds)))
    film = render(with_music, cache, tmp_path / "film.mp4")
    assert verify(film.path, with_music) == []
    # 69 frames of 1600 samples; an AAC packet of 1024 may stand over at the end.
    assert 0 <= heard(film.path).shape[1] - 69 * 1600 <= 2048


def test_music_comes_in_and_goes_out_softly(plan, cache, tmp_path):
    with_music = replace(plan, music=Music(wav(tmp_path / "m.wav", 5)))
    sound = np.abs(heard(render(with_music, cache, tmp_path / "film.mp4").path)[0])
    edge = RATE // 50
    assert sound[:edge].max() < 0.1 * sound.max()
    assert sound[69 * 1600 - edge : 69 * 1600].max() < 0.1 * sound.max()


@pytest.mark.parametrize("kind", KINDS)
def test_the_usual_kinds_of_file_are_taken(tmp_path, kind):
    assert music.problem(Music(packed(tmp_path / f"m.{kind}", *KINDS[kind]))) is None


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"#EXTM3U\n#EXTINF:1,\nfile:///etc/hostname\n",
        b"ffconcat version 1.0\nfile other.mp3\n",
        b"<?xml version='1.0'?><MPD></MPD>",
        b"ID3" + b"\x00" * 500,
        b"RIFF\x10\x00\x00\x00WAVEfmt broken",
        b"\x00\x00\x00\x18ftypM4A " + b"\x01" * 300,
        b"OggS" + b"\xff" * 300,
        b"fLaC" + b"\x00" * 100,
    ],
)
def test_what_is_no_music_is_refused_in_a_sentence(plan, tmp_path, content):
    path = tmp_path / "song.mp3"
    path.write_bytes(content)
    found = problems(replace(plan, music=Music(path)))
    assert len(found) == 1
    assert "“song.mp3”" in found[0]
    assert found[0].endswith("make the film without music.")


def test_a_music_file_that_is_gone_is_told(plan, tmp_path):
    assert "is gone" in problems(replace(plan, music=Music(tmp_path / "away.mp3")))[0]


def test_other_music_makes_no_picture_again(plan, cache, tmp_path):
    render(plan, cache, tmp_path / "film.mp4")
    steps = []
    with_music = replace(plan, music=Music(wav(tmp_path / "m.wav", 1)))
    render(with_music, cache, tmp_path / "b.mp4", progress=lambda *step: steps.append(step))
    assert steps == [(5, 5)]
