"""What was counted over a length, as a gauge; and whether 10 cm and 4 inches were mixed up."""

from dataclasses import dataclass, replace
from fractions import Fraction

from alterations.errors import GaugeError
from alterations.gauge import Gauge
from alterations.rounding import to_step
from alterations.saying import gettext as _
from alterations.units import Length

TEN_CM, FOUR_IN = Length(Fraction(10)), Length(Fraction(4), "in")
STANDARD_CM = (Fraction(10), Fraction("10.16"))  # 4 in = 10.16 cm exactly
TENTH, THOUSANDTH = Fraction(1, 10), Fraction(1, 1000)
# Policy, without a source: the two lengths lie 1.6 % apart, so figures that are a hundredth off
# the pattern's and hit it at less than half of that over the other length deserve a question.
OFF, HALF = Fraction(1, 100), Fraction(1, 2)


@dataclass(frozen=True)
class Counted:
    """So many stitches over a width, so many rows over a height, each in its own unit."""

    stitches: Fraction
    over: Length
    rows: Fraction
    high: Length

    @property
    def gauge(self) -> Gauge:
        """Stitches and rows per 10 cm; refuses (GaugeError) what cannot be knitted."""
        return Gauge(per_ten_cm(self.stitches, self.over), per_ten_cm(self.rows, self.high))

    def meant_otherwise(self, pattern: Gauge) -> "Counted | None":
        """The same counts over 4 inches instead of 10 cm, or the other way round, where so they
        fit the pattern's gauge markedly better; None where nothing needs to be asked."""
        if self.over != self.high or self.over not in (TEN_CM, FOUR_IN):
            return None
        other = FOUR_IN if self.over == TEN_CM else TEN_CM
        meant = replace(self, over=other, high=other)
        off, then = _off(self.gauge, pattern), _off(meant.gauge, pattern)
        return meant if off >= OFF and then < off * HALF else None


def per_ten_cm(count: Fraction, over: Length) -> Fraction:
    """Stitches or rows in 10 cm of a count over a length.

    Over 10 cm or 4 inches the count is itself a gauge and is converted exactly (to thousandths);
    over a swatch's own width it is a measurement and is kept to one decimal.

    >>> float(per_ten_cm(Fraction(22), FOUR_IN))
    21.654
    >>> float(per_ten_cm(Fraction(40), Length(Fraction("18.2"))))
    22.0
    """
    if over.unit == "rows" or over.amount <= 0 or count <= 0:
        raise GaugeError(_("Count at least one stitch, over some centimetres or inches."))
    cm = over.in_cm(1)
    return to_step(10 * count / cm, THOUSANDTH if cm in STANDARD_CM else TENTH)


def _off(gauge: Gauge, pattern: Gauge) -> Fraction:
    """How far a gauge is off the pattern's, as a share: the larger of stitches and rows."""
    pairs = (
        (gauge.stitches_per_cm, pattern.stitches_per_cm),
        (gauge.rows_per_cm, pattern.rows_per_cm),
    )
    return max(abs(one - wanted) / wanted for one, wanted in pairs)
