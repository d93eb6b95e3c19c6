"""How a garment behaved: what washing and wearing did to it, whether it pilled, how it knitted."""

from dataclasses import dataclass
from fractions import Fraction

from alterations.errors import UnitError
from alterations.saying import gettext as _
from alterations.units import Length

# Beyond it one of the two was measured or written wrongly (common practice, no source).
LEAST, MOST = Fraction(1, 2), Fraction(2)


@dataclass(frozen=True)
class Measured:
    """One measure before and after washing or wearing, each in the unit it was given in."""

    before: Length
    after: Length

    def __post_init__(self) -> None:
        if min(self.before.amount, self.after.amount) <= 0:
            raise UnitError(_("A garment measures something; give lengths above zero."))
        if "rows" in (self.before.unit, self.after.unit):
            raise UnitError(_("Measure it in cm or inches, not in rows."))

    @property
    def change_cm(self) -> Fraction:
        """How much longer it is afterwards, in cm; below zero where it shrank."""
        return self.after.in_cm(1) - self.before.in_cm(1)

    @property
    def percent(self) -> Fraction:
        """Dimensional change as ISO 5077 counts it (from memory, unverified): below zero it shrank.

        >>> float(Measured(Length(Fraction(60)), Length(Fraction(57))).percent)
        -5.0
        """
        return self.change_cm / self.before.in_cm(1) * 100

    @property
    def is_plausible(self) -> bool:
        """Whether it neither halved nor doubled."""
        return LEAST <= self.after.in_cm(1) / self.before.in_cm(1) <= MOST


@dataclass(frozen=True)
class Wear:
    """What was told of it; what was not told is None or empty."""

    chest: Measured | None = None
    length: Measured | None = None
    pilled: str = ""
    split: str = ""
    words: str = ""

    @property
    def tells(self) -> bool:
        """Whether anything was told."""
        return self != Wear()
