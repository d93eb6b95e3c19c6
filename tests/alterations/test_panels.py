"""Halves: every seam between panels eats one stitch of each."""

import pytest

from alterations.errors import ShapingError
from alterations.panels import panels_of
from alterations.pattern import EDGES, Piece, Section


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


def test_three_panels_are_refused() -> None:
    with pytest.raises(ShapingError, match="two halves"):
        panels_of(piece(300, panels=3))
