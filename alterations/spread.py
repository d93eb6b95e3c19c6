"""How values lie: smallest, quartiles, median, largest, exact and whatever their order."""

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate

from alterations.rounding import Exact

QUARTILES = (Fraction(0), Fraction(1, 4), Fraction(1, 2), Fraction(3, 4), Fraction(1))


@dataclass(frozen=True)
class Spread:
    """How so many values lie, in the unit they have."""

    count: int
    smallest: Fraction
    lower: Fraction
    median: Fraction
    upper: Fraction
    largest: Fraction

    def shown(self, fewest: int) -> "Spread | None":
        """The spread, or nothing where it stands for fewer values than may be shown."""
        return self if self.count >= fewest else None


class Tally:
    """Counts values as they come; equal values cost no room, so many thousands may come."""

    def __init__(self) -> None:
        # A pair of whole numbers is found again much faster than a Fraction is.
        self._times: Counter[tuple[int, int]] = Counter()

    def add(self, value: Exact) -> None:
        """One value more."""
        self._times[value.as_integer_ratio()] += 1

    def merge(self, other: "Tally") -> None:
        """All values of another tally too."""
        self._times.update(other._times)

    def spread(self) -> Spread | None:
        """How the values lie; None without a value."""
        if not self._times:
            return None
        values = sorted((Fraction(*ratio), times) for ratio, times in self._times.items())
        ends = list(accumulate(times for _, times in values))
        return Spread(ends[-1], *(_quantile(values, ends, share) for share in QUARTILES))


def spread_of(values: list[Fraction]) -> Spread | None:
    """How some values lie.

    >>> body = spread_of([Fraction(cm) for cm in (2, 3, 5, 10)])
    >>> str(body.lower), str(body.median), str(body.upper)
    ('11/4', '4', '25/4')
    """
    tally = Tally()
    for value in values:
        tally.add(value)
    return tally.spread()


def _quantile(values: list[tuple[Fraction, int]], ends: list[int], share: Fraction) -> Fraction:
    """The value below which a share of all lies.

    Definition 7 of Hyndman and Fan, "Sample Quantiles in Statistical Packages", The American
    Statistician 50 (1996), from memory, unverified: on the line through the sorted values at the
    place (n − 1)·share, counted from 0.
    """
    place = (ends[-1] - 1) * share
    below = place.numerator // place.denominator
    low, high = _at(values, ends, below), _at(values, ends, min(below + 1, ends[-1] - 1))
    return low + (place - below) * (high - low)


def _at(values: list[tuple[Fraction, int]], ends: list[int], place: int) -> Fraction:
    """The value at a place of the sorted row, counted from 0."""
    return next(value for (value, _), end in zip(values, ends, strict=True) if place < end)
