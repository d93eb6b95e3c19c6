"""How many stitches and rows a fabric has: the gauge, with the length it was measured over."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Literal

from alterations.errors import GaugeError
from alterations.rounding import Exact, exact, to_step
from alterations.saying import decimal_mark, gettext_noop
from alterations.saying import gettext as _

Basis = Literal["10cm", "4in", "nominal"]

# 4 in = 10.16 cm exactly (1 in = 2.54 cm). A nominal gauge ("10 cm or 4 in", taken as the same) is
# worked out in the unit the pattern's measurements have, which here is always centimetres.
BASIS_CM: dict[str, Fraction] = {
    "10cm": Fraction(10),
    "4in": Fraction("10.16"),
    "nominal": Fraction(10),
}
FEWEST, MOST = Fraction(2), Fraction(200)
# Munden's kr = c/w is about 1.3 for relaxed plain knit (from memory, unverified); the band around
# it is common practice.
RELAXED_RATIO = (Fraction("1.2"), Fraction("1.5"))
_ODD_STITCHES = gettext_noop(
    "A gauge of %(count)s stitches in 10 cm cannot be right; count again and give a number between "
    "%(fewest)s and %(most)s."
)
_ODD_ROWS = gettext_noop(
    "A gauge of %(count)s rows in 10 cm cannot be right; count again and give a number between "
    "%(fewest)s and %(most)s."
)


@dataclass(frozen=True)
class Gauge:
    """Stitches and rows over 10 cm, over 4 in, or nominally; refuses what cannot be knitted."""

    stitches: Fraction
    rows: Fraction
    basis: Basis = "10cm"

    def __post_init__(self) -> None:
        object.__setattr__(self, "stitches", exact(self.stitches))
        object.__setattr__(self, "rows", exact(self.rows))
        if self.basis not in BASIS_CM:
            raise GaugeError(
                _("Say whether the gauge was counted over 10 cm, over 4 in, or nominal.")
            )
        for sentence, value in ((_ODD_STITCHES, self.stitches), (_ODD_ROWS, self.rows)):
            if not FEWEST <= value <= MOST:
                raise GaugeError(
                    _(sentence) % {"count": shown(value), "fewest": FEWEST, "most": MOST}
                )

    @cached_property
    def stitches_per_cm(self) -> Fraction:
        """Wales per centimetre, w."""
        return self.stitches / BASIS_CM[self.basis]

    @cached_property
    def rows_per_cm(self) -> Fraction:
        """Courses per centimetre, c."""
        return self.rows / BASIS_CM[self.basis]

    @property
    def density(self) -> Fraction:
        """Stitches per square centimetre, S = w·c."""
        return self.stitches_per_cm * self.rows_per_cm

    @property
    def looks_relaxed(self) -> bool:
        """Whether rows to stitches lie in the band of a relaxed plain fabric (1.2 to 1.5)."""
        low, high = RELAXED_RATIO
        return low <= self.rows_per_cm / self.stitches_per_cm <= high

    def same_fabric(self, other: "Gauge") -> bool:
        """Whether both give the same stitches and rows per centimetre, whatever their basis."""
        return (self.stitches_per_cm, self.rows_per_cm) == (
            other.stitches_per_cm,
            other.rows_per_cm,
        )

    def scaled(self, widthwise: Fraction, lengthwise: Fraction) -> "Gauge":
        """The gauge of a second fabric that keeps its ratio to the first one's new gauge."""
        return Gauge(self.stitches * widthwise, self.rows * lengthwise, self.basis)

    def __str__(self) -> str:
        over = {"10cm": _("10 cm"), "4in": _("4 in"), "nominal": _("10 cm (nominal)")}
        return _("%(stitches)s stitches × %(rows)s rows = %(over)s") % {
            "stitches": shown(self.stitches),
            "rows": shown(self.rows),
            "over": over[self.basis],
        }


def from_swatch(count: int, measured_cm: Exact) -> Fraction:
    """Stitches (or rows) per 10 cm from a count over a measured width in cm, to one decimal.

    >>> from_swatch(40, Fraction("18.2"))
    Fraction(22, 1)
    """
    if count <= 0 or exact(measured_cm) <= 0:
        raise GaugeError(_("Count at least one stitch over a length greater than nothing."))
    return to_step(10 * count / exact(measured_cm), Fraction(1, 10))


def washed(per_10_cm: Exact, change_percent: Exact) -> Fraction:
    """The gauge after washing, from the one before and the change in length in per cent.

    Dimensional change as ISO 5077 counts it (from memory, unverified): negative is shrinkage.

    >>> float(round(washed(28, -5), 3))
    29.474
    """
    if exact(change_percent) <= -100:
        raise GaugeError(
            _("A fabric cannot shrink by its whole length; give the change in per cent.")
        )
    return exact(per_10_cm) / (1 + exact(change_percent) / 100)


def shown(value: Fraction) -> str:
    """A gauge figure with at most two decimals and no needless zeros."""
    text = f"{float(value):.2f}"  # for the eye only
    return text.rstrip("0").rstrip(".").replace(".", decimal_mark())
