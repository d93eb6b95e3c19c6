"""What many garments have in common: per kind of alteration and per size, naming nobody.

outcome_of takes from each Result the few numbers that count, so that no Result need be kept;
summarise puts them together, whatever their order; Summary.shown withholds what could point at one
person.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping

from alterations.kinds import KINDS
from alterations.outcomes import Entry, Outcome, outcome_of
from alterations.rounding import Exact
from alterations.spread import Spread, Tally
from alterations.summary import FEWEST, Categories, Group, Line, Summary

__all__ = [
    "FEWEST",
    "Entry",
    "Group",
    "Line",
    "Outcome",
    "Spread",
    "Summary",
    "outcome_of",
    "summarise",
]

ALL = (-1, "")  # stands for all sizes, before the first one
_Size = tuple[int, str]  # a size's place in the pattern, and its name
_Kind = tuple[int, str, str]  # a kind's place in KINDS, its name, what narrows it
_PLACE_OF_KIND = {kind: place for place, kind in enumerate(KINDS)}


def summarise(outcomes: Iterable[Outcome]) -> Summary:
    """All garments, each size and each kind of alteration; every group, however small.

    Exact, and the same whatever the order. Show people only its shown().

    >>> from pathlib import Path
    >>> from alterations import BodyLength, parse_length, read_pattern, recalculate
    >>> tunic = read_pattern(Path("gallery/demo/ostrimane_tunic.toml"))
    >>> given = ["2 cm", "3 cm", "5 cm"]
    >>> made = [recalculate(tunic, "3", [BodyLength(parse_length(cm))]) for cm in given]
    >>> line = summarise(map(outcome_of, made)).lines[0]
    >>> line.kind, line.garments, str(line.cm.median), str(line.cm.upper)
    ('body_length', 3, '3', '4')
    """
    sizes: dict[_Size, _Bag] = defaultdict(_Bag)
    kinds: dict[_Kind, dict[_Size, _Bag]] = defaultdict(lambda: defaultdict(_Bag))
    for outcome in outcomes:
        size = (outcome.size_at, outcome.size)
        sizes[size].add(outcome, _figures(outcome))
        for entry in outcome.entries:
            kind = (_PLACE_OF_KIND[entry.kind], entry.kind, entry.what)
            kinds[kind][size].add(outcome, _amounts(entry))
    groups = [_group(size, bag) for (_, size), bag in _with_total(sizes)]
    return Summary(
        garments=sum(bag.garments for bag in sizes.values()),
        everyone=groups[0] if sizes else None,
        sizes=tuple(groups[1:]),
        lines=tuple(
            _line(kind, what, size, bag)
            for (_, kind, what), bags in sorted(kinds.items())
            for (_, size), bag in _with_total(bags)
        ),
    )


def _figures(outcome: Outcome) -> Mapping[str, Exact | None]:
    return {
        "rows_per_10cm": outcome.rows_per_10cm,
        "published_metres": outcome.published_metres,
        "metres": outcome.metres,
        "metres_more": outcome.metres - outcome.published_metres,
        "weight_percent": outcome.weight_percent,
    }


def _amounts(entry: Entry) -> Mapping[str, Exact | None]:
    return {"cm": entry.cm, "rows": entry.rows, "stitches": entry.stitches}


class _Bag:
    """The figures of some garments, each by its name, as they come."""

    def __init__(self) -> None:
        self.garments = self.unchanged = 0
        self.categories: Counter[int] = Counter()
        self.tallies: dict[str, Tally] = defaultdict(Tally)

    def add(self, outcome: Outcome, figures: Mapping[str, Exact | None]) -> None:
        """One garment more."""
        self.garments += 1
        self.unchanged += outcome.is_unchanged
        self.categories.update(outcome.categories)
        self.tallies["stitches_per_10cm"].add(outcome.stitches_per_10cm)
        for name, value in figures.items():
            if value is not None:
                self.tallies[name].add(value)

    def merge(self, other: "_Bag") -> None:
        """All garments of another bag too."""
        self.garments += other.garments
        self.unchanged += other.unchanged
        self.categories.update(other.categories)
        for name, tally in other.tallies.items():
            self.tallies[name].merge(tally)

    def spread(self, name: str) -> Spread | None:
        """How a figure lies; None where no garment has it."""
        return self.tallies[name].spread() if name in self.tallies else None


def _with_total(bags: Mapping[_Size, _Bag]) -> list[tuple[_Size, _Bag]]:
    """All sizes together, then each size in the pattern's order."""
    total = _Bag()
    for bag in bags.values():
        total.merge(bag)
    return [(ALL, total), *sorted(bags.items(), key=lambda pair: pair[0])]


def _group(size: str, bag: _Bag) -> Group:
    return Group(
        size=size,
        garments=bag.garments,
        stitches_per_10cm=bag.spread("stitches_per_10cm"),
        categories=_categories(bag),
        rows_per_10cm=bag.spread("rows_per_10cm"),
        published_metres=bag.spread("published_metres"),
        metres=bag.spread("metres"),
        metres_more=bag.spread("metres_more"),
        weight_percent=bag.spread("weight_percent"),
        unchanged=bag.unchanged,
    )


def _line(kind: str, what: str, size: str, bag: _Bag) -> Line:
    return Line(
        size=size,
        garments=bag.garments,
        stitches_per_10cm=bag.spread("stitches_per_10cm"),
        categories=_categories(bag),
        kind=kind,
        what=what,
        cm=bag.spread("cm"),
        rows=bag.spread("rows"),
        stitches=bag.spread("stitches"),
    )


def _categories(bag: _Bag) -> Categories:
    return tuple(sorted(bag.categories.items()))
