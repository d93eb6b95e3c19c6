"""What may be told of many garments together, and what is withheld to point at nobody."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any, Self, TypeVar

from alterations.spread import Spread
from alterations.withholding import hidden_in_row, hidden_in_table

FEWEST = 5  # our own choice: fewer garments than this could point at one person
Categories = tuple[tuple[int, int], ...]


@dataclass(frozen=True)
class Counted:
    """Some garments of one size ("" for all sizes): how many, at which gauge per 10 cm, and how
    many in each published yarn category; a gauge in two categories counts in both."""

    size: str
    garments: int
    stitches_per_10cm: Spread | None
    categories: Categories

    def shown(self, fewest: int) -> Self:
        """The same with each figure left out that stands for too few garments."""
        spreads: dict[str, Any] = {
            name: value.shown(fewest)
            for name, value in vars(self).items()
            if isinstance(value, Spread)
        }
        return replace(self, **spreads)


@dataclass(frozen=True)
class Group(Counted):
    """All garments of a size: rows per 10 cm; metres of yarn as published, as used and the
    difference; how much heavier than the pattern's in per cent; how many changed nothing."""

    rows_per_10cm: Spread | None
    published_metres: Spread | None
    metres: Spread | None
    metres_more: Spread | None
    weight_percent: Spread | None
    unchanged: int | None


@dataclass(frozen=True)
class Line(Counted):
    """One kind of alteration in a size, narrowed by what where the kind has different places.

    By how much more than the pattern: cm in all that have an amount, rows where the knitter gave
    rows; of her own counts rows and stitches, less the computed ones.
    """

    kind: str
    what: str
    cm: Spread | None
    rows: Spread | None
    stitches: Spread | None


AnyCounted = TypeVar("AnyCounted", bound=Counted)


@dataclass(frozen=True)
class Summary:
    """Many garments together: everyone, each size, and a line for each kind (all sizes first).

    withheld says how many groups and lines are left out because too few garments stand in them.
    """

    garments: int
    everyone: Group | None
    sizes: tuple[Group, ...]
    lines: tuple[Line, ...]
    withheld: int = 0

    def shown(self, fewest: int = FEWEST) -> "Summary":
        """What may be shown to everybody: nothing that stands for fewer garments than `fewest`.

        Small counts are left out, and what would tell them by taking the sizes shown from the
        total. It guards each table by itself: somebody who knows a garment from elsewhere may
        still find its numbers among the smallest and the largest.
        """
        groups = _shown([*filter(None, [self.everyone]), *self.sizes], fewest)
        groups = _without_few_unchanged(groups, self.sizes, fewest)
        families = defaultdict(list)
        for line in self.lines:
            families[line.kind, line.what].append(line)
        lines = [line for family in families.values() for line in _shown(family, fewest)]
        known = int(self.everyone is not None) + len(self.sizes) + len(self.lines)
        return Summary(
            self.garments,
            next((group for group in groups if not group.size), None),
            tuple(group for group in groups if group.size),
            tuple(lines),
            self.withheld + known - len(groups) - len(lines),
        )


def _shown(family: Sequence[AnyCounted], fewest: int) -> list[AnyCounted]:
    """A total and its sizes as they may be shown; nothing where the total is too small."""
    if not family or family[0].garments < fewest:
        return []
    total, *sizes = family
    hidden = hidden_in_row({one.size: one.garments for one in sizes}, fewest)
    cells = {(one.size, number): times for one in sizes for number, times in one.categories}
    cut = hidden_in_table(cells, fewest, hidden)
    kept = [_kept(total, hidden_in_row(dict(total.categories), fewest), fewest)]
    for one in sizes:
        if one.size not in hidden:
            own = frozenset(number for size, number in cut if size == one.size)
            kept.append(_kept(one, own, fewest))
    return kept


def _kept(one: AnyCounted, cut: frozenset[int], fewest: int) -> AnyCounted:
    categories = tuple(pair for pair in one.categories if pair[0] not in cut)
    return replace(one.shown(fewest), categories=categories)


def _without_few_unchanged(groups: list[Group], sizes: Sequence[Group], fewest: int) -> list[Group]:
    """Leaves out how many changed nothing where that, or the rest, is a small count."""
    left_out = {one.size for one in sizes} - {one.size for one in groups}
    hidden = hidden_in_table(_halves(sizes), fewest, frozenset(left_out))
    hidden |= hidden_in_table(_halves([one for one in groups if not one.size]), fewest)
    gone = {size for size, _ in hidden}
    return [replace(one, unchanged=None) if one.size in gone else one for one in groups]


def _halves(groups: Sequence[Group]) -> dict[tuple[str, bool], int]:
    found: dict[tuple[str, bool], int] = {}
    for one in groups:
        found[one.size, True] = one.unchanged or 0
        found[one.size, False] = one.garments - (one.unchanged or 0)
    return found
