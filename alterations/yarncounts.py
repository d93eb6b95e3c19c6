"""How thick a yarn is: every count system to and from tex, plies, strands, metres and yards."""

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from alterations.countsystems import SYSTEMS, CountSystem, system_named
from alterations.errors import UnitError
from alterations.rounding import Exact, exact
from alterations.saying import decimal_mark, gettext_noop
from alterations.saying import gettext as _
from alterations.units import parse_number

__all__ = [
    "SYSTEMS",
    "CountSystem",
    "PliedCount",
    "from_tex",
    "held_together_tex",
    "metres_per_50_g",
    "metres_per_100_g",
    "plied_tex",
    "read_count",
    "system_named",
    "to_tex",
    "yards_per_ounce",
    "yards_per_pound",
]

OUNCES_PER_POUND = 16
MOST_PLIES = 12  # common practice: a larger "ply" is as likely a count, so it has to be asked
# No hand-knitting yarn is finer or thicker; a count outside is a slip of the finger or the system.
FINEST_TEX, THICKEST_TEX = Fraction(1), Fraction(100_000)
LONGEST_TEXT = 40


def to_tex(value: Exact, system: str) -> Fraction:
    """Tex (g per 1000 m) of a count in the system named; refuses a count of nothing or less.

    Sources: ASTM D2260, exact pound and yard.

    >>> float(round(to_tex(14, "NeW"), 3)), to_tex(3750, "den")
    (63.272, Fraction(1250, 3))
    """
    here = system_named(system)
    count = _above_zero(value, _COUNT)
    return count * here.factor if here.kind == "mass per length" else here.factor / count


def from_tex(tex: Exact, system: str) -> Fraction:
    """The count in the system named of a yarn of so many tex (g per 1000 m).

    >>> float(round(from_tex(30, "NeC"), 3))
    19.685
    """
    there = system_named(system)
    amount = _above_zero(tex, _TEX)
    return amount / there.factor if there.kind == "mass per length" else there.factor / amount


_COUNT = gettext_noop("A yarn count is a number above zero; read it off the ball band again.")
_TEX = gettext_noop("A yarn's tex is a number above zero; read it off the ball band again.")
_STRAND = gettext_noop("A strand's tex is a number above zero; read it off the ball band again.")


def _above_zero(value: Exact, sentence: str) -> Fraction:
    if exact(value) <= 0:
        raise UnitError(_(sentence))
    return exact(value)


def metres_per_100_g(tex: Exact) -> Fraction:
    """Metres in 100 g of a yarn of so many tex.

    >>> metres_per_100_g(400)
    Fraction(250, 1)
    """
    return 100_000 / _above_zero(tex, _TEX)


def metres_per_50_g(tex: Exact) -> Fraction:
    """Metres in 50 g of a yarn of so many tex."""
    return metres_per_100_g(tex) / 2


def yards_per_pound(tex: Exact) -> Fraction:
    """Yards in a pound of a yarn of so many tex; about 496 054.648 / tex.

    >>> float(round(yards_per_pound(Fraction(1250, 3)), 1))
    1190.5
    """
    return from_tex(tex, "ypp")


def yards_per_ounce(tex: Exact) -> Fraction:
    """Yards in an ounce (a sixteenth of a pound) of a yarn of so many tex."""
    return yards_per_pound(tex) / OUNCES_PER_POUND


def held_together_tex(parts: Iterable[Exact]) -> Fraction:
    """Tex of several strands held together: their sum; refuses no strand at all.

    >>> held_together_tex([100, 150])
    Fraction(250, 1)
    """
    strands = [_above_zero(part, _STRAND) for part in parts]
    if not strands:
        raise UnitError(_("Name at least one strand to hold together."))
    return sum(strands, Fraction(0))


def plied_tex(singles_tex: Exact, plies: int) -> Fraction:
    """Tex of so many equal singles plied, as their plain sum.

    Twisting shortens the singles, so the real yarn is a few per cent heavier (common practice):
    where the label gives metres per 100 g, use those.

    >>> plied_tex(Fraction(30), 2)
    Fraction(60, 1)
    """
    if plies < 1:
        raise UnitError(_("A yarn has at least one ply; give a whole number above zero."))
    return held_together_tex([singles_tex] * plies)


