"""A block from a spreadsheet put into the grid: sizes across, numbers down."""

import re

from django.utils.translation import gettext as _

from gallery.series.editor.document import Document, joined_names, size_names, words
from gallery.series.editor.grid import GridRow, grid_of

EMPTY = "?"  # holds the place of a size that has no number yet
MOST_LETTERS = 200_000


class PasteError(ValueError):
    """A block that does not fit into the grid; its text is a sentence."""


def pasted(document: Document, start: str, block: str, size: str = "") -> dict[str, str]:
    """The fields a block fills, from one row on downwards and, where a size is named, from that
    size on; without one a line has a number for each size or one for all.

    Refuses (PasteError), naming line and size, what reaches past the grid; an empty line leaves its
    row alone, a first column of words is passed over.
    """
    rows = [row for group in grid_of(document, ()) for row in group.rows]
    at = next((at for at, row in enumerate(rows) if row.field == start), None)
    if at is None:
        raise PasteError(_("Choose the row where the block begins."))
    lines = block[:MOST_LETTERS].strip("\r\n").splitlines()
    if len(lines) > len(rows) - at:
        raise PasteError(
            _("The block has %(lines)s lines, and from that row on there are %(rows)s.")
            % {"lines": len(lines), "rows": len(rows) - at}
        )
    names = size_names(document)
    column = names.index(size) if size in names else None
    filled: dict[str, str] = {}
    for number, (row, line) in enumerate(zip(rows[at:], lines, strict=False), start=1):
        if line.strip():
            filled[row.field] = _filled(row, _cells(line, len(names)), names, column, number)
    return filled


def _cells(line: str, many: int) -> list[str]:
    """The cells of a line: parted by tabs, else by semicolons, else by blanks."""
    mark = next((mark for mark in "\t;" if mark in line), None)
    cells = [cell.strip() for cell in line.split(mark)] if mark else line.split()
    is_named = len(cells) > 1 and re.search(r"[^\W\d_]", cells[0]) and len(cells) == many + 1
    return cells[1:] if is_named else cells


def _filled(
    row: GridRow, cells: list[str], names: list[str], column: int | None, number: int
) -> str:
    """The whole row with the cells in it."""
    if column is None and len(cells) not in (1, len(names)):
        raise PasteError(
            _("Line %(number)s has %(cells)s values, and %(sizes)s sizes are named.")
            % {"number": number, "cells": len(cells), "sizes": len(names)}
        )
    if column is None:
        return _joined(row, cells)
    if len(cells) > len(names) - column:
        raise PasteError(
            _("Line %(number)s has %(cells)s values, and from size %(size)s on there are %(left)s.")
            % {
                "number": number,
                "cells": len(cells),
                "size": names[column],
                "left": len(names) - column,
            }
        )
    before = names if row.field == "pattern.sizes" else words(row.typed)
    each = before * len(names) if len(before) == 1 else before
    whole = [*each, *[EMPTY] * len(names)][: max(len(each), len(names))]
    whole[column : column + len(cells)] = cells
    return _joined(row, whole)


def _joined(row: GridRow, cells: list[str]) -> str:
    if row.field == "pattern.sizes":
        return joined_names(cells)
    blank = "-" if row.is_list else ""
    return " ".join(re.sub(r"\s+", blank, cell) or EMPTY for cell in cells)
