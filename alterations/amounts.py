"""How much yarn a garment takes as made: metres, balls and grams, each strand of its own."""

from dataclasses import dataclass, replace
from fractions import Fraction

from alterations.errors import PatternError
from alterations.gauges import Gauges
from alterations.pattern import Pattern, Size, Yarn
from alterations.reshape import reshape
from alterations.rounding import up_to_ten
from alterations.saying import gettext as _
from alterations.stitches import knitted
from alterations.wish import Wish
from alterations.wishes import Yarns
from alterations.yarn import (
    balls_of,
    calibration,
    grams_of,
    loop_length_cm,
    metres_of,
    swapped_metres,
    swatch_loop_cm,
)
from alterations.yarnkinds import StrandsTogether

TRUSTED_DIFFERENCE = Fraction(1, 10)  # beyond it a weighed swatch counts more than the formula


@dataclass(frozen=True)
class Amount:
    """Yarn for one garment: metres to buy (up to the next ten), whole balls, grams.

    With strands held together, metres are those of one strand, balls and grams of all together;
    strands then says each yarn by itself. Where the ball band is not known whole (is_ball_known),
    balls and grams are those of the pattern's ball, a stand-in nobody should buy by.
    """

    yarn: Yarn
    metres: int
    balls: int
    grams: Fraction
    strands: tuple["Amount", ...] = ()
    is_ball_known: bool = True


def amount_of(metres: Fraction, pattern: Pattern, swap: Yarns | None) -> Amount:
    """The yarn for so many metres of fabric; where the ball band was not given whole, the pattern's
    ball counts."""
    bought = up_to_ten(metres)
    if isinstance(swap, StrandsTogether):
        return _held_together(bought, pattern.yarn, swap)
    amount = _of_one(bought, _yarn(pattern.yarn, swap))
    return amount if swap is None or swap.tex else replace(amount, is_ball_known=False)


def _of_one(bought: int, yarn: Yarn, times: int = 1) -> Amount:
    balls = balls_of(times * bought, yarn.ball_metres)
    return Amount(yarn, bought, balls, times * grams_of(bought, yarn.tex))


def _held_together(bought: int, base: Yarn, swap: StrandsTogether) -> Amount:
    """Each strand needs all the metres; strands of one yarn share its balls."""
    parts = tuple(
        _of_one(
            bought,
            replace(
                base,
                name=one.name,
                fibre="",
                ball_grams=one.ball_grams,
                ball_metres=one.ball_metres,
            ),
            one.times,
        )
        for one in swap.strands
    )
    grams = sum((part.grams for part in parts), Fraction(0))
    held = replace(base, name=swap.name, fibre="", ball_grams=swap.tex, ball_metres=Fraction(1000))
    return Amount(held, bought, sum(part.balls for part in parts), grams, parts)


def _yarn(base: Yarn, swap: Yarns | None) -> Yarn:
    if swap is None or isinstance(swap, StrandsTogether):
        return base
    yarn = replace(base, name=swap.name, fibre=swap.fibre)
    if swap.ball_grams is None or swap.ball_metres is None:
        return yarn
    return replace(yarn, ball_grams=swap.ball_grams, ball_metres=swap.ball_metres)


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


def model_metres(pattern: Pattern, size: Size) -> Fraction:
    """net_metres of one of the pattern's own sizes, counted once."""
    known = pattern.kept.get(("net metres", size.name))
    if not isinstance(known, Fraction):
        known = pattern.kept["net metres", size.name] = net_metres(pattern, size)
    return known


def factor_of(pattern: Pattern, size: Size) -> Fraction:
    """How much more yarn the published amount holds than the stitch model of a size says; refuses a
    size without stitches."""
    model = model_metres(pattern, size)
    if not model:
        raise PatternError(
            _("Size %(size)s of %(pattern)s has no stitches to count.")
            % {"size": size.name, "pattern": pattern.name}
        )
    return calibration(size.metres, model, pattern.yarn.allowance_percent)


def weighed_loop_cm(swap: Yarns | None) -> Fraction | None:
    """Loop length in cm from a weighed swatch, where swatch and ball band tell enough."""
    swatch = swap.swatch if swap else None
    if swap is None or swatch is None or swatch.grams is None or swap.tex is None:
        return None
    return swatch_loop_cm(swatch.grams, swap.tex, swatch.stitches * swatch.rows)


def trusts_swatch(weighed: Fraction | None, formula: Fraction) -> bool:
    """Whether a weighed loop length is so far from the formula's that it counts instead."""
    return weighed is not None and abs(weighed / formula - 1) > TRUSTED_DIFFERENCE


def metres_needed(gauges: Gauges, size: Size, made: Size, swap: Yarns | None) -> Fraction:
    """Metres needed, from the published amount, which already holds the designer's own tension.

    At the pattern's gauge the stitch model scaled to it. At another gauge, keeping measurements,
    times the stitches made for those the size has there, and times the square root of the stitch
    densities: larger stitches of the same area take less yarn (loop length and area scale so). With
    the counts kept the same number of larger stitches takes more. A weighed swatch that is more
    than 10 % off the formula counts instead of it.
    """
    pattern, old, worked = gauges.pattern, gauges.pattern.gauge, gauges.worked
    metres = Fraction(size.metres)
    if gauges.same:
        if made != size:
            metres = factor_of(pattern, size) * net_metres(pattern, made)
        if not worked.same_fabric(old):  # the counts were kept
            metres = swapped_metres(metres, worked, old)
    else:
        there = reshape(size, Wish(), gauges)
        if made != there:
            metres *= net_metres(pattern, made) / net_metres(pattern, there)
        metres = swapped_metres(metres, old, worked)
    formula = loop_length_cm(worked)
    weighed = weighed_loop_cm(swap)
    return metres * weighed / formula if weighed and trusts_swatch(weighed, formula) else metres
