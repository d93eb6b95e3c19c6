"""A block from a spreadsheet put into the grid: sizes across, numbers down."""

import re

from django.utils.translation import gettext as _

from gallery.series.editor.blocks import Line, PasteError, lines_of
from gallery.series.editor.cells import EMPTY
from gallery.series.editor.document import Document, joined_names, size_names, words
from gallery.series.editor.grid import GridRow, grid_of


def pasted(document: Document, start: str, block: str, size: str = "") -> dict[str, str]:
    """The fields a block fills, from one row on downwards and, where a size is named, from that
    size on; without one a line has a number for each size or one for all.

    An empty line or cell keeps its place and leaves what stands there; a name and a unit before
    the numbers are passed over. Refuses (PasteError), naming line and size, what reaches past the
    grid or does not belong into its row.
    """
    rows = [row for group in grid_of(document, ()) for row in group.rows]
    at = next((at for at, row in enumerate(rows) if row.field == start), None)
    if at is None:
        raise PasteError(_("Choose the row where the block begins."))
    names = size_names(document)
    lines = lines_of(block, len(names))
    if len(lines) > len(rows) - at:
        raise PasteError(
            _("The block has %(lines)s lines, and from that row on there are %(rows)s.")
            % {"lines": len(lines), "rows": len(rows) - at}
        )
    column = names.index(size) if size in names else None
    filled: dict[str, str] = {}
    for row, line in zip(rows[at:], lines, strict=False):
        if not line.is_empty:
            _refuse_misplaced(row, line)
            filled[row.field] = _filled(row, line, names, column)
    return filled


def _refuse_misplaced(row: GridRow, line: Line) -> None:
    """Refuses numbers in another unit, and a heading that was copied along."""
    if line.unit and line.unit != row.unit:
        facts = {"number": line.number, "row": row.label, "unit": row.unit or _("no unit")}
        raise PasteError(
            _(
                "Line %(number)s has the unit “%(theirs)s”, but it would go into “%(row)s” "
                "(%(unit)s). Leave this line empty, or begin in another row."
            )
            % {**facts, "theirs": line.unit}
        )
    if line.is_heading and row.field != "pattern.sizes":
        raise PasteError(
            _("Line %(number)s holds words and no number; leave headings out of the block.")
            % {"number": line.number}
        )


def _filled(row: GridRow, line: Line, names: list[str], column: int | None) -> str:
    """The whole row with the cells of the line in it."""
    cells = line.cells
    if column is None and len(cells) == 1:
        return _joined(row, cells)
    if column is None and len(cells) != len(names):
        raise PasteError(
            _("Line %(number)s has %(cells)s values, and %(sizes)s sizes are named.")
            % {"number": line.number, "cells": len(cells), "sizes": len(names)}
        )
    at = column or 0
    if len(cells) > len(names) - at:
        raise PasteError(
            _("Line %(number)s has %(cells)s values, and from size %(size)s on there are %(left)s.")
            % {
                "number": line.number,
                "cells": len(cells),
                "size": names[at],
                "left": len(names) - at,
            }
        )
    whole = _before(row, names)
    kept = whole[at : at + len(cells)]
    whole[at : at + len(cells)] = [cell or old for cell, old in zip(cells, kept, strict=True)]
    # A full row goes in as it is: values too many before are not kept behind it.
    return _joined(row, whole[: len(names)] if column is None else whole)


def _before(row: GridRow, names: list[str]) -> list[str]:
    """What stands in the row, at least one value for each size."""
    before = list(names) if row.field == "pattern.sizes" else words(row.typed)
    each = before * len(names) if len(before) == 1 else before
    return [*each, *[EMPTY] * (len(names) - len(each))]


def _joined(row: GridRow, cells: list[str]) -> str:
    if row.field == "pattern.sizes":
        return joined_names(cells)
    blank = "-" if row.is_list else ""
    return " ".join(re.sub(r"\s+", blank, cell) or EMPTY for cell in cells)
