"""How much yarn a garment takes: tex, loop length, metres, balls and grams.

Loop length follows Munden's relation l = sqrt(ks / S) for relaxed plain knit (J. Text. Inst. 50,
1959, from memory, unverified); it sets a starting estimate, which the pattern's own published
amount then corrects.
"""

from fractions import Fraction
from typing import Literal

from alterations.errors import UnitError
from alterations.gauge import Gauge
from alterations.rounding import Exact, exact, round_up, square_root, up_to_ten
from alterations.saying import gettext as _

State = Literal["dry", "wet", "full"]

# ks for gauges per cm and loop length in cm, all from memory and unverified: dry-relaxed (rested),
# wet-relaxed (washed and dried flat), fully relaxed (washed and tumbled).
MUNDEN_KS: dict[str, Fraction] = {
    "dry": Fraction(19),
    "wet": Fraction("21.6"),
    "full": Fraction("23.1"),
}
TIGHTNESS_BAND = (Fraction(8), Fraction(17))  # common practice: net-like below, hard to knit above


def tex_of_ball(grams: Exact, metres: Exact) -> Fraction:
    """Tex (g per 1000 m) from a ball band; refuses an empty ball.

    >>> float(round(tex_of_ball(50, 120), 3))
    416.667
    """
    if exact(grams) <= 0 or exact(metres) <= 0:
        raise UnitError(_("A ball weighs something and holds some metres; give both above zero."))
    return 1000 * exact(grams) / exact(metres)


def loop_length_cm(gauge: Gauge, state: State = "wet") -> Fraction:
    """Yarn in one stitch of plain knit, in cm.

    >>> float(round(loop_length_cm(Gauge(Fraction(21), Fraction(28))), 5))
    1.91663
    """
    return square_root(MUNDEN_KS[state] / gauge.density)


def metres_of(stitches: int, loop_cm: Exact) -> Fraction:
    """Metres in so many stitches of a loop length in cm."""
    return stitches * exact(loop_cm) / 100


def grams_of(metres: Exact, tex: Exact) -> Fraction:
    """Grams of so many metres, unrounded."""
    return exact(metres) * exact(tex) / 1000


def fabric_mass(gauge: Gauge, loop_cm: Exact, tex: Exact) -> Fraction:
    """Grams in a square metre of the fabric."""
    return gauge.density * exact(loop_cm) * exact(tex) / 10


def tightness(tex: Exact, loop_cm: Exact) -> Fraction:
    """Tightness (cover) factor K = sqrt(tex) / l, l in cm."""
    return square_root(tex) / exact(loop_cm)


def loop_for_tightness(tex: Exact, wanted: Exact) -> Fraction:
    """The loop length in cm that gives a wanted tightness factor."""
    return square_root(tex) / exact(wanted)


def swatch_loop_cm(grams: Exact, tex: Exact, stitches: int) -> Fraction:
    """Loop length in cm from a weighed swatch: trust it above the formula."""
    if stitches <= 0 or exact(tex) <= 0:
        raise UnitError(_("A swatch has at least one stitch and its yarn a weight; give both."))
    return exact(grams) * 1000 / exact(tex) * 100 / stitches


def balls_of(metres: Exact, ball_metres: Exact, buffer_percent: Exact = 0) -> int:
    """Balls to buy, whole; the buffer is 0 where the metres already contain waste.

    >>> balls_of(1200, 95), balls_of(1000, 120, 10)
    (13, 10)
    """
    if exact(ball_metres) <= 0:
        raise UnitError(_("A ball holds some metres; give a number above zero."))
    return round_up(exact(metres) * (1 + exact(buffer_percent) / 100) / exact(ball_metres))


def swapped_metres(metres: Exact, old: Gauge, new: Gauge) -> Fraction:
    """Metres for the same measurements at another gauge: they scale with the square root of the
    stitch densities.

    >>> cotton = Gauge(Fraction(19), Fraction(26))
    >>> float(round(swapped_metres(1200, Gauge(Fraction(21), Fraction(28)), cotton), 1))
    1099.9
    """
    return exact(metres) * square_root(new.density / old.density)


def calibration(published: int, model: Fraction, allowance_percent: Fraction) -> Fraction:
    """How much more yarn the published amount holds than the stitch model says.

    Where the published figure is just the model plus the stated allowance, rounded up to ten
    metres, the allowance itself: rounding up is then no property of the yarn and is not scaled.
    Otherwise published / model, which keeps the designer's own tension and waste.
    """
    allowed = 1 + allowance_percent / 100
    if up_to_ten(allowed * model) == published:
        return allowed
    return published / model
