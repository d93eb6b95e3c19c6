"""Any garment row by row: nothing lost, nothing at the wrong side, no row too many."""

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from alterations.errors import AlterationsError
from alterations.kinds import (
    AnyAlteration,
    BodyLength,
    BodyWidth,
    SleeveLength,
    WorkedInHalves,
    WorkedInPanels,
)
from alterations.panels import panels_of
from alterations.pattern import EDGES, Pattern, Piece, Section
from alterations.recalculate import recalculate
from alterations.rowbook import RowStep, each_row, mirror, rowbook
from alterations.units import Length

OTHER = {"left": "right", "right": "left"}
DEED = re.compile(r"(bind off|cast on|hold) (\d+) stitch(?:es)? at the (left|right|neck) edge")
GIVEN = st.tuples(
    st.integers(-12, 12).map(lambda cm: BodyLength(Length(cm))),  # type: ignore[arg-type]
    st.integers(-6, 10).map(lambda cm: SleeveLength(Length(cm))),  # type: ignore[arg-type]
    st.integers(-6, 10).map(lambda cm: BodyWidth(Length(cm))),  # type: ignore[arg-type]
    st.sampled_from((None, WorkedInHalves(), WorkedInPanels())),
)


def panels(pattern: Pattern, size: str, changes: Sequence[AnyAlteration | None]) -> Iterator[Piece]:
    wanted = [one for one in changes if one is not None]
    try:
        made = recalculate(pattern, size, wanted).after.size
    except AlterationsError:
        return
    for piece in made.pieces:
        yield from panels_of(piece)
        yield from map(mirror, panels_of(piece))


def books(
    pattern: Pattern, size: str, changes: Sequence[AnyAlteration | None], *, by_hand: bool
) -> Iterator[tuple[Piece, tuple[RowStep, ...]]]:
    for panel in panels(pattern, size, changes):
        try:
            yield panel, rowbook(panel, by_hand=by_hand)
        except AlterationsError:
            continue


def wrong_sides(steps: tuple[RowStep, ...]) -> list[str]:
    """Deeds for which the carriage does not stand where it must."""
    found = []
    for before, after in pairwise(steps):
        deed = DEED.match(after.words)
        if deed and deed[3] != "neck":
            needed = OTHER[deed[3]] if deed[1] == "hold" else deed[3]
            found += [after.words] if before.side != needed else []
    return found


def lost(steps: tuple[RowStep, ...]) -> list[str]:
    """Deeds after which another count is left than before less what was bound off or held."""
    found = []
    for before, after in pairwise(steps):
        deed = DEED.match(after.words)
        if deed:
            change = int(deed[2]) if deed[1] == "cast on" else -int(deed[2])
            found += [after.words] if after.stitches != before.stitches + change else []
    return found


@given(GIVEN, st.sampled_from("12345678"))
def test_every_deed_finds_the_carriage_at_its_side_and_the_stitches_it_needs(
    tunic: Pattern, changes: tuple[AnyAlteration | None, ...], size: str
) -> None:
    for _, steps in books(tunic, size, changes, by_hand=False):
        assert wrong_sides(steps) == [] and lost(steps) == []


@given(GIVEN, st.integers(0, 2))
def test_by_hand_every_deed_finds_the_row_at_its_edge(
    gilet: Pattern, changes: tuple[AnyAlteration | None, ...], size: int
) -> None:
    name = gilet.size_names[size]
    for _, steps in books(gilet, name, changes[:3:2], by_hand=True):
        assert wrong_sides(steps) == [] and lost(steps) == []


def rows_missing(panel: Piece) -> int:
    """Of a slope after which nothing is in work: its last two rows."""
    last = panel.sections[-1]
    sides = 2 if any(one.shape == "neck" and one.where == "both" for one in panel.sections) else 1
    return 2 if last.shape == "held" and last.start // sides == sum(last.groups) else 0


@given(GIVEN, st.sampled_from("12345678"))
def test_a_piece_has_the_rows_its_sections_have(
    tunic: Pattern, changes: tuple[AnyAlteration | None, ...], size: str
) -> None:
    for panel, steps in books(tunic, size, changes, by_hand=False):
        if panel.sections[-1].end == 0 and panel.sections[-1].shape == "neck":
            continue  # a middle panel ends with its last bind-off
        total = max(one.total for one in steps)
        # One row more where a single shoulder waits for the carriage.
        assert total - (panel.rows - rows_missing(panel)) in (0, 1)
        assert all(one.stitches >= 0 for one in steps) and steps[-1].stitches == 0


