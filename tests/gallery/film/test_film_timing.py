"""When slides come and go: whole frames, worked by hand."""

import itertools
from dataclasses import replace
from fractions import Fraction

import pytest

from gallery.album.film.motion import motion_of
from gallery.album.film.timing import (
    caption_frames,
    short_time,
    shots,
    time_code,
    total_frames,
    total_seconds,
)


def test_slides_follow_one_another_and_the_film_ends_with_a_fade(plan):
    # Two slides of 1 s at 30 frames, then 0.3 s to dark: 30 + 30 + 9.
    assert [(s.start, s.in_frames, s.hold_frames) for s in shots(plan)] == [(0, 9, 21), (30, 9, 21)]
    assert total_frames(plan) == 69


def test_the_length_in_seconds_is_exact(plan):
    assert total_seconds(plan) == Fraction(69, 30)


def test_a_film_without_slides_has_no_frames(plan):
    assert total_frames(replace(plan, slides=())) == 0


def test_one_caption_has_gone_when_the_next_begins(four):
    times = [caption_frames(shot) for shot in shots(four)]
    assert all(one[1] <= following[0] for one, following in itertools.pairwise(times))


@pytest.mark.parametrize(
    ("frame", "fps", "code"),
    [
        (0, 30, "00:00:00.000"),
        (1, 30, "00:00:00.033"),
        (45, 30, "00:00:01.500"),
        (108_000, 30, "01:00:00.000"),
        (1, 24, "00:00:00.042"),
    ],
)
def test_a_time_code_comes_from_the_frame_number(frame, fps, code):
    assert time_code(frame, fps) == code


@pytest.mark.parametrize(("frame", "text"), [(0, "0:00"), (2250, "1:15"), (109_800, "1:01:00")])
def test_a_short_time_is_what_a_description_wants(frame, text):
    assert short_time(frame, 30) == text


def test_movement_stays_within_a_tenth(slide):
    for seed in range(12):
        motion = motion_of(slide(seed), 320, 180, (0.5, 0.5))
        assert 1 <= min(motion.begin, motion.end) < max(motion.begin, motion.end) <= 1.10


def test_movement_belongs_to_the_photo_not_to_its_place(slide):
    one, again = slide(5), slide(5, ref="elsewhere", caption="other words")
    assert motion_of(one, 320, 180, (0.2, 0.9)) == motion_of(again, 320, 180, (0.2, 0.9))
