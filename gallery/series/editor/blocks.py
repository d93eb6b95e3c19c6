"""A pasted block taken apart: lines, their names and units, their cells."""

import re
from dataclasses import dataclass

from django.utils.translation import gettext as _

MOST_LETTERS = 200_000
# The units of the site's own tables, and so of what is copied from them.
UNITS = ("stitches", "rows", "cm", "in", "m")
# A browser copies name, unit and numbers of those tables one below the other.
_NAME_ABOVE_UNIT = re.compile(rf"(?m)^([^\t\n]+)\n({'|'.join(UNITS)})[\t\n]")


class PasteError(ValueError):
    """A block that does not fit into the grid; its text is a sentence."""


@dataclass(frozen=True)
class Line:
    """One line: its number in the block, its cells, the unit named before them."""

    number: int
    cells: list[str]
    unit: str = ""

    @property
    def is_empty(self) -> bool:
        """Whether nothing stands in it; it keeps its place all the same."""
        return not any(self.cells)

    @property
    def is_heading(self) -> bool:
        """Whether it is one word or several without any number: the name of a piece."""
        first, *others = self.cells
        return not any(others) and _is_word(first) and first.lower() != "none"


def lines_of(block: str, sizes: int) -> list[Line]:
    """The lines of a block, the empty ones between them too; those at its end are passed over."""
    if len(block) > MOST_LETTERS:
        raise PasteError(_("The block is too long for the numbers of a pattern; paste less of it."))
    plain = re.sub(r"\r\n?", "\n", block)
    texts = _NAME_ABOVE_UNIT.sub(r"\1\t\2\t", plain).split("\n")
    while texts and not texts[-1].strip("\t ;"):
        texts.pop()
    return [_line(number, text, sizes) for number, text in enumerate(texts, start=1)]


def _line(number: int, text: str, sizes: int) -> Line:
    """One line, parted by tabs, else by semicolons, else by blanks; before exactly as many values
    as there are sizes may stand a name and a unit."""
    mark = next((mark for mark in "\t;" if mark in text), None)
    cells = [cell.strip() for cell in text.split(mark)] if mark else text.split()
    extra = len(cells) - sizes
    lead = cells[:extra] if extra > 0 else []
    most = 2 if mark else len(cells)
    if not lead or extra > most or not _are_names(lead, cells[extra:]):
        return Line(number, cells or [""])
    last = " ".join(lead).split()[-1]
    return Line(number, cells[extra:], last if last in UNITS else "")


def _are_names(lead: list[str], values: list[str]) -> bool:
    """Whether the first cells name the row: words, and no words among the values, since these
    could be names of sizes, of which none may get lost."""
    ends_in_number = len(lead) > 1 and re.match(r"\d", lead[-1])
    return _is_word(lead[0]) and not ends_in_number and not any(map(_is_size_word, values))


def _is_word(cell: str) -> bool:
    return bool(re.search(r"[^\W\d_]", cell)) and not re.search(r"\d", cell)


def _is_size_word(cell: str) -> bool:
    return _is_word(cell) and cell.lower() != "none"
