"""Spreading shaping: the trade's method, on any row and on double rows."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from alterations.errors import ShapingError
from alterations.shaping import (
    Run,
    carriage_rows,
    decreases_across,
    event_rows,
    held_groups,
    neck_curve,
    spread_any_row,
    spread_even_rows,
    stitches_at_once,
)

# rows, events, runs as (every, times): q = n div k, r = n mod k, worked by hand.
ANY_ROW = [(50, 9, [(5, 4), (6, 5)]), (40, 7, [(5, 2), (6, 5)]), (30, 30, [(1, 30)])]
EVEN_ROWS = [
    (50, 9, [(4, 2), (6, 7)]),
    (100, 14, [(6, 6), (8, 8)]),
    (56, 12, [(4, 8), (6, 4)]),
]


@pytest.mark.parametrize(("rows", "events", "runs"), ANY_ROW)
def test_any_row_may_be_shaped(rows: int, events: int, runs: list[tuple[int, int]]) -> None:
    assert spread_any_row(rows, events).runs == tuple(Run(*run) for run in runs)


@pytest.mark.parametrize(("rows", "events", "runs"), EVEN_ROWS)
def test_double_rows_are_shaped(rows: int, events: int, runs: list[tuple[int, int]]) -> None:
    assert spread_even_rows(rows, events).runs == tuple(Run(*run) for run in runs)


def test_the_straightest_line_has_the_same_intervals_interleaved() -> None:
    assert event_rows(50, 9) == (5, 11, 16, 22, 27, 33, 38, 44, 50)


def test_nothing_to_shape_is_plain_rows() -> None:
    assert str(spread_even_rows(30, 0)) == "30 plain rows"


# 54 to 86 over 108 rows, 6 plain: 6·(54+56+…+78) + 8·(80+82+84) + 6·86 = 5148 + 1968 + 516.
def test_a_sleeve_counts_every_stitch_it_has() -> None:
    schedule = spread_even_rows(108, 16, plain_end=6)
    assert (str(schedule), schedule.stitches(54, 2)) == (
        "every 6 rows 13 times, then every 8 rows 3 times, then 6 plain rows",
        7632,
    )


@pytest.mark.parametrize(("rows", "events"), [(50, 60), (50, 26), (0, 1)])
def test_more_shapings_than_places_are_refused(rows: int, events: int) -> None:
    with pytest.raises(ShapingError, match="do not fit"):
        spread_even_rows(rows, events)


# 60 over 50: 40 rows take 1, 10 rows take 2.
def test_several_stitches_at_once_add_up() -> None:
    assert stitches_at_once(50, 60) == ((40, 1), (10, 2))


def test_the_carriage_shapes_each_side_on_its_own_row() -> None:
    assert carriage_rows(24, 4) == ((5, 11, 17, 23), (6, 12, 18, 24))


def test_decreases_lie_evenly_across_a_row() -> None:
    gaps = decreases_across(110, 8)
    assert (gaps, sum(gaps) + 8) == ((10, 10, 11, 10, 11, 10, 11, 10, 11), 102)


@pytest.mark.parametrize(
    ("stitches", "groups", "held"), [(31, 5, (7, 6, 6, 6, 6)), (24, 4, (6, 6, 6, 6))]
)
def test_larger_groups_are_held_first(stitches: int, groups: int, held: tuple[int, ...]) -> None:
    assert held_groups(stitches, groups) == held


# X = 26·sqrt(1 − (1 − j/4)²): 17.2, 22.5, 25.2, 26 → 17, 23, 25, 26; twice 17 is the centre.
def test_a_neck_is_a_quarter_of_an_ellipse() -> None:
    assert neck_curve(26, 4) == (17, 6, 2, 1)


@given(st.integers(1, 400), st.integers(0, 400), st.integers(0, 30))
def test_a_schedule_uses_all_its_rows_and_shapings(rows: int, events: int, plain: int) -> None:
    free = rows - min(plain, rows)
    events = min(events, free)
    schedule = spread_any_row(rows, events, min(plain, rows))
    assert (schedule.rows, schedule.events) == (rows, events)


@given(st.integers(2, 400), st.integers(1, 200))
def test_shaping_on_double_rows_falls_on_even_rows_only(rows: int, events: int) -> None:
    schedule = spread_even_rows(rows, min(events, rows // 2))
    assert schedule.rows == rows and not any(every % 2 for every in schedule.intervals)


@given(st.integers(1, 400), st.integers(1, 400))
def test_the_interleaved_line_has_the_same_intervals(rows: int, events: int) -> None:
    events = min(events, rows)
    at = (0, *event_rows(rows, events))
    gaps = sorted(after - before for before, after in pairwise(at))
    assert gaps == sorted(spread_any_row(rows, events).intervals)


@given(st.integers(0, 200), st.integers(1, 20))
def test_neck_and_shoulder_take_every_stitch_larger_ones_first(stitches: int, rows: int) -> None:
    for steps in (neck_curve(stitches, rows), held_groups(stitches, rows)):
        assert sum(steps) == stitches and list(steps) == sorted(steps, reverse=True)
