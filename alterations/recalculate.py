"""A garment recalculated: pattern, size and alterations in, every number before and after out."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from alterations.errors import PatternError
from alterations.gauge import Gauge
from alterations.kinds import AnyAlteration, YarnSwap
from alterations.measures import Measure, finished
from alterations.pattern import Pattern, Size, Yarn
from alterations.reshape import Gauges, Wish, reshape
from alterations.rounding import up_to_ten
from alterations.stitches import knitted
from alterations.wishes import wish_of, yarn_swap_of
from alterations.yarn import (
    balls_of,
    calibration,
    grams_of,
    loop_length_cm,
    metres_of,
    swapped_metres,
)


@dataclass(frozen=True)
class Amount:
    """Yarn for one garment: metres to buy (up to the next ten), whole balls, grams."""

    yarn: Yarn
    metres: int
    balls: int
    grams: Fraction


@dataclass(frozen=True)
class Garment:
    """One garment with all its numbers: the size, its gauge, its measurements in cm, its yarn."""

    size: Size
    gauge: Gauge
    measures: tuple[Measure, ...]
    amount: Amount


@dataclass(frozen=True)
class Result:
    """The garment as the pattern has it and as it was or will be made."""

    pattern: Pattern
    alterations: tuple[AnyAlteration, ...]
    before: Garment
    after: Garment
    # The size at the gauge worked in, before anything was made longer or wider.
    regauged: Size

    @property
    def swap(self) -> YarnSwap | None:
        """The other yarn, if one was used."""
        return yarn_swap_of(self.alterations)

    @property
    def keeps_counts(self) -> bool:
        """Whether the counts were kept at another gauge, so that the garment changes its size."""
        return self.swap is not None and self.swap.keep == "counts"


def recalculate(
    pattern: Pattern,
    size_name: str,
    alterations: Sequence[AnyAlteration] = (),
    gauge: Gauge | None = None,
) -> Result:
    """Every number of that size before and after the alterations.

    `gauge` is the gauge worked in, over a washed swatch, keeping the pattern's measurements; the
    gauge of another yarn goes before it; without either it is the pattern's own. Refuses, as
    AlterationsError with a sentence, sizes and parts the pattern does not have, contradictions,
    and pieces of which nothing would be left.
    """
    size = pattern.size(size_name)
    swap = yarn_swap_of(alterations)
    worked = (swap.gauge if swap else None) or gauge or pattern.gauge
    keeps_counts = swap is not None and swap.keep == "counts"
    wish = wish_of(pattern, size, alterations, worked)
    measured = worked if keeps_counts else pattern.gauge
    gauges = Gauges(pattern, measured, worked)
    made = reshape(size, wish, gauges)
    yarn = _yarn(pattern, swap)
    published = Fraction(size.metres)
    metres = _metres(pattern, size, wish, made, worked, keeps_counts=keeps_counts)
    return Result(
        pattern=pattern,
        alterations=tuple(alterations),
        before=_garment(pattern, size, pattern.gauge, _amount(pattern.yarn, published)),
        after=_garment(pattern, made, worked, _amount(yarn, metres)),
        regauged=reshape(size, Wish(), gauges),
    )


def _garment(pattern: Pattern, size: Size, gauge: Gauge, amount: Amount) -> Garment:
    return Garment(size, gauge, finished(pattern, size, gauge), amount)


def _yarn(pattern: Pattern, swap: YarnSwap | None) -> Yarn:
    """The yarn used; where the ball band was not given whole, the pattern's ball counts."""
    if swap is None:
        return pattern.yarn
    yarn = replace(pattern.yarn, name=swap.name, fibre="")
    if swap.ball_grams is None or swap.ball_metres is None:
        return yarn
    return replace(yarn, ball_grams=swap.ball_grams, ball_metres=swap.ball_metres)


def _amount(yarn: Yarn, metres: Fraction) -> Amount:
    bought = up_to_ten(metres)
    return Amount(
        yarn=yarn,
        metres=bought,
        balls=balls_of(bought, yarn.ball_metres),
        grams=grams_of(bought, yarn.tex),
    )


def net_metres(pattern: Pattern, size: Size) -> Fraction:
    """Metres in all stitches of a size at the pattern's own gauge, without any allowance."""
    loop = loop_length_cm(pattern.gauge)
    return sum(
        (
            metres_of(stitches, loop * pattern.fabric(key).loop)
            for key, stitches in knitted(size).items()
        ),
        Fraction(0),
    )


def _metres(
    pattern: Pattern, size: Size, wish: Wish, made: Size, worked: Gauge, *, keeps_counts: bool
) -> Fraction:
    """Metres needed, from the published amount, which already holds the designer's own tension.

    At the pattern's gauge the stitch model scaled to it; at another gauge times the square root of
    the stitch densities: larger stitches of the same area take less yarn (loop length and area
    scale so), the same number of larger stitches takes more.
    """
    old = pattern.gauge
    same_counts = made if keeps_counts else reshape(size, wish, Gauges(pattern, old, old))
    metres = Fraction(size.metres)
    if same_counts != size:
        model = net_metres(pattern, size)
        if not model:
            raise PatternError(f"Size {size.name} of {pattern.name} has no stitches to count.")
        factor = calibration(size.metres, model, pattern.yarn.allowance_percent)
        metres = factor * net_metres(pattern, same_counts)
    if worked.same_fabric(old):
        return metres
    # The same number of stitches: the relation the other way round.
    before, after = (worked, old) if keeps_counts else (old, worked)
    return swapped_metres(metres, before, after)
