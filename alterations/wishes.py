"""All alterations of one garment added up to one wish, so that their order plays no part."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from alterations.errors import KindError
from alterations.gauge import Gauge
from alterations.kinds import (
    AnyAlteration,
    BodyLength,
    SleeveLength,
    SleeveWidth,
    WorkedInHalves,
    YarnSwap,
)
from alterations.pattern import Pattern, Size
from alterations.reshape import Wish
from alterations.units import Length

MOST_ALTERATIONS = 60
BODY, SLEEVE, WRIST = "body length", "sleeve length", "wrist"


def yarn_swap_of(alterations: Sequence[AnyAlteration]) -> YarnSwap | None:
    """The other yarn, if one was used; refuses two, since a garment has one main yarn."""
    swaps = {one for one in alterations if isinstance(one, YarnSwap)}
    if len(swaps) > 1:
        names = ", ".join(sorted(one.name for one in swaps))
        raise KindError(f"Two main yarns are given ({names}); keep one and note the other.")
    return next(iter(swaps), None)


def wish_of(
    pattern: Pattern, size: Size, alterations: Sequence[AnyAlteration], gauge: Gauge
) -> Wish:
    """What all alterations ask for together; rows become cm at the gauge worked in.

    Refuses (KindError) more than MOST_ALTERATIONS, and two different widths for one wrist.
    """
    if len(alterations) > MOST_ALTERATIONS:
        raise KindError(
            f"{len(alterations)} alterations are more than one garment can have; "
            f"give at most {MOST_ALTERATIONS}."
        )
    wish = Wish(
        lengths=_lengths(alterations, gauge),
        widths=_widths(alterations, gauge),
        halves=_halves(size, alterations),
    )
    return replace(wish, lengths={part: cm for part, cm in wish.lengths.items() if cm})


def _lengths(alterations: Sequence[AnyAlteration], gauge: Gauge) -> dict[str, Fraction]:
    added: dict[str, Fraction] = {}
    for one in alterations:
        if isinstance(one, BodyLength | SleeveLength):
            part = BODY if isinstance(one, BodyLength) else SLEEVE
            added[part] = added.get(part, Fraction(0)) + one.change.in_cm(gauge.rows_per_cm)
    return added


def _widths(alterations: Sequence[AnyAlteration], gauge: Gauge) -> dict[str, Fraction]:
    wrists: set[Length] = {one.wrist for one in alterations if isinstance(one, SleeveWidth)}
    widths = {wrist.in_cm(gauge.rows_per_cm) for wrist in wrists}
    if len(widths) > 1:
        raise KindError("Two different widths are given for the wrist; keep one of them.")
    return {WRIST: widths.pop()} if widths else {}


def _halves(size: Size, alterations: Sequence[AnyAlteration]) -> frozenset[str]:
    keys: set[str] = set()
    for one in alterations:
        if isinstance(one, WorkedInHalves):
            keys |= set(one.pieces) or {p.key for p in size.pieces if p.may_be_halved}
    return frozenset(keys)
