"""What one garment adds to statistics: a small row of numbers that names nobody."""

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from alterations.categories import categories_of
from alterations.entries import Entry, entries_of
from alterations.gauge import Gauge
from alterations.kinds import Extra, StrandsTogether, YarnSwap
from alterations.recalculate import Result

__all__ = ["Entry", "Outcome", "outcome_of"]

_IN_NO_NUMBER = YarnSwap | StrandsTogether | Extra  # changes that may leave every number alone


@dataclass(frozen=True)
class Outcome:
    """One garment: its size and its place among the pattern's sizes, what was changed, its yarn in
    metres, its gauge per 10 cm. It holds no name, no note, no number by which to find the garment.

    With strands held together the metres are those of one strand; the weight is that of all.
    """

    size: str
    size_at: int
    entries: tuple[Entry, ...]
    published_metres: int
    metres: int
    weight_percent: Fraction
    stitches_per_10cm: Fraction
    rows_per_10cm: Fraction
    categories: frozenset[int]
    is_unchanged: bool


def outcome_of(result: Result) -> Outcome:
    """The row of one result.

    weight_percent is how much heavier (below zero: lighter) than the pattern's garment.
    """
    before, after = result.before, result.after
    stitches, rows, categories = _gauge_figures(after.gauge)
    return Outcome(
        size=before.size.name,
        size_at=result.pattern.size_names.index(before.size.name),
        entries=entries_of(result),
        published_metres=before.amount.metres,
        metres=after.amount.metres,
        weight_percent=_percent(before.amount.grams, after.amount.grams),
        stitches_per_10cm=stitches,
        rows_per_10cm=rows,
        categories=categories,
        is_unchanged=_is_unchanged(result),
    )


@lru_cache(maxsize=1024)
def _gauge_figures(gauge: Gauge) -> tuple[Fraction, Fraction, frozenset[int]]:
    return 10 * gauge.stitches_per_cm, 10 * gauge.rows_per_cm, categories_of(gauge)


@lru_cache(maxsize=4096)
def _percent(before: Fraction, after: Fraction) -> Fraction:
    return 100 * (after - before) / before if before else Fraction(0)


def _is_unchanged(result: Result) -> bool:
    """Whether the garment is the pattern's, with nothing but words or counts told about it."""
    before, after = result.before, result.after
    # Whoever knits the pattern's counts in its yarn at a gauge of her own changed nothing.
    as_told = result.keeps_counts and result.swap is None
    same = before.size == after.size and (as_told or before.gauge.same_fabric(after.gauge))
    return same and not any(isinstance(one, _IN_NO_NUMBER) for one in result.alterations)
