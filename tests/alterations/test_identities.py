"""What a designer should see beside a number: each identity, with one number made to break it."""

from dataclasses import replace
from fractions import Fraction

import pytest

from alterations.identities import Identity, identities
from alterations.pattern import Machine, Pattern, Section, Size


def broken(pattern: Pattern, address: str, **changed: object) -> Pattern:
    """The tunic with one section of size 3 changed."""
    key, section_key = address.split(".")
    sizes: list[Size] = []
    for size in pattern.sizes:
        if size.name == "3":
            piece = size.piece(key)
            section: Section = piece.section(section_key).but(**changed)
            new = piece.with_section(section_key, section)
            pieces = tuple(new if one.key == key else one for one in size.pieces)
            size = replace(size, pieces=pieces)  # noqa: PLW2901
        sizes.append(size)
    return replace(pattern, sizes=tuple(sizes))


def found(pattern: Pattern) -> dict[str, Identity]:
    return {one.address: one for one in identities(pattern)}


def test_the_tunic_and_the_gilet_are_in_order_in_every_size(tunic: Pattern, gilet: Pattern) -> None:
    assert identities(tunic) == identities(gilet) == ()


# 1: cast-on ≡ 2 (mod 3), the largest not above 114: 113; 110 would leave a correction of 4.
def test_a_cast_on_that_is_not_the_largest_below_its_target(tunic: Pattern) -> None:
    low = broken(tunic, "back.hem", start=110, end=110)
    low = broken(low, "back.correction", start=110)
    told = found(low)["back.hem.stitches"]
    assert (told.size, told.code) == ("3", "edge") and "it would be 113" in told.sentence


# 2: rows even where the carriage comes back.
@pytest.mark.parametrize("address", ["back.body", "sleeve.straight"])
def test_odd_rows(tunic: Pattern, address: str) -> None:
    rows = (
        tunic.size("3").piece(address.split(".", maxsplit=1)[0]).section(address.split(".")[1]).rows
    )
    one = found(broken(tunic, address, rows=rows + 1))[f"{address}.rows"]
    assert one.code == "even rows" and "make them even" in one.sentence


# 3: 2·notch + 2·shoulder + neck = body: the front's shoulders no longer those of the back.
def test_shoulders_of_the_front_that_are_not_those_of_the_back(tunic: Pattern) -> None:
    one = found(broken(tunic, "front.neck", end=40))["front.neck.stitches"]
    assert "40 here, but from Back, shoulders it would be 38" in one.sentence


def test_a_front_that_is_not_as_long_as_the_back(tunic: Pattern) -> None:
    assert "front.body.rows" in found(broken(tunic, "front.body", rows=106))


# 6: bottom + 2·pairs = top leaves no odd stitch.
def test_an_odd_difference_in_a_taper(tunic: Pattern) -> None:
    assert (
        found(broken(tunic, "sleeve.taper", end=87))["sleeve.taper.stitches"].code == "odd stitch"
    )


# 7: |sleeve top − 2·armhole| ≤ 1 stitch; EVEN(112 · 0.75 + 2) = 86.
def test_a_sleeve_top_that_does_not_fit_the_armhole(tunic: Pattern) -> None:
    one = found(broken(tunic, "sleeve.taper", end=90))["sleeve.taper.stitches"]
    assert "it would be 86" in one.sentence


# 7: notch rows within one row of the notch's width: 11 / 2.1 · 2.8 = 14.67, even 14.
def test_straight_rows_that_do_not_fit_the_notch(tunic: Pattern) -> None:
    assert (
        "it would be 14"
        in found(broken(tunic, "sleeve.straight", rows=20))["sleeve.straight.rows"].sentence
    )


# 9: widest piece on the bed.
def test_a_piece_wider_than_the_bed(tunic: Pattern) -> None:
    small = replace(tunic, machine=Machine(140))
    assert {one.size for one in identities(small) if one.code == "bed"} == {"6"}


# 10: metres ≥ 1.08 · net metres (1108.1 in size 3: 1197), and not more than 1.3 times them.
@pytest.mark.parametrize(("metres", "words"), [(1190, "less than"), (1500, "more than 1.3 times")])
def test_yarn_that_the_stitches_do_not_bear_out(tunic: Pattern, metres: int, words: str) -> None:
    sizes = tuple(
        replace(size, metres=metres) if size.name == "3" else size for size in tunic.sizes
    )
    one = found(replace(tunic, sizes=sizes))["yarn.metres"]
    assert words in one.sentence and one.size == "3"


def test_an_allowance_of_nothing_asks_for_the_net_metres_only(tunic: Pattern) -> None:
    bare = replace(tunic, yarn=replace(tunic.yarn, allowance_percent=Fraction(0)))
    assert identities(bare) == ()