@dataclass(frozen=True)
class PliedCount:
    """A count with its plies, for example 2/28 worsted: two plies of singles of count 28."""

    plies: int
    singles: Fraction
    system: str

    @property
    def tex(self) -> Fraction:
        """Grams in 1000 m of the whole yarn, by the plain sum of its plies."""
        return plied_tex(to_tex(self.singles, self.system), self.plies)

    @property
    def resultant(self) -> Fraction:
        """The count of the whole yarn in its own system: singles / plies where bigger is finer."""
        return from_tex(self.tex, self.system)

    def __str__(self) -> str:
        return f"{self.plies}/{_plain(self.singles)} {self.system}"


def _plain(value: Fraction) -> str:
    text = str(float(value)).removesuffix(".0")  # for the eye only
    return text.replace(".", decimal_mark())


_SLASHES = str.maketrans({"⁄": "/", "∕": "/", "／": "/", "\u00a0": " "})
_SHAPE = re.compile(r"(?P<before>[^\W\d_]*)\s*(?P<numbers>[\d.,/ ]+?)\s*(?P<after>[^\W\d_]*)")


def read_count(text: str, system: str, plies: int | None = None) -> PliedCount:
    """Reads "2/28", "28/2", "28" in the system named, which a label's fraction does not tell.

    Custom writes plies first (worsted) or count first (metric, cotton); so the smaller number is
    the ply and the larger the count of the singles (common practice). Where they are equal or the
    smaller one is above 12 the sentence asks for the plies, which then decide.

    >>> str(read_count("28/2", "Nm")), float(round(read_count("2/28", "NeW").tex, 3))
    ('2/28 Nm', 63.272)
    """
    here = system_named(system)
    numbers = _numbers(text, here)
    if plies is None and len(numbers) == 1:
        plies = 1
    if len(numbers) == 1:
        numbers = (Fraction(plies or 1), numbers[0])
    ply, singles = _told_apart(numbers, plies, text)
    found = PliedCount(ply, singles, here.symbol)
    if not FINEST_TEX <= found.tex <= THICKEST_TEX:
        raise UnitError(
            _("%(count)s would be no yarn to knit with; check the number and the count system.")
            % {"count": found}
        )
    return found


def _numbers(text: str, system: CountSystem) -> tuple[Fraction, ...]:
    """The one or two numbers of a count; a system written beside them must be the one given."""
    if any(unicodedata.category(char) == "No" for char in text):
        raise UnitError(
            _("Write the count with a plain slash, for example 2/28, not “%(text)s”.")
            % {"text": text[:40]}
        )
    found = _SHAPE.fullmatch(unicodedata.normalize("NFKC", text).translate(_SLASHES).strip())
    parts = found["numbers"].split("/") if found and len(text) <= LONGEST_TEXT else []
    if found is None or not 1 <= len(parts) <= 2:
        raise UnitError(
            _("“%(text)s” cannot be read as a yarn count; write for example 2/28 or 28.")
            % {"text": text.strip()[:LONGEST_TEXT]}
        )
    for said in filter(None, (found["before"], found["after"])):
        if system_named(said) != system:
            raise UnitError(
                _("“%(text)s” names another count system than %(system)s; choose one.")
                % {"text": text.strip(), "system": system.symbol}
            )
    return tuple(_above_zero(parse_number(part, _("yarn count")), _COUNT) for part in parts)


def _told_apart(
    numbers: tuple[Fraction, ...], plies: int | None, text: str
) -> tuple[int, Fraction]:
    """Which number is the ply, which the count of the singles."""
    smaller, larger = sorted(numbers)
    if plies is not None:
        if plies not in numbers:
            raise UnitError(
                _("“%(text)s” does not hold the %(plies)s plies given; check both.")
                % {"text": text.strip(), "plies": plies}
            )
        return plies, larger if plies == smaller else smaller
    if smaller == larger or smaller > MOST_PLIES or smaller.denominator != 1:
        raise UnitError(
            _("“%(text)s” does not say which number is the plies; say how many plies it has.")
            % {"text": text.strip()}
        )
    return int(smaller), larger
