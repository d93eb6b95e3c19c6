"""Doubts in a base pattern's own numbers: each with one broken number, found beside its cell."""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from alterations.identities import identities
from alterations.pattern import Pattern
from alterations.patternfile import load_pattern, read_pattern
from tests.alterations.conftest import GILET


def broken(text: str, section: str, key: str, number: int, *, piece: str = "back") -> Pattern:
    """The tunic with one number of size 3 exchanged."""
    start = text.index(f'key = "{section}"', text.index(f"[[pieces.{piece}.sections]]"))
    found = re.compile(rf"{key} = \[([\d, ]+)\]").search(text, start)
    assert found is not None
    numbers = found[1].split(", ")
    numbers[2] = str(number)
    row = f"{key} = [{', '.join(numbers)}]"
    return load_pattern(text[: found.start()] + row + text[found.end() :])


def codes(pattern: Pattern) -> set[tuple[str, str, str]]:
    return {(one.code, one.size, one.address) for one in identities(pattern)}


def test_the_tunic_agrees_in_all_eight_sizes(tunic: Pattern) -> None:
    assert len(tunic.sizes) == 8 and identities(tunic) == ()


@pytest.mark.parametrize("path", sorted(GILET.parent.glob("*.toml")), ids=lambda path: path.stem)
def test_patterns_of_another_build_agree(path: Path) -> None:
    assert identities(read_pattern(path)) == ()


# 110 = 3·36 + 2 is a K2P1 count, but 4 below 114: the nearest one is 113.
def test_a_cast_on_more_than_a_repeat_below_is_found(tunic_text: str) -> None:
    found = codes(broken(tunic_text, "hem", "stitches", 110))
    assert found == {("edge", "3", "back.hem.stitches")}


# 116 = 3·38 + 2 is above 114: an edge only ever loses stitches.
def test_a_cast_on_above_the_body_is_found(tunic_text: str) -> None:
    found = codes(broken(tunic_text, "hem", "stitches", 116))
    assert found >= {("edge", "3", "back.hem.stitches")}


def test_a_piece_too_narrow_for_its_edge_is_a_doubt_and_no_crash(gilet: Pattern) -> None:
    tiny = replace(gilet.sizes[0].piece("back"), panels=1)
    hem, above, *others = tiny.sections
    narrow = replace(tiny, sections=(hem.but(start=2, end=2), above.but(start=2, end=1), *others))
    size = replace(gilet.sizes[0], pieces=(narrow, *gilet.sizes[0].pieces[1:]))
    found = identities(replace(gilet, sizes=(size,), follows=()))
    assert "too few for one repeat" in found[0].sentence


def test_an_odd_number_of_rows_on_a_machine_is_found(tunic_text: str) -> None:
    found = codes(broken(tunic_text, "body", "rows", 105))
    assert ("even rows", "3", "back.body.rows") in found


def test_by_hand_rows_may_be_odd(tunic_text: str) -> None:
    by_hand = replace(broken(tunic_text, "body", "rows", 105), even_rows=False)
    assert not {one for one in codes(by_hand) if one[0] == "even rows"}


# From 54 to 87 stitches are 33, one more than 16 pairs.
def test_an_odd_stitch_left_over_is_found(tunic_text: str) -> None:
    found = codes(broken(tunic_text, "taper", "stitches", 87, piece="sleeve"))
    assert ("odd stitch", "3", "sleeve.taper.stitches") in found


# Half a stitch cannot be knitted: 157 is no 2·79 − 2.
def test_an_odd_body_worked_in_halves_is_found(tunic: Pattern) -> None:
    size = tunic.size("7")
    back = size.piece("back")
    odd = back.with_section("correction", back.section("correction").but(end=157))
    made = replace(size, pieces=(odd, *size.pieces[1:]))
    found = codes(replace(tunic, sizes=(made,), follows=()))
    assert ("halves", "7", "back.correction.stitches") in found


def test_a_piece_wider_than_the_bed_is_found(tunic: Pattern) -> None:
    assert tunic.machine is not None
    short = replace(tunic, machine=replace(tunic.machine, needles=140))
    found = {(size, address) for code, size, address in codes(short) if code == "bed"}
    assert found == {("6", "back.hem.stitches"), ("6", "front.hem.stitches")}


# EVEN((12 − 1)/2.1 · 2.8) = EVEN(14.67) = 14.
def test_straight_rows_longer_than_the_notch_are_found(tunic_text: str) -> None:
    found = codes(broken(tunic_text, "straight", "rows", 24, piece="sleeve"))
    assert ("follows", "3", "sleeve.straight.rows") in found


# EVEN(112 · 2.1/2.8 + 2) = 86.
def test_a_sleeve_top_wider_than_the_armholes_is_found(tunic_text: str) -> None:
    found = codes(broken(tunic_text, "taper", "stitches", 92, piece="sleeve"))
    assert ("follows", "3", "sleeve.taper.stitches") in found


def test_a_front_longer_than_the_back_is_found(tunic_text: str) -> None:
    found = codes(broken(tunic_text, "body", "rows", 110))
    assert ("follows", "3", "front.body.rows") in found


# Snapped to 3n + 2: 116 for size 3, a whole repeat above 110.
def test_a_band_of_another_length_than_the_neck_is_found(tunic_text: str) -> None:
    found = codes(broken(tunic_text, "band", "stitches", 110, piece="neckband"))
    assert ("follows", "3", "neckband.band.stitches") in found


# 1.08 · 1108.1 = 1196.7 m.
@pytest.mark.parametrize("metres", [1190, 1500])
def test_metres_that_the_stitches_do_not_take_are_found(tunic: Pattern, metres: int) -> None:
    size = replace(tunic.size("3"), metres=metres)
    assert codes(replace(tunic, sizes=(size,))) == {("yarn", "3", "yarn.metres")}
