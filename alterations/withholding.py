"""Which counts of a table must not be shown, since they could point at one person.

Small counts are left out; and so that nobody finds them by taking what is shown from the total,
more is left out until what is missing in each row and column is no small count itself.
"""

from collections.abc import Callable, Hashable, Mapping
from typing import TypeVar

Row = TypeVar("Row", bound=Hashable)
Column = TypeVar("Column", bound=Hashable)


def hidden_in_row(counts: Mapping[Row, int], fewest: int) -> frozenset[Row]:
    """Which of several counts with one total are left out.

    >>> sorted(hidden_in_row({"1": 9, "2": 6, "3": 1}, 5))
    ['2', '3']
    """
    table = {(key, ""): count for key, count in counts.items()}
    return frozenset(row for row, _ in hidden_in_table(table, fewest))


def hidden_in_table(
    counts: Mapping[tuple[Row, Column], int],
    fewest: int,
    already: frozenset[Row] = frozenset(),
) -> frozenset[tuple[Row, Column]]:
    """Which cells of a table with totals are left out; rows already left out stay so.

    Where several could be taken the smallest is, then the first as given.
    """
    hidden = {cell for cell, count in counts.items() if 0 < count < fewest or cell[0] in already}
    rows = _lines(counts, lambda cell: cell[0])
    columns = _lines(counts, lambda cell: cell[1])
    too_few = True
    while too_few:
        found = [_one_more(line, counts, hidden, fewest) for line in (*rows, *columns)]
        more = {cell for cell in found if cell is not None}
        too_few = bool(more)
        hidden |= more
    return frozenset(hidden)


def _lines(
    counts: Mapping[tuple[Row, Column], int], along: Callable[[tuple[Row, Column]], Hashable]
) -> list[list[tuple[Row, Column]]]:
    lines: dict[Hashable, list[tuple[Row, Column]]] = {}
    for cell in counts:
        lines.setdefault(along(cell), []).append(cell)
    return list(lines.values())


def _one_more(
    line: list[tuple[Row, Column]],
    counts: Mapping[tuple[Row, Column], int],
    hidden: set[tuple[Row, Column]],
    fewest: int,
) -> tuple[Row, Column] | None:
    """The cell that must be left out too, if what is missing in the line is a small count."""
    missing = sum(counts[cell] for cell in line if cell in hidden)
    if not 0 < missing < fewest:
        return None
    left = [cell for cell in line if cell not in hidden and counts[cell]]
    return min(left, key=lambda cell: counts[cell], default=None)
