"""Where a render stands, in words; the times are chosen, nothing waits."""

import datetime

import pytest
from django.utils import timezone

from gallery.album.models import Render
from gallery.album.state import in_words, seconds_left, standing_of


def ago(**time: int) -> datetime.datetime:
    return timezone.now() - datetime.timedelta(**time)


def making(**facts) -> Render:
    usual = {"requested_at": ago(minutes=2), "started_at": ago(minutes=1), "parts_total": 30}
    return Render(**{**usual, **facts})


def test_a_render_nobody_began_waits_for_its_turn():
    wish = Render(requested_at=timezone.now())
    assert standing_of(wish).words == "Waiting for its turn."


def test_the_time_left_counts_only_parts_made_in_this_run():
    # 5 of 10 parts were there already; 5 made in 60 s, so 15 more take 180 s
    wish = making(touched_at=timezone.now(), parts_found=5, parts_done=10, parts_total=25)
    assert seconds_left(wish) == pytest.approx(180, abs=1)
    assert standing_of(wish).words == "Part 10 of 25, about 3 min to go"


def test_without_a_part_made_no_time_is_promised():
    wish = making(touched_at=timezone.now(), parts_found=5, parts_done=5)
    assert seconds_left(wish) is None


def test_once_all_parts_are_there_the_film_is_joined():
    wish = making(touched_at=timezone.now(), parts_done=30)
    assert "joined and read back" in standing_of(wish).words


def test_a_render_that_stands_still_says_that_it_goes_on_by_itself():
    wish = making(touched_at=ago(seconds=50), parts_done=12)
    assert "taken up again by itself" in standing_of(wish).words


def test_a_render_silent_for_minutes_may_be_taken_up_by_hand():
    standing = standing_of(making(touched_at=ago(minutes=5), parts_done=12))
    assert (standing.is_going_on, standing.may_go_on) == (True, True)


def test_a_stopped_render_may_go_on():
    standing = standing_of(making(cancelled_at=timezone.now()))
    assert (standing.is_going_on, standing.may_go_on) == (False, True)


@pytest.mark.parametrize(
    ("seconds", "words"), [(20, "less than a minute to go"), (200, "about 3 min to go")]
)
def test_time_is_told_in_words(seconds, words):
    assert in_words(seconds) == words
