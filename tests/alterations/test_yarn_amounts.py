"""Metres, balls and grams. Munden's constants are from memory and unverified (J. Text. Inst. 50,
1959); the vectors prove the arithmetic, not the constants."""

from fractions import Fraction

import pytest

from alterations.errors import UnitError
from alterations.gauge import Gauge
from alterations.rounding import Exact, round_half_up
from alterations.yarn import (
    balls_of,
    calibration,
    fabric_mass,
    grams_of,
    loop_for_tightness,
    loop_length_cm,
    metres_of,
    swapped_metres,
    swatch_loop_cm,
    tex_of_ball,
    tightness,
)


def decimals(value: Exact, places: int) -> Fraction:
    return Fraction(round_half_up(value * 10**places), 10**places)


def gauge(stitches: int, rows: int) -> Gauge:
    return Gauge(Fraction(stitches), Fraction(rows))


# l = sqrt(ks / S): S = 6.6, ks 21.6 / 19 / 23.1.
@pytest.mark.parametrize(("state", "loop"), [("wet", "1.809"), ("dry", "1.697"), ("full", "1.871")])
def test_the_loop_length_follows_munden(state: str, loop: str) -> None:
    assert decimals(loop_length_cm(gauge(22, 30), state), 3) == Fraction(loop)  # type: ignore[arg-type]


# 110 × 190 = 20 900 stitches of 1.809 cm; 400 tex.
def test_a_panel_takes_its_stitches_times_the_loop_length() -> None:
    loop = loop_length_cm(gauge(22, 30))
    metres = metres_of(110 * 190, loop)
    found = decimals(metres, 1), decimals(grams_of(metres, 400), 1)
    assert found == (Fraction("378.1"), Fraction("151.2"))


def test_a_fabric_weighs_its_density_times_loop_times_tex() -> None:
    loop = loop_length_cm(gauge(22, 30))
    found = decimals(fabric_mass(gauge(22, 30), loop, 400), 1), decimals(tightness(400, loop), 2)
    assert found == (Fraction("477.6"), Fraction("11.06"))


# 152 × 260 = 39 520 stitches; l = sqrt(21.6 / 11.2) = 1.389 cm; 225 tex.
def test_a_finer_panel_agrees_too() -> None:
    loop = loop_length_cm(gauge(28, 40))
    metres = metres_of(152 * 260, loop)
    assert (decimals(metres, 1), decimals(tightness(225, loop), 2)) == (
        Fraction("548.8"),
        Fraction("10.8"),
    )


# sqrt(63.272) / 14 = 0.568.
def test_a_wanted_tightness_gives_a_loop_length() -> None:
    assert decimals(loop_for_tightness(Fraction("63.272"), 14), 3) == Fraction("0.568")


# 40 × 60 stitches, 18.2 g at 416.667 tex: 43.68 m / 2400 = 1.820 cm.
def test_a_weighed_swatch_tells_the_loop_length() -> None:
    loop = swatch_loop_cm(Fraction("18.2"), tex_of_ball(50, 120), 2400)
    assert decimals(loop, 3) == Fraction("1.82")


# 1200 · sqrt(4.94 / 5.88) = 1099.9.
def test_larger_stitches_of_the_same_garment_take_less_yarn() -> None:
    found = swapped_metres(1200, gauge(21, 28), gauge(19, 26))
    assert decimals(found, 1) == Fraction("1099.9")


# 1200 / 95 = 12.63; 2 · 1200 / 350 = 6.86; 1000 · 1.1 / 120 = 9.17.
def test_balls_are_bought_whole() -> None:
    assert (balls_of(1200, 95), balls_of(2400, 350), balls_of(1000, 120, 10)) == (13, 7, 10)


@pytest.mark.parametrize("ball", [0, -50])
def test_an_empty_ball_is_refused(ball: int) -> None:
    with pytest.raises(UnitError):
        balls_of(1200, ball)


# 1.08 · 1108.1 = 1196.7, up to ten 1200: the allowance itself, rounding up is not scaled.
def test_the_published_amount_gives_the_allowance_where_it_only_rounds_up() -> None:
    assert calibration(1200, Fraction("1108.1"), Fraction(8)) == Fraction("1.08")


# 1300 / 1100: a designer's own tension is kept.
def test_another_published_amount_keeps_its_own_ratio() -> None:
    assert calibration(1300, Fraction(1100), Fraction(8)) == Fraction(13, 11)
