"""The rows of a piece: carriage, counter, stitches; what the yarn is counted from."""

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from alterations.kinds import BellSleeve, BodyLength, OtherEdge, SleeveLength, WorkedInHalves
from alterations.panels import panels_of
from alterations.pattern import Pattern, Piece, Section, Size
from alterations.recalculate import recalculate
from alterations.rowbook import RowStep, each_row, rowbook
from alterations.stitches import knitted
from alterations.units import Length, parse_length


def book(size: Size, key: str, panel: int = 0) -> tuple[RowStep, ...]:
    return rowbook(panels_of(size.piece(key))[panel])


def told(steps: tuple[RowStep, ...], section: str) -> list[tuple[int, str, int]]:
    return [(one.counter, one.side, one.stitches) for one in steps if one.section == section]


# T6.1 (derived): 114 stitches, notch 12, 104 rows: 105 left 102, 106 right 90, 160 right 90.
def test_t6_1_the_notch_is_bound_off_on_consecutive_rows(tunic: Pattern) -> None:
    steps = book(tunic.size("3"), "back")
    assert told(steps, "body") == [(104, "right", 114)]
    assert told(steps, "armhole") == [(105, "left", 102), (106, "right", 90), (160, "right", 90)]


def test_the_counter_starts_again_after_the_edge(tunic: Pattern) -> None:
    steps = book(tunic.size("3"), "back")
    assert told(steps, "correction") == [(0, "right", 114)]
    assert steps[-1].total == 18 + 166


# Groups 7-6-6: at the left with the carriage at the right, then at the right, six rows.
def test_shoulders_are_held_at_the_far_side_in_turn(tunic: Pattern) -> None:
    steps = [one for one in book(tunic.size("3"), "back") if one.section == "shoulders"]
    assert [one.stitches for one in steps[:6]] == [83, 76, 70, 64, 58, 52]
    assert "7 stitches at the left edge" in steps[0].words
    assert steps[-1].words.endswith("19 for the shoulder, 52 for the neck, 19 for the shoulder")


# 90 − 34 in the centre are 28 at each side; 6-2-1 leave 19.
def test_each_side_of_a_neck_is_worked_from_the_same_row(tunic: Pattern) -> None:
    steps = [one for one in book(tunic.size("3"), "front") if one.section == "neck"]
    begins = [one.counter for one in steps if one.words.startswith(("bind off the 34", "take"))]
    ends = [one.stitches for one in steps if one.counter == 160]
    assert begins == [152, 152] and ends == [19, 19]


def test_bind_offs_at_the_neck_edge_fall_where_the_carriage_stands(tunic: Pattern) -> None:
    steps = [one for one in book(tunic.size("3"), "front") if "neck edge" in one.words]
    # The right side's neck edge is its left one: after odd rows; the left side's after even ones.
    starts = [(one.counter - one.rows) % 2 for one in steps]
    assert starts == [1, 1, 1, 0, 0, 0]


# T7.8: every 6 rows 13 times, every 8 rows 3 times, 6 plain; the new count from the next row on.
def test_a_sleeve_is_shaped_after_its_rows(tunic: Pattern) -> None:
    steps = [one for one in book(tunic.size("3"), "sleeve") if one.section == "taper"]
    assert [one.rows for one in steps] == [6] * 13 + [8] * 3 + [6]
    assert [one.stitches for one in steps[:2]] == [56, 58] and sum(s.worked for s in steps) == 7632


# T7.16 (derived): 24 rows, 4 events: left after 5, 11, 17, 23, right after 6, 12, 18, 24.
def test_a_carriage_shapes_each_edge_on_its_own_row() -> None:
    taper = Section("t", "Taper", "p", 20, 28, 24, "spread", rhythm="carriage side")
    steps = rowbook(Piece("s", "Sleeve", (taper,)))
    left = [one.counter for one in steps if "at the left edge" in one.words]
    right = [one.counter for one in steps if "at the right edge" in one.words]
    assert (left, right) == ([5, 11, 17, 23], [6, 12, 18, 24])


# §7.5: an odd stitch once, at the first event: 20 to 25 in two pairs and one stitch.
def test_an_odd_stitch_is_worked_with_the_first_event() -> None:
    taper = Section("t", "Taper", "p", 20, 25, 24, "spread")
    steps = rowbook(Piece("s", "Sleeve", (taper,)))
    assert [one.stitches for one in steps[1:3]] == [23, 25]
    assert "one more at one edge" in steps[1].words


