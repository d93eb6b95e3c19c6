"""Which systems count how thick a yarn is, each with its exact factor to tex.

Hank lengths and constants agree with the table in the scope of ASTM D2260; tex itself is ISO 1144.
A ball band may print the rounded tex of ISO 2947, which stays within about 2 % of the exact one.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from alterations.errors import UnitError
from alterations.saying import gettext as _
from alterations.saying import gettext_noop

Kind = Literal["mass per length", "length per mass"]

# The international pound and yard, exact by definition.
GRAMS_PER_POUND = Fraction("453.59237")
METRES_PER_YARD = Fraction("0.9144")


@dataclass(frozen=True)
class CountSystem:
    """One way to count yarn, its title to be said through gettext.

    tex = count · factor where bigger is thicker (mass per length), tex = factor / count where
    bigger is finer (length per mass).
    """

    symbol: str
    title: str
    kind: Kind
    factor: Fraction
    also: tuple[str, ...] = ()


def _yards_per_pound(yards: int) -> Fraction:
    """The factor of a system of so many yards per pound: 1000 g/lb over its hank in metres."""
    return 1000 * GRAMS_PER_POUND / (yards * METRES_PER_YARD)


_ALL = (
    CountSystem("tex", gettext_noop("tex, g per 1000 m"), "mass per length", Fraction(1)),
    CountSystem(
        "dtex",
        gettext_noop("decitex, g per 10 000 m"),
        "mass per length",
        Fraction(1, 10),
        ("decitex",),
    ),
    CountSystem(
        "den", gettext_noop("denier, g per 9000 m"), "mass per length", Fraction(1, 9), ("denier",)
    ),
    CountSystem(
        "Nm", gettext_noop("metric count, m per g"), "length per mass", Fraction(1000), ("metric",)
    ),
    CountSystem(
        "NeC",
        gettext_noop("English cotton count, hanks of 840 yd per lb"),
        "length per mass",
        _yards_per_pound(840),
        ("Ne", "cotton"),
    ),
    CountSystem(
        "NeW",
        gettext_noop("worsted count, hanks of 560 yd per lb"),
        "length per mass",
        _yards_per_pound(560),
        ("worsted",),
    ),
    CountSystem(
        "NeL",
        gettext_noop("linen count, leas of 300 yd per lb"),
        "length per mass",
        _yards_per_pound(300),
        ("lea", "linen"),
    ),
    CountSystem(
        "run",
        gettext_noop("woollen run, 1600 yd per lb"),
        "length per mass",
        _yards_per_pound(1600),
        ("woollen run",),
    ),
    # 256 yd: an essay on yarn numbering, seen as a reproduction.
    CountSystem(
        "skein",
        gettext_noop("Yorkshire woollen skein, 256 yd per lb"),
        "length per mass",
        _yards_per_pound(256),
        ("yorkshire", "yorkshire skein"),
    ),
    CountSystem(
        "ypp",
        gettext_noop("yards per pound"),
        "length per mass",
        _yards_per_pound(1),
        ("yards per pound",),
    ),
)
SYSTEMS: dict[str, CountSystem] = {system.symbol: system for system in _ALL}
_NAMES = {name.casefold(): system for system in _ALL for name in (system.symbol, *system.also)}


def system_named(name: str) -> CountSystem:
    """The system of that symbol or name, capitals or not; refuses one it does not know.

    >>> system_named("worsted").symbol, system_named("denier").symbol
    ('NeW', 'den')
    """
    found = _NAMES.get(" ".join(str(name).split()).casefold())
    if found is None:
        raise UnitError(
            _("“%(text)s” is no yarn count system; choose one of %(known)s.")
            % {"text": str(name).strip()[:40], "known": ", ".join(SYSTEMS)}
        )
    return found
