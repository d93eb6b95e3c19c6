"""The drawing whose labels lead to the fields of what was changed."""

from itertools import pairwise

from alterations import read_pattern
from gallery.contributions.change_form import ChangesForm
from gallery.contributions.part_picker import LABEL_HEIGHT, PickedPiece, pieces_to_pick

from .conftest import PATTERN


def pieces() -> tuple[tuple[PickedPiece, ...], ChangesForm]:
    pattern = read_pattern(PATTERN)
    form = ChangesForm(pattern=pattern, size_name="4")
    return pieces_to_pick(pattern, form.groups), form


def test_every_part_a_knitter_can_change_has_a_label() -> None:
    drawn, _ = pieces()
    words = {mark.words for piece in drawn for mark in piece.marks}
    assert words >= {
        *("Body length", "Body width", "Armhole depth", "Neck depth", "Sleeve length"),
        "Width at the wrist",
    }


def test_each_label_leads_to_a_field_of_the_page() -> None:
    drawn, form = pieces()
    fields = {f"id_{name}" for name in form.fields}
    assert {mark.leads_to for piece in drawn for mark in piece.marks} <= fields


def test_no_label_lies_on_another_or_outside() -> None:
    drawn, _ = pieces()
    for piece in drawn:
        tops = [mark.y for mark in piece.marks]
        assert all(b - a >= LABEL_HEIGHT for a, b in pairwise(tops))
        assert all(mark.y + mark.height <= piece.height for mark in piece.marks)
        assert all(mark.x + mark.width <= piece.width for mark in piece.marks)