# The row by which a single neck or shoulder edge is later: 28 stitches in size 3, all in the front.
@pytest.mark.parametrize("name", ["1", "2", "3", "4", "5", "6"])
def test_the_rows_hold_the_stitches_the_yarn_is_counted_from(tunic: Pattern, name: str) -> None:
    size = tunic.size(name)
    found: Counter[str] = Counter()
    for piece in size.pieces:
        fabrics = {section.key: section.fabric for section in piece.sections}
        for step in rowbook(piece):
            found[fabrics[step.section]] += step.worked * piece.make
    front = size.piece("front")
    late = sum(front.section("neck").steps) + sum(front.section("shoulders").groups)
    assert found["rib"] == knitted(size)["rib"]
    assert found["plain"] - knitted(size)["plain"] == late


# In halves the left one waits a row for its notch, the right one for its shoulder and, in front,
# for its part of the neck (size 7: 23, 27 and 20 + 5 + 3 + 1; size 8: 26, 29 and the same).
@pytest.mark.parametrize(("name", "late"), [("7", 23 + 27), ("8", 26 + 29)])
def test_the_rows_of_halves_hold_them_too_but_for_edges_a_row_later(
    tunic: Pattern, name: str, late: int
) -> None:
    size = tunic.size(name)
    panels = [(piece, panel) for piece in size.pieces for panel in panels_of(piece)]
    worked = sum(one.worked * piece.make for piece, panel in panels for one in rowbook(panel))
    assert worked - sum(knitted(size).values()) == 2 * late + 29


# T7.11 (derived): 8 decreases over 110 stitches leave 102.
def test_t7_11_decreases_across_a_row_say_where() -> None:
    fewer = Section("x", "Above", "p", 110, 102, 0, "across")
    step = rowbook(Piece("b", "Band", (fewer,)))[1]
    assert "10-10-11-10-11-10-11-10-11 stitches" in step.words and step.stitches == 102


# Section 7.6: after stitches floor((2i − 1)·100 / 8): 12, 37, 62, 87.
def test_more_than_two_increases_are_spread_across_the_row() -> None:
    more = Section("x", "Above", "p", 100, 104, 0, "across")
    step = rowbook(Piece("b", "Band", (more,)))[1]
    assert step.words.endswith("increase 4 stitches, after stitches 12, 37, 62, 87")


# Half of 136 is 69; the left half waits one row for its notch, the right one does not.
def test_the_second_half_is_mirrored_by_one_row(tunic: Pattern) -> None:
    size = recalculate(tunic, "5", [WorkedInHalves()]).after.size
    notches = [told(book(size, "back", panel), "armhole") for panel in (0, 1)]
    assert notches[0][:2] == [(107, "left", 69), (108, "right", 52)]
    assert notches[1][0] == (107, "left", 52)


def test_a_hung_hem_is_folded_and_hung(tunic: Pattern) -> None:
    size = recalculate(tunic, "3", [OtherEdge("hem", "hung hem")]).after.size
    hem = next(one for one in book(size, "back") if "fold" in one.words)
    assert hem.rows == 32 and "row 16 loosely" in hem.words


def test_a_bell_is_decreased_above_its_edge(tunic: Pattern) -> None:
    bell = BellSleeve(parse_length("44 cm"), parse_length("20 cm"))
    size = recalculate(tunic, "3", [bell]).after.size
    steps = [one for one in book(size, "sleeve") if one.section == "bell"]
    assert (steps[0].stitches, steps[-1].stitches, steps[-1].counter) == (92, 54, 56)
    assert "decrease one stitch at each edge" in steps[0].words


def test_every_single_row_can_be_listed(tunic: Pattern) -> None:
    steps = book(tunic.size("3"), "sleeve")
    rows = [one for one in each_row(steps) if one.rows]
    assert [one.total for one in rows] == list(range(1, 18 + 122 + 1))
    assert sum(one.worked for one in rows) == sum(one.worked for one in steps)


@given(
    body=st.integers(-25, 60),
    sleeve=st.integers(-12, 40),
    name=st.sampled_from("12345678"),
    halves=st.booleans(),
)
def test_any_length_is_worked_to_its_last_row(
    tunic: Pattern, body: int, sleeve: int, name: str, halves: bool
) -> None:
    given_changes = [BodyLength(Length(body)), SleeveLength(Length(sleeve))]  # type: ignore[arg-type]
    more = [WorkedInHalves()] if halves else []
    size = recalculate(tunic, name, [*given_changes, *more]).after.size
    for piece in (size.piece("back"), size.piece("sleeve")):
        for panel in panels_of(piece):
            steps = rowbook(panel)
            assert max(one.total for one in steps) in (panel.rows, panel.rows - 1, panel.rows - 2)
            assert min(one.stitches for one in steps) == 0 == steps[-1].stitches
