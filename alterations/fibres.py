"""What another fibre does to a garment: mass, thickness of yarn, how it hangs and recovers."""

from dataclasses import dataclass, replace
from fractions import Fraction

from alterations.compositions import Composition, Part, read_composition
from alterations.errors import KindError
from alterations.fibrenames import (
    FIBRES,
    VARIETIES,
    Fibre,
    fibres_named,
    is_cellulosic,
    is_low_recovery,
    known_fibre,
    without_superwash,
)
from alterations.fibrewords import fibre_in_words
from alterations.rounding import Exact, exact, square_root
from alterations.saying import gettext as _
from alterations.saying import gettext_noop

__all__ = [
    "ADVICE",
    "DENSITIES",
    "EFFECTS",
    "FIBRES",
    "VARIETIES",
    "Composition",
    "Density",
    "Effect",
    "Fibre",
    "Part",
    "advice_for",
    "density_of",
    "diameter_cm",
    "effect_of",
    "fibres_named",
    "is_cellulosic",
    "is_low_recovery",
    "known_fibre",
    "planned_length_cm",
    "read_composition",
    "relative_mass",
]

# A textile handbook's constant, seen as a reproduction; lofty hand-knitting yarns are thicker.
DIAMETER_CONSTANT = Fraction("0.00444")
TABLE = "Morton and Hearle, Physical Properties of Textile Fibres, table 5.1, as reproduced"
MEMORY = gettext_noop("from memory, unverified")
COMMON_PRACTICE = gettext_noop("common practice, no source")


@dataclass(frozen=True)
class Density:
    """Density of a fibre in g/cm³, dry and at 65 % relative humidity, each from lowest to highest,
    with its source; None where the source gives no figure of its own."""

    dry: tuple[Fraction, Fraction]
    humid: tuple[Fraction, Fraction] | None
    source: str = TABLE

    @property
    def usual(self) -> Fraction:
        """One figure to calculate with: at 65 % humidity where known, the middle of a range."""
        low, high = self.humid or self.dry
        return (low + high) / 2

    @property
    def is_verified(self) -> bool:
        """Whether a source was seen."""
        return self.source != MEMORY


def _one(dry: str, humid: str) -> Density:
    at_dry, at_humid = Fraction(dry), Fraction(humid)
    return Density((at_dry, at_dry), (at_humid, at_humid))


def _range(low: str, high: str, source: str = TABLE) -> Density:
    return Density((Fraction(low), Fraction(high)), None, source)


DENSITIES: dict[str, Density] = {
    "wool": _one("1.30", "1.31"),
    "silk": _one("1.34", "1.34"),
    "cotton": _one("1.55", "1.52"),  # lumen filled
    "viscose": _one("1.52", "1.49"),  # bamboo viscose is viscose
    "polyamide": _one("1.14", "1.14"),  # nylon 6 and 6.6
    "polyester": _one("1.39", "1.39"),
    "acrylic": _one("1.19", "1.19"),  # a German table of densities gives 1.17 and 1.15
    "modacrylic": _range("1.29", "1.34"),
    "acetate": _one("1.31", "1.32"),
    "flax": _range("1.50", "1.54", MEMORY),
    # The same protein as wool.
    "alpaca": _range("1.30", "1.32", MEMORY),
    "mohair": _range("1.30", "1.32", MEMORY),
    "cashmere": _range("1.30", "1.32", MEMORY),
}


@dataclass(frozen=True)
class Effect:
    """What a fibre does to the garment, and where that is known from."""

    sentence: str
    source: str = COMMON_PRACTICE


_SLACK = Effect(
    gettext_noop(
        "Little recovery: rib sags, the fabric is heavier, and length drops when worn or wet; "
        "washing may shorten and widen the knitting."
    ),
    gettext_noop(
        "common practice; shortening and widening shown by studies of cotton-type and flax weft "
        "knits"
    ),
)
_DRAPE = Effect(gettext_noop("Drape and shine, but little memory: long garments grow."))
EFFECTS: dict[str, Effect] = {
    "wool": Effect(
        gettext_noop("Springy and recovers its shape; felts unless it was treated against it.")
    ),
    "superwash wool": Effect(
        gettext_noop(
            "Drapes more than untreated wool and often lengthens in the wash: knit a big swatch, "
            "wash it and hang it up."
        )
    ),
    "cotton": _SLACK,
    "flax": _SLACK,
    "viscose": _SLACK,
    "silk": _DRAPE,
    "alpaca": _DRAPE,
    "acrylic": Effect(gettext_noop("Light; its length sets with heat, so do not iron it.")),
    "polyamide": Effect(gettext_noop("In a blend it adds wear resistance and little else.")),
}
ADVICE: tuple[str, ...] = (  # common practice, no source
    gettext_noop("Plan the length 2 to 5 per cent shorter: this fibre lets a garment grow."),
    gettext_noop("Knit it at a firmer gauge."),
    gettext_noop("Choose a lighter yarn."),
)
_SHORTER = Fraction(95, 100), Fraction(98, 100)


def density_of(fibre: str) -> Fraction:
    """Density in g/cm³ at 65 % relative humidity, the middle where a range is given; refuses a
    fibre the tables leave out.

    >>> density_of("cotton"), density_of("nylon")
    (Fraction(38, 25), Fraction(57, 50))
    """
    name = known_fibre(fibre).name
    if name not in DENSITIES:
        raise KindError(
            _("The density of %(fibre)s is not in our tables; choose one of %(known)s.")
            % {"fibre": fibre_in_words(name), "known": ", ".join(DENSITIES)}
        )
    return DENSITIES[name].usual


def diameter_cm(tex: Exact, fibre: str) -> Fraction:
    """Diameter in cm of a yarn of so many tex (g per 1000 m): 0.00444 · sqrt(tex / density).

    Source: a textile handbook, seen as a reproduction. Lofty hand-knitting yarns are thicker.

    >>> float(round(diameter_cm(400, "wool"), 4))
    0.0776
    """
    return DIAMETER_CONSTANT * square_root(exact(tex) / density_of(fibre))


def relative_mass(fibre: str, instead_of: str = "wool") -> Fraction:
    """How many times as heavy the same metres of equally thick yarn are (derived: at equal diameter
    tex goes with density).

    >>> float(round(relative_mass("cotton"), 2))
    1.16
    """
    return density_of(fibre) / density_of(instead_of)


def effect_of(fibre: str) -> Effect | None:
    """What the fibre does to a garment, or None where nothing is recorded; "superwash wool" is
    told from wool.

    >>> effect_of("acrylic").sentence
    'Light; its length sets with heat, so do not iron it.'
    """
    plain, is_superwash = without_superwash(fibre)
    name = known_fibre(plain).name
    found = EFFECTS.get(f"superwash {name}" if is_superwash else name)
    if found is None:
        return None
    return replace(found, sentence=_(found.sentence), source=_(found.source))


def planned_length_cm(length_cm: Exact) -> tuple[Fraction, Fraction]:
    """The length in cm to plan for a fibre of low recovery: 5 to 2 per cent less than wanted.

    >>> planned_length_cm(60)
    (Fraction(57, 1), Fraction(294, 5))
    """
    shortest, longest = _SHORTER
    return exact(length_cm) * shortest, exact(length_cm) * longest


def advice_for(composition: Composition) -> tuple[str, ...]:
    """What to offer a knitter who takes this yarn; nothing for one that recovers.

    >>> len(advice_for(read_composition("100 % linen")))
    3
    """
    return tuple(map(_, ADVICE)) if composition.is_low_recovery else ()
