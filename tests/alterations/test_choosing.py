"""The nearest size, and the drawing that shows where chest and length are measured."""

from dataclasses import replace
from fractions import Fraction
from xml.etree import ElementTree

import pytest

from alterations.choosing import nearest_size, sizes_in_short
from alterations.errors import PatternError
from alterations.pattern import Pattern
from alterations.sizedrawing import size_drawing


def nearest(pattern: Pattern, chest: str = "", length: str = "") -> str:
    wanted = [Fraction(one) if one else None for one in (chest, length)]
    found = nearest_size(pattern, *wanted)
    return found.name if found else ""


# The pattern's own table: size 4 has a chest of 116.2 cm and a length of 63.9 cm.
def test_each_size_tells_its_finished_chest_and_length(tunic: Pattern) -> None:
    fourth = sizes_in_short(tunic)[3]
    assert fourth.chest_cm is not None and fourth.length_cm is not None
    told = [round(float(one), 1) for one in (fourth.chest_cm, fourth.length_cm)]
    assert (fourth.name, told) == ("4", [116.2, 63.9])


# Chests of the table: 85.7 95.2 106.7 116.2 127.6 137.1 146.7 156.2 cm.
@pytest.mark.parametrize(
    ("chest", "size"), [("40", "1"), ("101", "3"), ("100.9", "2"), ("118.5", "4"), ("200", "8")]
)
def test_a_chest_names_the_size_nearest_to_it(tunic: Pattern, chest: str, size: str) -> None:
    assert nearest(tunic, chest) == size


def test_a_length_alone_names_a_size_too(tunic: Pattern) -> None:
    assert nearest(tunic, length="67") == "5"  # 66.7 cm; size 6 has 67.4


def test_of_two_sizes_as_near_the_larger_one_is_named(tunic: Pattern) -> None:
    first, second = (size.chest_cm or Fraction() for size in sizes_in_short(tunic)[:2])
    assert nearest(tunic, str((first + second) / 2)) == "2"


def test_without_a_measure_no_size_is_named(tunic: Pattern) -> None:
    assert nearest(tunic) == ""
    assert nearest(replace(tunic, measures=()), "100") == ""


def test_the_drawing_is_an_svg_with_both_words_and_two_arrows(tunic: Pattern) -> None:
    svg = ElementTree.fromstring(size_drawing(tunic, tunic.sizes[3], "A & B", "<c>", "l"))
    words = [one.text for one in svg.iter("{http://www.w3.org/2000/svg}text")]
    arrows = list(svg.iter("{http://www.w3.org/2000/svg}path"))
    assert (words, len(arrows)) == (["<c>", "l"], 2)


# Half of the 116.2 cm round is 58.1 cm: 581 mm from the left edge at 70.
def test_the_arrow_across_is_as_long_as_half_the_chest(tunic: Pattern) -> None:
    assert "H651" in size_drawing(tunic, tunic.sizes[3], "t", "c", "l")


def test_a_pattern_without_a_chest_is_not_drawn(tunic: Pattern) -> None:
    with pytest.raises(PatternError, match="no finished chest"):
        size_drawing(replace(tunic, measures=()), tunic.sizes[0], "t", "c", "l")
