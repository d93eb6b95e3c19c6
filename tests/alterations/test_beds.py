"""Needle beds: what fits, and the ways out. Needle counts are common practice, no source."""

import doctest
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from alterations import beds
from alterations.beds import (
    BED_CLASSES,
    BedClass,
    bed_of_pitch,
    every_second_needle,
    fits,
    fits_as_double_rib,
    offers,
    panel_counts,
    widest_cm,
)
from alterations.errors import ShapingError
from alterations.gauge import Gauge
from alterations.rounding import round_half_up

MID = Gauge(Fraction(21), Fraction(28))


# T5.2: a needle carries one stitch.
def test_t5_2_102_and_110_stitches_fit_110_needles() -> None:
    assert fits(102, 110) and fits(110, 110) and not fits(111, 110)


# T5.4: 246/2 + 1.
def test_t5_4_246_stitches_on_150_needles_are_two_halves_of_124() -> None:
    assert panel_counts(246, 2) == (124, 124)
    assert offers(246, 150, MID)[0] == (
        "Work it in two halves with a centre seam: 124 stitches each."
    )


# T5.6: (101 + 1)/2 + 1 and (101 − 1)/2 + 1; together 101 + 2.
def test_t5_6_an_odd_count_gives_unequal_halves() -> None:
    assert panel_counts(101, 2) == (52, 51)


# T5.7: (110 − 2) / 4 = 27 in, at 4 stitches per inch.
def test_t5_7_the_widest_piece_loses_its_seam_stitches() -> None:
    four_per_inch = Gauge(Fraction(16), Fraction(22), "4in")
    assert widest_cm(110, four_per_inch) == 27 * Fraction("2.54")
    assert widest_cm(110, four_per_inch, seams=0) == Fraction("27.5") * Fraction("2.54")


# The halves of the trade's check values (4 stitches per inch): 102 → 52, 110 → 56.
@pytest.mark.parametrize(("whole", "half"), [(70, 36), (94, 48), (102, 52), (110, 56), (136, 69)])
def test_a_half_is_half_the_count_and_a_seam_stitch(whole: int, half: int) -> None:
    assert panel_counts(whole, 2) == (half, half)


@given(st.integers(1, 2000), st.integers(1, 9))
def test_panels_without_their_seam_stitches_are_the_whole(stitches: int, panels: int) -> None:
    counts = panel_counts(stitches, panels)
    assert sum(counts) - 2 * (panels - 1) == stitches
    assert max(counts) == counts[0] == -(-(stitches + 2 * (panels - 1)) // panels)
    assert counts[0] - counts[-1] <= 1


# 25.4 mm ÷ pitch, two decimals; needles · pitch.
TABLE = [
    ("3.6", "7.06", 900),
    ("4.5", "5.64", 900),
    ("6.0", "4.23", 960),
    ("6.5", "3.91", 975),
    ("7.0", "3.63", 980),
    ("8.0", "3.18", 960),
    ("9.0", "2.82", 990),
]


@pytest.mark.parametrize(("pitch", "per_inch", "bed_mm"), TABLE)
def test_a_class_of_machine_has_its_gauge_and_length(
    pitch: str, per_inch: str, bed_mm: int
) -> None:
    bed = bed_of_pitch(Fraction(pitch))
    assert bed is not None and bed.bed_mm == bed_mm
    assert Fraction(round_half_up(bed.needles_per_inch * 100), 100) == Fraction(per_inch)


def test_a_pitch_that_is_in_no_table_gives_no_default() -> None:
    assert len(BED_CLASSES) == 7 and bed_of_pitch(5) is None


# 4.5 mm and 201 needles: ⌊201 / 2⌋, pitch 9 mm.
def test_every_second_needle_halves_the_stitches_and_doubles_the_pitch() -> None:
    thick = every_second_needle(BedClass("own", Fraction("4.5"), 201))
    assert (thick.needles, thick.pitch_mm) == (100, 9)


def test_a_double_bed_rib_needs_one_needle_more() -> None:
    assert fits_as_double_rib(149, 150) and not fits_as_double_rib(150, 150)


def test_a_piece_that_fits_needs_no_way_out() -> None:
    assert offers(150, 150, MID) == ()


# 246 at 21/10 cm: 244/2.1 = 116.19 cm = 325.3 rows, even 326; bed 148/2.1 = 70.48 cm;
# 148/116.19 · 10 = 12.73, cut to 12.7; 116.19 − 70.48 = 45.7 cm. Three: (246 + 4)/3 = 83⅓.
def test_the_five_ways_out_come_in_their_order_with_their_numbers() -> None:
    found = offers(246, 150, MID)
    told = ["124 stitches each", "84, 83 and 83 stitches", "326 rows", "12.7 stitches", "45.7 cm"]
    starts = ["Work it in two halves", "Work it in three", "Knit it sideways", "Use a", "Move"]
    assert [one.startswith(start) for one, start in zip(found, starts, strict=True)] == [True] * 5
    assert [number in one for one, number in zip(found, told, strict=True)] == [True] * 5


# 12.7 stitches in 10 cm: 116.19 · 1.27 + 2 = 149.6 stitches; 12.8 would take 150.7.
def test_the_coarser_gauge_offered_fits_and_the_next_tenth_does_not() -> None:
    width = Fraction(244) / MID.stitches_per_cm
    assert width * Fraction("1.27") + 2 <= 150 < width * Fraction("1.28") + 2


# Halves of 310 are 156 > 150.
def test_halves_that_do_not_fit_either_say_so() -> None:
    assert offers(310, 150, MID)[0].endswith("156 stitches each, still more than your 150 needles.")


# 60 cm · 2.1 + 2 = 128; 80 cm · 2.1 + 2 = 170.
@pytest.mark.parametrize(("length", "said"), [(60, "does with 128"), (80, "does not with 170")])
def test_sideways_knitting_is_checked_by_its_length(length: int, said: str) -> None:
    assert said in offers(246, 150, MID, length_cm=length)[2]


@given(st.integers(1, 3000), st.integers(1, 400), st.integers(0, 4))
def test_there_are_always_five_ways_out_or_none(stitches: int, needles: int, seams: int) -> None:
    found = offers(stitches, needles, MID, seams=seams)
    assert len(found) == (0 if stitches <= needles else 5)
    assert all(one.endswith(".") for one in found)


@pytest.mark.parametrize("needles", [0, -1])
def test_a_bed_without_needles_is_refused(needles: int) -> None:
    with pytest.raises(ShapingError, match="at least one needle"):
        widest_cm(needles, MID)


def test_no_panels_are_refused() -> None:
    with pytest.raises(ShapingError, match="at least one stitch and one panel"):
        panel_counts(100, 0)


def test_the_worked_examples_hold() -> None:
    assert doctest.testmod(beds).failed == 0
