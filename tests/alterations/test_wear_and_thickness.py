"""How a garment behaved in numbers, and how thick a yarn usually knits."""

from fractions import Fraction

import pytest

from alterations.errors import UnitError
from alterations.thickness import metres_in_100_g, usual_categories
from alterations.units import parse_length
from alterations.wear import Measured, Wear


def measured(before: str, after: str) -> Measured:
    return Measured(parse_length(before), parse_length(after))


# Dimensional change as in ISO 5077: (after - before) / before x 100; negative is shrinkage.
@pytest.mark.parametrize(
    ("before", "after", "percent", "cm"),
    [
        ("60 cm", "57 cm", "-5", "-3"),
        ("100", "103", "3", "3"),
        ("40 in", "41 in", "5/2", "2.54"),
        ("10 in", "25.4 cm", "0", "0"),
    ],
)
def test_growing_and_shrinking_are_counted_from_the_measure_before(
    before: str, after: str, percent: str, cm: str
) -> None:
    found = measured(before, after)
    assert (found.percent, found.change_cm) == (Fraction(percent), Fraction(cm))


@pytest.mark.parametrize(
    ("after", "plausible"), [("30", True), ("29.9", False), ("120", True), ("120.1", False)]
)
def test_less_than_half_and_more_than_double_are_hardly_true(after: str, plausible: bool) -> None:
    assert measured("60", after).is_plausible is plausible


@pytest.mark.parametrize("length", ["0", "-5", "14 rows"])
def test_a_garment_measures_something_in_cm_or_inches(length: str) -> None:
    with pytest.raises(UnitError):
        measured("60", length)


def test_what_was_not_told_tells_nothing() -> None:
    assert not Wear().tells
    assert Wear(pilled="not").tells


# 100 000 / tex; a ball of 50 g with 120 m is 416.667 tex.
def test_metres_in_100_g_follow_from_the_tex() -> None:
    assert metres_in_100_g(Fraction(1250, 3)) == 240


# Usual balls of the trade (common practice): 800 m lace, 400 m sock, 333 m sport, 240 m DK,
# 200 m worsted, 120 m chunky, 60 m super bulky in 100 g.
@pytest.mark.parametrize(
    ("metres", "category"), [(800, 0), (400, 1), (333, 2), (240, 3), (200, 4), (120, 5), (60, 6)]
)
def test_metres_in_100_g_tell_the_category_a_yarn_usually_has(metres: int, category: int) -> None:
    assert usual_categories(Fraction(100_000, metres)) == {category}
