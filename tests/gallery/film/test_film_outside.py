"""The film read by ffprobe, a program from outside."""

import json
import os
import shutil
import subprocess
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from gallery.album.film.render import render

pytestmark = pytest.mark.outside


@pytest.fixture
def probe():
    """Ask ffprobe for everything it knows, frames counted."""
    if not shutil.which("ffprobe"):
        if os.environ.get("GALLERY_TESTS_NO_SKIPS") == "1":
            pytest.fail("ffprobe is missing: install the Debian package ffmpeg")
        pytest.skip("ffprobe is missing: install the Debian package ffmpeg")

    def ask(path: Path) -> dict[str, Any]:
        asked = ["ffprobe", "-v", "error", "-count_frames", "-show_streams", "-show_format"]
        told = subprocess.run([*asked, "-of", "json", path], capture_output=True, check=True)
        assert told.stderr == b""
        return json.loads(told.stdout)

    return ask


def test_ffprobe_reads_the_film_as_it_was_planned(four, cache, tmp_path, probe):
    [stream] = probe(render(four, cache, tmp_path / "film.mp4").path)["streams"]
    expected = {
        "codec_name": "h264",
        "profile": "High",
        "pix_fmt": "yuv420p",
        "color_range": "tv",
        "color_space": "bt709",
        "color_transfer": "bt709",
        "color_primaries": "bt709",
        "r_frame_rate": "30/1",
        "avg_frame_rate": "30/1",
        "nb_read_frames": "129",
        "width": 320,
        "height": 180,
    }
    assert {name: stream[name] for name in expected} == expected


def test_ffprobe_finds_the_planned_duration(four, cache, tmp_path, probe):
    told = probe(render(four, cache, tmp_path / "film.mp4").path)["format"]
    assert float(told["duration"]) == pytest.approx(129 / 30, abs=1 / 30)


@pytest.mark.parametrize("fps", [24, 25, 50, 60])
def test_ffprobe_finds_every_frame_rate(plan, cache, tmp_path, probe, fps):
    film = render(replace(plan, fps=fps), cache, tmp_path / "film.mp4")
    [stream] = probe(film.path)["streams"]
    assert stream["r_frame_rate"] == f"{fps}/1"
    assert stream["nb_read_frames"] == str(film.frames)
