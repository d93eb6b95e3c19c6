"""The outline of a piece: its points in cm, and its area by sections and by the shoelace."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from alterations.gauge import Gauge
from alterations.kinds import BodyLength, SleeveLength, YarnSwap
from alterations.panels import panels_of
from alterations.pattern import Pattern
from alterations.recalculate import recalculate
from alterations.schematic import Outline, outline
from alterations.units import Length

PIECES = ("back", "front", "sleeve", "neckband")


def drawn(pattern: Pattern, size: str, piece: str) -> Outline:
    return outline(pattern, pattern.size(size).piece(piece))


# T10.1: 112 visible stitches / 2.1 / 2 = 26.667; 18/3 + 104/2.8 = 43.143; 88/2.1/2 = 20.952;
# + 56/2.8 = 63.143; 52/2.1/2 = 12.381; + 6/2.8 = 65.286.
def test_the_back_goes_up_in_the_five_points_of_its_right_edge(tunic: Pattern) -> None:
    right = [point for point in drawn(tunic, "3", "back").points if point[0] > 0]
    assert [(round(float(x), 3), round(float(y), 3)) for x, y in right] == [
        (26.667, 0.0),
        (26.667, 43.143),
        (20.952, 43.143),
        (20.952, 63.143),
        (12.381, 65.286),
    ]


# T10.1: 2300.952 + 838.095 + 71.429; T10.2: 148.571 + 1248.980 + 200.000.
@pytest.mark.parametrize(("piece", "cm2"), [("back", 3210.476), ("sleeve", 1597.551)])
def test_the_areas_are_those_worked_by_hand(tunic: Pattern, piece: str, cm2: float) -> None:
    assert round(float(drawn(tunic, "3", piece).area), 3) == cm2


@pytest.mark.parametrize("size", "12345678")
@pytest.mark.parametrize("piece", PIECES)
def test_the_sections_add_up_to_the_shoelace(tunic: Pattern, size: str, piece: str) -> None:
    shape = drawn(tunic, size, piece)
    assert shape.area == shape.section_area


# Front less back: the opening from the centre bind-off to the shoulder's top, worked stitch by
# stitch: half openings 17, 23, 25, 26 every 2 rows, 26 to row 14: (40+48+51)/2·2... in stitch-rows
# one side: 2·(17+23)/2 + 2·(23+25)/2 + 2·(25+26)/2 + 8·26 = 40 + 48 + 51 + 208 = 347. The back's
# slope beside it is the same, so the fronts lack 2 · 347 / 2.1 / 2.8 = 118.027 cm².
def test_the_front_lacks_just_its_neck(tunic: Pattern) -> None:
    lacking = drawn(tunic, "3", "back").area - drawn(tunic, "3", "front").area
    assert lacking == Fraction(2 * 347 * 100, 21 * 28)


@pytest.mark.parametrize("piece", ["back", "front"])
def test_two_halves_seamed_are_the_whole(tunic: Pattern, piece: str) -> None:
    whole = tunic.size("8").piece(piece)
    halves = [outline(tunic, half) for half in panels_of(whole)]
    assert sum(half.area for half in halves) == outline(tunic, whole).area
    assert all(half.area == half.section_area for half in halves)


def test_a_piece_is_as_wide_and_high_as_its_measurements(tunic: Pattern) -> None:
    sleeve = drawn(tunic, "3", "sleeve")
    assert (sleeve.width, sleeve.height) == (Fraction(40), Fraction(18, 3) + Fraction(1220, 28))


@settings(max_examples=40, deadline=None)
@given(
    body=st.fractions(-20, 30, max_denominator=8),
    sleeve=st.fractions(-10, 20, max_denominator=8),
    gauge=st.tuples(st.integers(16, 26), st.integers(22, 36)),
    size=st.sampled_from("12345678"),
)
def test_no_alteration_parts_the_sections_from_the_shoelace(
    tunic: Pattern, body: Fraction, sleeve: Fraction, gauge: tuple[int, int], size: str
) -> None:
    swatch = Gauge(Fraction(gauge[0]), Fraction(gauge[1]))
    changes = [BodyLength(Length(body)), SleeveLength(Length(sleeve))]
    made = recalculate(tunic, size, [*changes, YarnSwap("Kelvarrick Cotton", gauge=swatch)])
    for piece in made.after.size.pieces:
        shape = outline(tunic, piece, swatch)
        assert shape.area == shape.section_area
