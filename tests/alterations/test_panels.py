"""Halves: every seam between panels eats one stitch of each."""

from dataclasses import replace

import pytest

from alterations.errors import ShapingError
from alterations.panels import panels_of
from alterations.pattern import EDGES, Pattern, Piece, Section


def piece(stitches: int, edge: str = "none", panels: int = 2) -> Piece:
    body = Section("body", "Body", "plain", stitches, stitches, 100)
    return Piece("back", "Back", (body,), edge=EDGES[edge], panels=panels)


# n/2 + 1 for an even count; of an odd one (n+1)/2 + 1 and (n−1)/2 + 1: 101 → 52 and 51.
@pytest.mark.parametrize(("whole", "halves"), [(246, [124, 124]), (102, [52, 52]), (101, [52, 51])])
def test_a_half_has_its_half_and_a_seam_stitch(whole: int, halves: list[int]) -> None:
    found = [panel.cast_on for panel in panels_of(piece(whole))]
    assert found == halves and sum(found) - 2 == whole


# Half of 136 is 69; below it 68 ≡ 2 (mod 3).
def test_a_half_is_cast_on_to_its_own_edge() -> None:
    hem = Section("hem", "Hem", "rib", 134, 134, 18)
    across = Section("correction", "Correction", "plain", 134, 136, 0, shape="across")
    whole = Piece("back", "Back", (hem, across), edge=EDGES["K2P1"], panels=2)
    assert [(panel.cast_on, panel.sections[1].end) for panel in panels_of(whole)] == [(68, 69)] * 2


# k panels hold n + 2(k − 1) stitches in all, the widest rounded up: (246 + 4) / 3 → 84, 83, 83.
@pytest.mark.parametrize(("whole", "panels"), [(246, [83, 84, 83]), (114, [39, 40, 39])])
def test_three_panels_share_the_count_and_four_seam_stitches(whole: int, panels: list[int]) -> None:
    found = [panel.cast_on for panel in panels_of(piece(whole, panels=3))]
    assert found == panels and sum(found) - 4 == whole


# The tunic's size 3: neck 52, so the middle has 54; (114 − 52) / 2 + 1 = 32 at each side.
def test_the_seams_of_three_panels_run_to_the_neck_points(tunic: Pattern) -> None:
    back = replace(tunic.size("3").piece("back"), panels=3)
    assert [panel.section("correction").end for panel in panels_of(back)] == [32, 54, 32]


# 32 − 12 of the notch = 20: the shoulder's 19 and the seam stitch, held in three groups.
def test_a_side_panel_carries_the_notch_and_the_shoulder(tunic: Pattern) -> None:
    side = panels_of(replace(tunic.size("3").piece("front"), panels=3))[0]
    assert (side.section("armhole").end, side.section("shoulders").groups) == (20, (7, 7, 6))


# 54: centre 34, then 6-2-1 at each side, and each seam stitch with the last of them.
def test_a_middle_panel_ends_with_the_neck(tunic: Pattern) -> None:
    middle = panels_of(replace(tunic.size("3").piece("front"), panels=3))[1]
    neck = middle.sections[-1]
    assert (neck.start, neck.centre, neck.steps, neck.end) == (54, 34, (6, 2, 2), 0)


def test_four_panels_are_refused() -> None:
    with pytest.raises(ShapingError, match="three panels"):
        panels_of(piece(300, panels=4))


def test_a_piece_narrower_than_its_neck_has_no_side_panels() -> None:
    with pytest.raises(ShapingError, match="too narrow"):
        panels_of(piece(2, panels=3))


# K2P2 ≡ 2 (mod 4): 110 itself; half of it is 56, cast on 54, and the row above brings 56 back.
def test_a_piece_without_a_correction_gets_one_where_a_half_needs_it() -> None:
    hem = Section("hem", "Hem", "rib", 110, 110, 18)
    body = Section("body", "Body", "plain", 110, 110, 100)
    slope = Section("top", "Shoulders", "plain", 110, 40, 6, "held", groups=(12, 12, 11))
    whole = Piece("back", "Back", (hem, body, slope), edge=EDGES["K2P2"], panels=2)
    half = panels_of(whole)[0]
    assert [section.end for section in half.sections] == [54, 56, 56, 21]


def test_a_piece_shaped_above_its_shoulders_is_not_worked_in_three_panels() -> None:
    slope = Section("top", "Shoulders", "plain", 110, 40, 6, "held", groups=(12, 12, 11))
    hood = Section("hood", "Hood", "plain", 40, 40, 60)
    with pytest.raises(ShapingError, match="two halves"):
        panels_of(Piece("back", "Back", (slope, hood), panels=3))
