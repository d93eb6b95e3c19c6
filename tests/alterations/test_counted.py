"""What was counted over a length, as a gauge; 10 cm and 4 inches told apart."""

from fractions import Fraction

import pytest

from alterations.counted import FOUR_IN, TEN_CM, Counted, per_ten_cm
from alterations.errors import GaugeError
from alterations.gauge import Gauge
from alterations.units import Length, parse_length

PATTERN = Gauge(Fraction(22), Fraction(30))


def over_both(stitches: str, rows: str, length: Length) -> Counted:
    return Counted(Fraction(stitches), length, Fraction(rows), length)


# Worked example of the trade's rule 10 x count / measured cm, kept to one decimal:
# 40 st over 18.2 cm are 21.98 -> 22.0, 60 rows over 20.4 cm are 29.41 -> 29.4.
def test_a_count_over_the_swatch_s_own_width_is_kept_to_one_decimal() -> None:
    counted = Counted(Fraction(40), parse_length("18,2 cm"), Fraction(60), parse_length("20.4"))
    assert (counted.gauge.stitches, counted.gauge.rows) == (22, Fraction("29.4"))


# 4 in are exactly 10.16 cm: 22 / 1.016 = 21.6535...
def test_a_count_over_four_inches_is_converted_exactly() -> None:
    assert per_ten_cm(Fraction(22), FOUR_IN) == Fraction("21.654")


def test_a_count_over_ten_centimetres_is_the_gauge_itself() -> None:
    assert per_ten_cm(Fraction("28.5"), TEN_CM) == Fraction("28.5")


# 22 and 30 over 4 in are 21.65 and 29.53 in 10 cm, 1.6 % off; over 10 cm they are the pattern's.
def test_the_pattern_s_own_figures_over_four_inches_are_asked_about() -> None:
    meant = over_both("22", "30", FOUR_IN).meant_otherwise(PATTERN)
    assert meant is not None
    assert (meant.over, meant.gauge) == (TEN_CM, PATTERN)


# 22.35 and 30.5 over 10 cm are 22.0 and 30.0 over 4 in.
def test_figures_over_ten_centimetres_that_fit_four_inches_are_asked_about() -> None:
    meant = over_both("22.4", "30.5", TEN_CM).meant_otherwise(PATTERN)
    assert meant is not None and meant.over == FOUR_IN


@pytest.mark.parametrize(
    ("stitches", "rows", "length"),
    [
        ("22", "30", "10 cm"),  # just as the pattern
        ("20", "27", "10 cm"),  # another gauge, whatever the length
        ("22", "33", "4 in"),  # the rows fit no better over the other length
        ("40", "60", "18.2 cm"),  # no standard length
    ],
)
def test_nothing_is_asked_where_the_other_length_fits_no_better(
    stitches: str, rows: str, length: str
) -> None:
    assert over_both(stitches, rows, parse_length(length)).meant_otherwise(PATTERN) is None


@pytest.mark.parametrize("length", ["0", "14 rows"])
def test_a_length_of_nothing_or_in_rows_is_refused(length: str) -> None:
    with pytest.raises(GaugeError, match="centimetres or inches"):
        per_ten_cm(Fraction(20), parse_length(length))
