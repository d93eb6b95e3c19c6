"""Which cautions a recalculated garment calls for: its wearer, its sleeves, its parts, its yarn."""

from collections.abc import Iterator
from fractions import Fraction

from alterations.cautions import Caution, cautions_for, closing
from alterations.findings import findings
from alterations.kinds import BellSleeve, Extra, SleeveGirth, SleeveWidth, YarnSwap
from alterations.pattern import Pattern
from alterations.places import WRIST, parts_of
from alterations.recalculate import Result


def cautions_of(result: Result) -> tuple[Caution, ...]:
    """The cautions of a garment as made, the strong ones first; general texts, no legal advice."""
    extras = (one for one in result.alterations if isinstance(one, Extra))
    swap = result.swap
    return cautions_for(
        audience=result.pattern.audience,
        added=frozenset(one.part for one in extras if one.is_added),
        sleeve=frozenset(_sleeve(result)),
        garment=result.pattern.garment,
        raised_surface=isinstance(swap, YarnSwap) and swap.is_raised,
        fibres=(result.after.amount.yarn.fibre,),
    )


def care_of(result: Result) -> tuple[str, ...]:
    """Everything to be read before one begins: findings, cautions, and who governs."""
    cautions = [one.sentence for one in cautions_of(result)]
    last = [closing()] if cautions else []
    return (*(one.sentence for one in findings(result)), *cautions, *last)


def cautions_of_pattern(pattern: Pattern) -> tuple[Caution, ...]:
    """The cautions of the pattern as it stands."""
    return cautions_for(
        audience=pattern.audience,
        added=frozenset(),
        sleeve=frozenset(),
        garment=pattern.garment,
        raised_surface=False,
        fibres=(pattern.yarn.fibre,),
    )


def _sleeve(result: Result) -> Iterator[str]:
    for one in result.alterations:
        if isinstance(one, BellSleeve):
            yield "bell"
        if isinstance(one, SleeveGirth) and one.change.amount > 0:
            yield "wider"
        if isinstance(one, SleeveWidth) and one.wrist.in_cm(1) > _wrist_cm(result):
            yield "wider"


def _wrist_cm(result: Result) -> Fraction:
    """Visible width round the pattern's wrist."""
    found = parts_of(result.before.size).get(WRIST)
    if found is None:
        return Fraction(0)
    section = found[1]
    return (section.end - section.seams) / result.gauges.stitches_per_cm(section.fabric)[0]
