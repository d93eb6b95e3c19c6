"""Gauges: over what they were counted, and what they become."""

from fractions import Fraction

import pytest

from alterations.errors import GaugeError
from alterations.gauge import Gauge, from_swatch, washed
from alterations.rounding import nearest_even, round_half_up


# 10 · 40 / 18.2 = 21.98; 10 · 60 / 20.4 = 29.41; one decimal is kept.
def test_a_swatch_gives_its_gauge_to_one_decimal() -> None:
    found = from_swatch(40, Fraction("18.2")), from_swatch(60, Fraction("20.4"))
    assert found == (Fraction(22), Fraction("29.4"))


# 22 / 10.16 cm · 10 = 21.654.
def test_four_inches_are_a_little_more_than_ten_centimetres() -> None:
    gauge = Gauge(Fraction(22), Fraction(28), "4in")
    assert round_half_up(gauge.stitches_per_cm * 10_000) == 21654


def test_a_nominal_gauge_is_not_converted() -> None:
    nominal = Gauge(Fraction(22), Fraction(28), "nominal")
    assert nominal.same_fabric(Gauge(Fraction(22), Fraction(28)))


# 28 / 0.95 = 29.474; 60 cm finished · 2.9474 = 176.84, even 176.
def test_a_fabric_that_shrinks_has_more_rows_afterwards() -> None:
    rows = washed(28, -5)
    assert (round_half_up(rows * 1000), nearest_even(rows * 6)) == (29474, 176)


def test_a_fabric_cannot_shrink_to_nothing() -> None:
    with pytest.raises(GaugeError):
        washed(28, -100)


@pytest.mark.parametrize(("stitches", "rows"), [(0, 28), (21, -1), (201, 28), (21, 1)])
def test_a_gauge_no_fabric_has_is_refused(stitches: int, rows: int) -> None:
    with pytest.raises(GaugeError, match="cannot be right"):
        Gauge(Fraction(stitches), Fraction(rows))
