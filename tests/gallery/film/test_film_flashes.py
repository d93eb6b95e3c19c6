"""Flashing is counted as WCAG 2.2 defines it (2.3.1), and a film that flashes is refused."""

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import av
import numpy as np
import pytest

from gallery.album.film.flashes import COLUMNS, ROWS, FlashMeter
from gallery.album.film.verify import verify

FPS = 24
BLACK, WHITE, GREY, PALE, SNOW = (0,) * 3, (255,) * 3, (90,) * 3, (231,) * 3, (250,) * 3
RED, BLUE = (255, 0, 0), (128, 118, 255)  # of nearly one luminance: 0.213 and 0.227


def frames(one, other, every, share=1.0, seconds=2):
    """Two looks in turn, each for `every` frames; the rest of the picture stays as the first."""
    for number in range(seconds * FPS):
        frame = np.full((ROWS, COLUMNS, 3), one, dtype=np.uint8)
        if number // every % 2:
            frame[:, : round(COLUMNS * share)] = other
        yield frame


def counted(*how, **more):
    meter = FlashMeter(FPS)
    for frame in frames(*how, **more):
        meter.add(frame)
    return meter


def test_four_flashes_a_second_are_too_many_and_three_are_not():
    # every 3 of 24 frames a change: 8 a second, 4 pairs; every 4: 6 a second, 3 pairs
    assert (counted(BLACK, WHITE, 3).worst, counted(BLACK, WHITE, 4).worst) == (4, 3)
    assert counted(BLACK, WHITE, 3).is_too_much
    assert not counted(BLACK, WHITE, 4).is_too_much


def test_a_change_below_a_tenth_or_above_four_fifths_is_no_flash():
    # 90/255 has a luminance of 0.102, 231/255 of 0.799, 250/255 of 0.956, white 1
    assert counted(GREY, BLACK, 3).worst == 4
    assert counted((88,) * 3, BLACK, 3).worst == 0  # 0.098
    assert counted(SNOW, WHITE, 3).worst == 0  # 0.044 apart, and bright
    assert counted((235,) * 3, WHITE, 3).worst == 0  # 0.17 apart, the darker 0.83
    assert counted(PALE, WHITE, 3).worst == 4  # 0.2 apart, the darker below 0.8


def test_a_slow_fall_is_one_change_however_far_it_goes():
    meter = FlashMeter(FPS)
    for level in range(250, 0, -10):
        meter.add(np.full((ROWS, COLUMNS, 3), level, dtype=np.uint8))
    assert meter.worst == 1


def test_less_than_a_quarter_of_a_field_may_flash():
    # a field is 16 places wide: 3 of them are 19 %, 4 are 25 %
    assert counted(BLACK, WHITE, 3, share=3 / COLUMNS).worst == 0
    assert counted(BLACK, WHITE, 3, share=4 / COLUMNS).worst == 4


def test_going_to_and_from_red_flashes_without_any_change_of_luminance():
    assert counted(RED, BLUE, 3).worst == 4
    assert counted((118, 128, 255), BLUE, 3).worst == 0


@pytest.fixture
def clip(tmp_path: Path):
    """A film of the plan's size and length that flashes: black and white, `every` frames."""

    def make(plan, every):
        path = tmp_path / f"clip-{every}.mp4"
        with av.open(str(path), "w", options={"movflags": "faststart"}) as container:
            stream = container.add_stream("libx264", rate=plan.fps)
            stream.width, stream.height, stream.pix_fmt = plan.width, plan.height, "yuv420p"
            stream.codec_context.time_base = Fraction(1, plan.fps)
            for number in range(plan.fps * 2):
                level = 255 * (number // every % 2)
                shade = np.full((plan.height, plan.width, 3), level, dtype=np.uint8)
                container.mux(stream.encode(av.VideoFrame.from_ndarray(shade, "rgb24")))
            container.mux(stream.encode(None))
        return path

    return make


def test_a_flashing_film_is_refused_and_a_calm_one_is_not(plan, clip):
    at_24 = replace(plan, fps=24)
    flashing = [fault for fault in verify(clip(at_24, 3), at_24) if "flashes" in fault]
    assert flashing == ["It flashes 4 times within one second, which can harm people."]
    assert [fault for fault in verify(clip(at_24, 12), at_24) if "flashes" in fault] == []