@given(GIVEN, st.sampled_from("12345678"))
def test_the_counter_runs_through_every_row_once_in_a_piece_of_one_side(
    tunic: Pattern, changes: tuple[AnyAlteration | None, ...], size: str
) -> None:
    for panel, steps in books(tunic, size, changes, by_hand=False):
        if any(one.shape == "neck" for one in panel.sections):
            continue
        rows = [one for one in each_row(steps) if one.rows]
        assert [one.total for one in rows] == list(range(1, len(rows) + 1))
        assert all(one.side == ("left", "right")[one.total % 2 == 0] for one in rows)


# Two steps of a shoulder, bound off one after the other: right, left, right, left.
def test_bind_offs_that_follow_one_another_are_all_worked() -> None:
    sections = (
        Section("body", "Body", "p", 40, 40, 10),
        Section("first", "First step", "p", 40, 28, 0, "edges"),
        Section("second", "Second step", "p", 28, 18, 0, "edges"),
    )
    steps = rowbook(Piece("s", "Shoulders", sections))
    told = [(one.counter, one.stitches, one.words) for one in steps if "edge" in one.words]
    assert told == [
        (10, 34, "bind off 6 stitches at the right edge"),
        (11, 28, "bind off 6 stitches at the left edge"),
        (12, 23, "bind off 5 stitches at the right edge"),
        (13, 18, "bind off 5 stitches at the left edge"),
    ]


def test_a_mirrored_piece_is_shaped_at_the_other_edge_a_row_later() -> None:
    sections = (
        Section("body", "Body", "p", 40, 40, 10),
        Section("notch", "Notch", "p", 40, 30, 0, "edges", "right"),
        Section("armhole", "Armhole", "p", 30, 30, 20),
    )
    piece = Piece("s", "Side", sections)
    plain, turned = (rowbook(piece, mirrored=way) for way in (False, True))
    assert [(one.counter, one.stitches) for one in plain[2:4]] == [(11, 30), (30, 30)]
    assert [(one.counter, one.stitches) for one in turned[2:4]] == [(11, 40), (12, 30)]


# §7.9: T7.12 (shoulder 31 in 10 rows) and T7.13 (24 in 8), held in turn at both edges.
@pytest.mark.parametrize(
    ("stitches", "groups"), [(31, (7, 6, 6, 6, 6)), (24, (6, 6, 6, 6))], ids=["T7.12", "T7.13"]
)
def test_shoulders_of_the_reference_are_held_two_rows_to_a_group(
    stitches: int, groups: tuple[int, ...]
) -> None:
    whole = 2 * stitches + 40
    held = Section("s", "Shoulders", "p", whole, 40, 2 * len(groups), "held", groups=groups)
    steps = rowbook(Piece("b", "Back", (held,)))[1:-1]
    assert [one.counter for one in steps] == list(range(1, 2 * len(groups) + 1))
    assert [
        before - after for before, after in pairwise([whole, *(s.stitches for s in steps)])
    ] == [group for group in groups for _ in range(2)]


# T7.15: half width 26 over 4 double rows: centre 34, then 6-2-1; inside the front of size 3.
def test_t7_15_the_neck_of_size_3(tunic: Pattern) -> None:
    steps = rowbook(tunic.size("3").piece("front"))
    words = [one.words for one in steps if one.section == "neck"]
    assert sum(words_.startswith("bind off the 34 stitches in the centre") for words_ in words) == 1
    taken = [int(deed[2]) for deed in map(DEED.match, words) if deed]
    assert taken == [6, 2, 1, 6, 2, 1]


def test_the_counter_goes_back_to_000_in_words(tunic: Pattern) -> None:
    steps = rowbook(tunic.size("3").piece("back"))
    assert steps[1].words == "rib K2P1, 18 rows; then row counter to 000"


def test_a_row_over_all_held_stitches_closes_the_slope(tunic: Pattern) -> None:
    back = rowbook(tunic.size("3").piece("back"))
    assert (
        "knit one last row over all 90 stitches (not counted) and take them off on waste yarn"
        in back[-1].words
    )


def test_a_band_picked_up_by_hand_begins_on_the_wrong_side() -> None:
    band = Piece("b", "Band", (Section("b", "Band", "p", 20, 20, 6),), edge=EDGES["K2P2"])
    first, then, *_ = rowbook(band, by_hand=True, begin="pick up")
    assert (first.side, then.side) == ("left", "left")
