"""Yarn-weight categories of the Craft Yarn Council's Standard Yarn Weight System."""

import doctest
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from alterations import categories
from alterations.categories import (
    CATEGORIES,
    CREDIT,
    categories_of,
    categories_of_stitches,
    category,
)
from alterations.errors import GaugeError
from alterations.gauge import Gauge


def gauge(stitches: str, basis: str = "10cm") -> Gauge:
    return Gauge(Fraction(stitches), Fraction(stitches) * Fraction(4, 3), basis)  # type: ignore[arg-type]


# T2.1: 22 · 1.016 = 22.352, to the whole 22.
def test_t2_1_22_stitches_in_ten_centimetres_are_light() -> None:
    assert categories_of(gauge("22")) == {3}


# T2.2: the published ranges 23–26 and 21–24 overlap.
def test_t2_2_24_stitches_in_four_inches_are_fine_and_light() -> None:
    assert categories_of_stitches(24) == {2, 3} == categories_of(gauge("24", "4in"))


# T2.3: 20.4 · 1.016 = 20.726, to the whole 21; unconverted it would be 20 and Medium.
def test_t2_3_ten_centimetres_are_converted_before_rounding() -> None:
    assert categories_of(gauge("20.4")) == {3}
    assert categories_of_stitches(Fraction("20.4")) == {4}


def test_a_nominal_gauge_is_not_converted() -> None:
    assert categories_of(gauge("20.4", "nominal")) == {4}


# Lower and upper end of every published range.
ENDS = [(1, {7}), (6, {7}), (7, {6}), (11, {6}), (12, {5}), (15, {5}), (16, {4}), (20, {4})]
ENDS += [(21, {3}), (22, {3}), (23, {2, 3}), (25, {2}), (26, {2}), (27, {1}), (32, {1})]
ENDS += [(33, {0}), (40, {0}), (41, {0}), (90, {0})]


@pytest.mark.parametrize(("stitches", "found"), ENDS)
def test_every_published_range_holds_its_ends(stitches: int, found: set[int]) -> None:
    assert categories_of_stitches(stitches) == found


@given(st.fractions(min_value=0, max_value=200).filter(lambda value: value > 0))
def test_no_gauge_falls_between_two_categories(stitches: Fraction) -> None:
    assert categories_of_stitches(stitches)


@pytest.mark.parametrize("stitches", [0, -3])
def test_no_stitches_at_all_are_refused(stitches: int) -> None:
    with pytest.raises(GaugeError, match="above zero"):
        categories_of_stitches(stitches)


def test_the_rows_stand_in_their_published_order() -> None:
    names = "Lace,Super fine,Fine,Light,Medium,Bulky,Super bulky,Jumbo"
    assert ",".join(row.name for row in CATEGORIES) == names
    assert [row.number for row in CATEGORIES] == list(range(8))


# As published: needles 3.75–4.5 mm, US 5–7, 11–15 wraps; jumbo is open above.
def test_a_row_holds_its_published_needles_and_wraps() -> None:
    light, jumbo = category(3), category(7)
    assert (light.needle_from_mm, light.needle_to_mm) == (Fraction("3.75"), Fraction("4.5"))
    assert (light.us_needles, light.wraps_per_inch) == ("5–7", "11–15")
    assert (jumbo.needle_to_mm, jumbo.stitches) == (None, "6 and fewer")


# Needles of neighbours meet; the Council's list has no gap between 1.5 and 12.75 mm.
def test_the_needles_of_neighbouring_rows_meet() -> None:
    for finer, thicker in pairwise(CATEGORIES):
        assert finer.needle_to_mm == thicker.needle_from_mm


@pytest.mark.parametrize("number", [-1, 8])
def test_another_category_is_refused(number: int) -> None:
    with pytest.raises(GaugeError, match="from 0 to 7"):
        category(number)


def test_the_council_gets_the_credit_line_it_asks_for() -> None:
    assert CREDIT == "Source: Craft Yarn Council's www.YarnStandards.com"


def test_the_worked_examples_hold() -> None:
    assert doctest.testmod(categories).failed == 0
