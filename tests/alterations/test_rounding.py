"""Rounding: every count comes from whole numbers and fractions, ties always upwards."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from alterations.errors import ShapingError
from alterations.rounding import (
    nearest_even,
    round_half_up,
    snap_down,
    square_root,
    up_to_ten,
)


# Worked by hand: floor(x + 1/2).
@pytest.mark.parametrize(("value", "count"), [("5/2", 3), ("-1/2", 0), ("-3/2", -1), ("7/3", 2)])
def test_halves_are_rounded_up(value: str, count: int) -> None:
    assert round_half_up(Fraction(value)) == count


# 2·RHU(x/2); 22.5 cm × 2.8 rows/cm is exactly 63, whose tie goes up.
@pytest.mark.parametrize(("value", "count"), [("63", 64), ("62.9", 62), ("103.6", 104)])
def test_the_nearest_even_number_has_its_ties_upwards(value: str, count: int) -> None:
    assert nearest_even(Fraction(value)) == count


def test_the_tie_of_22_5_cm_at_28_rows_is_not_lost() -> None:
    assert nearest_even(Fraction("22.5") * Fraction(28, 10)) == 64


@pytest.mark.parametrize("value", [2.5, True, "3"])
def test_a_float_is_never_rounded_to_a_count(value: object) -> None:
    with pytest.raises(TypeError):
        round_half_up(value)  # type: ignore[arg-type]


# Half chests in inches at 4 stitches to the inch, two seam stitches, K2P1: target, cast-on.
# Check values of the trade (common practice): 94 from 92, 102 from 101, 110 from 110.
CHESTS = [
    (17, 70, 68),
    (18, 74, 74),
    (19, 78, 77),
    (20, 82, 80),
    (21, 86, 86),
    (22, 90, 89),
    (23, 94, 92),
    (24, 98, 98),
    (25, 102, 101),
    (26, 106, 104),
    (27, 110, 110),
]


@pytest.mark.parametrize(("half", "target", "cast_on"), CHESTS)
def test_a_k2p1_edge_is_cast_on_below_the_target(half: int, target: int, cast_on: int) -> None:
    assert (4 * half + 2, snap_down(4 * half + 2, 3, 2)) == (target, cast_on)


def test_a_k2p2_edge_leaves_a_remainder_of_two() -> None:
    assert (snap_down(111, 4, 2), snap_down(110, 4, 2)) == (110, 110)


def test_an_edge_that_leaves_no_stitch_is_refused() -> None:
    with pytest.raises(ShapingError, match="too few"):
        snap_down(1, 3, 2)


@given(st.integers(12, 3000), st.integers(1, 12), st.integers(0, 11))
def test_a_snapped_count_is_never_above_its_target(target: int, multiple: int, rest: int) -> None:
    count = snap_down(target, multiple, rest % multiple)
    assert 0 <= target - count < multiple and count % multiple == rest % multiple


def test_metres_go_up_to_the_next_ten() -> None:
    assert (up_to_ten(1197), up_to_ten(1200), up_to_ten(Fraction("1200.1"))) == (1200, 1200, 1210)


def test_a_square_root_is_exact_where_it_can_be() -> None:
    assert square_root(Fraction(9, 4)) == Fraction(3, 2)
