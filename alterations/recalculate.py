"""A garment recalculated: pattern, size and alterations in, every number before and after out."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from alterations.amounts import Amount, amount_of, metres_needed
from alterations.errors import KindError
from alterations.gauge import Gauge
from alterations.gauges import Gauges, fabric_gauge
from alterations.kinds import AnyAlteration
from alterations.measures import Measure, finished
from alterations.pattern import Pattern, Size
from alterations.reshape import reshape
from alterations.saying import gettext as _
from alterations.wish import Wish
from alterations.wishes import Yarns, wish_of, yarn_swap_of
from alterations.yarnkinds import Keep

MOST_NEEDLES = 2000

__all__ = ["Amount", "Garment", "Result", "recalculate"]


@dataclass(frozen=True)
class Garment:
    """One garment with all its numbers: the size, its gauge, its measurements in cm, its yarn."""

    size: Size
    gauge: Gauge
    measures: tuple[Measure, ...]
    amount: Amount


@dataclass(frozen=True)
class Result:
    """The garment as the pattern has it and as it was or will be made.

    needles is the bed it must fit on, None for hand needles; measured is the knitter's own gauge
    where she gave one, with which her own figures are compared; keeps_counts says that the counts
    were kept at another gauge, so that the garment changes its size; double_bed that ribs are
    knitted on two beds.
    """

    pattern: Pattern
    alterations: tuple[AnyAlteration, ...]
    before: Garment
    after: Garment
    wish: Wish
    gauges: Gauges
    needles: int | None = None
    measured: Gauge | None = None
    keeps_counts: bool = False
    double_bed: bool = False

    @cached_property
    def regauged(self) -> Size:
        """The size at the gauge worked in, before anything was made longer or wider."""
        return reshape(self.before.size, Wish(), self.gauges)

    @property
    def swap(self) -> Yarns | None:
        """The other yarn or strands, if any."""
        return yarn_swap_of(self.alterations)


def recalculate(
    pattern: Pattern,
    size_name: str,
    alterations: Sequence[AnyAlteration] = (),
    gauge: Gauge | None = None,
    *,
    keep: Keep = "measurements",
    needles: int | None = None,
    every_second: bool = False,
    double_bed: bool = False,
    by_hand: bool = False,
    measured: Gauge | None = None,
) -> Result:
    """Every number of that size before and after the alterations.

    `gauge` is the gauge worked in, over a washed swatch, keeping the pattern's measurements or its
    counts (`keep`); another yarn has its own of both, the gauge only if it was told; without any it
    is the pattern's own. `needles` is the
    knitter's bed (the pattern's without it; every second of them with thick yarn, two beds
    for ribs), `by_hand` says that there is none. `measured` is her
    own gauge where it only serves to compare her own figures. Refuses, as AlterationsError with a
    sentence, sizes and parts the pattern does not have, contradictions, and pieces of which nothing
    would be left.

    >>> from pathlib import Path
    >>> from alterations import BodyLength, parse_length, read_pattern
    >>> tunic = read_pattern(Path("gallery/demo/ostrimane_tunic.toml"))
    >>> longer = recalculate(tunic, "3", [BodyLength(parse_length("5 cm"))])
    >>> longer.after.size.piece("front").section("body").rows, longer.after.amount.metres
    (118, 1270)
    """
    size = pattern.size(size_name)
    swap = yarn_swap_of(alterations)
    worked = (swap.worked if swap else None) or gauge or pattern.gauge
    keeps_counts = (swap.keep if swap else keep) == "counts"
    gauges = Gauges(pattern, worked if keeps_counts else pattern.gauge, worked)
    wish = wish_of(pattern, size, alterations, gauges)
    made = reshape(size, wish, gauges)
    if measured is not None:
        _refuse_odd_fabrics(pattern, measured)
    amount = amount_of(metres_needed(gauges, size, made, swap), pattern, swap)
    return Result(
        pattern=pattern,
        alterations=tuple(alterations),
        before=base_garment(pattern, size),
        after=Garment(made, worked, finished(pattern, made, worked), amount),
        wish=wish,
        gauges=gauges,
        needles=None if by_hand else _bed(pattern, needles, every_second=every_second),
        measured=measured or gauge,
        keeps_counts=keeps_counts,
        double_bed=double_bed,
    )


def _refuse_odd_fabrics(pattern: Pattern, measured: Gauge) -> None:
    """Refuses (GaugeError) a gauge of hers at which one of the fabrics could not be knitted."""
    for fabric in pattern.fabrics:
        fabric_gauge(pattern, fabric.key, measured)


def _bed(pattern: Pattern, needles: int | None, *, every_second: bool) -> int | None:
    if needles is not None and not 1 <= needles <= MOST_NEEDLES:
        raise KindError(
            _("Give the needles of your bed, between 1 and %(most)s.") % {"most": MOST_NEEDLES}
        )
    there = needles or (pattern.machine.needles if pattern.machine else None)
    return max(there // 2, 1) if there and every_second else there


def base_garment(pattern: Pattern, size: Size) -> Garment:
    """A size as the pattern has it; worked out once for each size of a pattern."""
    known = pattern.kept.get(("garment", size.name))
    if isinstance(known, Garment) and known.size is size:
        return known
    amount = amount_of(Fraction(size.metres), pattern, None)
    garment = Garment(size, pattern.gauge, finished(pattern, size), amount)
    pattern.kept["garment", size.name] = garment
    return garment
