"""What must follow what: sleeve tops, notches, bands, and the order of following."""

from dataclasses import replace
from fractions import Fraction

import pytest

from alterations.errors import PatternError
from alterations.follows import in_order, neck_edge_cm, notch_rows, sleeve_top
from alterations.gauge import Gauge
from alterations.pattern import Follow, Pattern
from alterations.rounding import to_step

TUNIC_GAUGE = Gauge(Fraction(21), Fraction(28))


# EVEN(112 · 2.1 / 2.8 + 2) = EVEN(86).
def test_a_square_set_sleeve_is_as_wide_as_both_armholes() -> None:
    assert sleeve_top(56 + 56, TUNIC_GAUGE) == 86


# (12 − 1) / 2.1 · 2.8 = 14.67 → 14.
def test_the_straight_rows_are_as_long_as_the_notch() -> None:
    assert notch_rows(12, TUNIC_GAUGE) == 14


# Size 3: 34/2 stitches are 8.095 cm; slopes of 6, 2 and 1 stitches over 2 rows 2.945, 1.190 and
# 0.858 cm; then 6 of the 12 rows straight, 2.143 cm: 15.231 cm.
def test_the_neck_edge_is_a_line_over_its_bind_offs(tunic: Pattern) -> None:
    size = tunic.size("3")
    neck, shoulders = (size.piece("front").section(key) for key in ("neck", "shoulders"))
    found = neck_edge_cm(neck, shoulders, tunic.gauge)
    assert to_step(found, Fraction(1, 100)) == Fraction("15.23")


def test_what_follows_comes_after_what_it_follows(tunic: Pattern) -> None:
    order = [follow.what for follow in in_order(tunic)]
    before = [order.index(what) for what in ("front.armhole.rows", "front.neck.stitches")]
    after = [order.index(what) for what in ("sleeve.taper.stitches", "neckband.band.stitches")]
    assert before < after


def test_a_loop_is_refused_and_named(tunic: Pattern) -> None:
    loop = (
        Follow("front.body.rows", "same", ("back.body.rows",)),
        Follow("back.body.rows", "same", ("front.body.rows",)),
    )
    with pytest.raises(PatternError, match=r"loop: .*back\.body\.rows"):
        in_order(replace(tunic, follows=loop))
