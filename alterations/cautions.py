"""What to take care of when a garment is changed: cords, flames, small parts, skin.

General texts only. The facts behind them carry the published sources they are known from; none of
them is legal advice, and the site certifies nothing.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Literal

from alterations.errors import KindError
from alterations.fibrenames import Fibre, fibres_named
from alterations.saying import gettext as _
from alterations.saying import gettext_noop

Code = Literal["cord", "flame", "small parts", "skin"]
Strength = Literal["usual", "strong"]

CLOSING = gettext_noop(
    "These are general cautions. Local law governs; home-made gifts and goods for sale are treated "
    "differently. This site does not check or certify any garment."
)
AUDIENCES = ("adult", "child")
_CORDS = frozenset({"cord", "tie", "drawstring", "drawcord"})
_SMALL = frozenset({"button", "bead", "trim", "pompom", "toggle", "snap", "sequin"})
_WIDE_SLEEVES = frozenset({"bell", "wider"})
# What a pattern's file says it is, in English or German.
_ROBES = frozenset({"robe", "bathrobe", "gown", "bademantel", "morgenmantel"})
_NIGHT = frozenset(
    (
        "nightwear",
        "nightdress",
        "nightgown",
        "nightshirt",
        "sleepwear",
        "pyjama",
        "pajama",
        "nachthemd",
        "schlafanzug",
    )
)


@dataclass(frozen=True)
class Caution:
    """One caution: a short code, how strong it is, the text to show, the facts behind it with their
    sources."""

    code: Code
    strength: Strength
    sentence: str
    facts: tuple[str, ...]

    @property
    def said(self) -> "Caution":
        """The same with its texts in the reader's language; the constants below are written in
        English."""
        facts = tuple(_(fact) for fact in self.facts)
        return replace(self, sentence=_(self.sentence), facts=facts)


CORD = Caution(
    "cord",
    "strong",  # our own choice: the US rule calls such cords a substantial hazard
    gettext_noop(
        "Leave out cords and ties at neck and hood on children's clothes; they can catch and "
        "strangle. Rules differ by country."
    ),
    (
        gettext_noop(
            "US: children's upper outerwear counts as a substantial hazard with drawstrings at "
            "hood or neck in sizes 2T to 12, or at waist or bottom in sizes 2T to 16 where they "
            "reach more than 3 in (75 mm) out of the channel at full width, carry toggles or "
            "knots, or are not stitched fast at the back (16 CFR 1120, based on ASTM F1816)."
        ),
        gettext_noop(
            "EU and UK: up to 7 years (134 cm) no cords in the hood and neck area; from 7 to 14 "
            "years no drawstrings with free ends there (EN 14682:2014)."
        ),
    ),
)
FLAME = Caution(
    "flame",
    "usual",
    gettext_noop(
        "Wide or trailing sleeves and loose robes catch fire easily near cookers, candles and "
        "fires. Nightwear for children is regulated in many countries."
    ),
    (
        gettext_noop(
            "US: clothing fabrics are class 1 (normal), class 2 (intermediate, raised-fibre "
            "surfaces only) or class 3, which is not allowed in clothing (16 CFR 1610.61(a))."
        ),
        # The exemption is known from a secondary text and memory, hence the last words.
        gettext_noop(
            "US: plain surfaces of 2.6 oz/yd² (88.2 g/m²) or more, and fabrics wholly of acrylic, "
            "modacrylic, nylon, olefin, polyester or wool, need no test; fuzzy cotton or viscose "
            "is what needs thought (16 CFR 1610.1(d) as a secondary text gives it; amended with "
            "effect from 22 April 2024, so read the current text)."
        ),
    ),
)
FUZZY = gettext_noop(
    "Take special care here: a brushed or fuzzy surface of cotton, viscose or another cellulose "
    "fibre burns fast. Choose a smooth yarn, or wool."
)
NIGHTWEAR_FACTS = (
    gettext_noop(
        "US: children's sleepwear has rules of its own, 16 CFR 1615 (sizes 0 to 6X) and 16 CFR "
        "1616 (7 to 14); robes count as sleepwear, tight-fitting garments and those for infants up "
        "to 9 months do not."
    ),
    gettext_noop(
        "UK: children's nightdresses and dressing gowns must pass BS 5722, and adults' nightwear "
        "must carry a label; a child is under 13, but dressing gowns with a chest over 97 cm or "
        "sleeves over 69 cm, and nightdresses with a chest over 91 cm or longer than 122 cm, do "
        "not count as children's (Nightwear (Safety) Regulations 1985, SI 1985/2043)."
    ),
    gettext_noop("EU: children's nightwear has a voluntary standard (EN 14878:2007)."),
)
SMALL_PARTS = Caution(
    "small parts",
    "usual",
    gettext_noop(
        "Buttons and trims on clothes for under-threes must be fixed so that they cannot be pulled "
        "off."
    ),
    (
        gettext_noop(
            "US: the ban on small parts leaves out children's clothing and its accessories such as "
            "buttons; the hazard is real all the same (16 CFR 1501.3(d))."
        ),
        gettext_noop(
            "Europe: CEN/TR 16792:2014 recommends how firmly buttons on children's clothing should "
            "be attached; EN 71-1 is a standard for toys."
        ),
    ),
)
SKIN = Caution(
    "skin",
    "usual",
    gettext_noop("Coarse wool can itch; some elastics contain natural rubber."),
    # That elastodiene is natural rubber and elastane is not is from memory, unverified: no fact.
    (
        gettext_noop(
            "A review found no evidence that wool fibre is a skin allergen; coarse fibres of 30 to "
            "32 µm and more irritate (Zallmann and others, Acta Dermato-Venereologica 97, 2017, "
            "906–915)."
        ),
    ),
)
# Texts a page may always show, whatever the garment; each is shown as its .said.
GENERAL_CAUTIONS: tuple[Caution, ...] = (SMALL_PARTS, SKIN)


def cautions_for(
    *,
    audience: str,
    added: frozenset[str],
    sleeve: frozenset[str],
    garment: str,
    raised_surface: bool,
    fibres: tuple[str, ...],
) -> tuple[Caution, ...]:
    """The cautions a garment calls for, the strong ones first.

    audience: "adult" or "child", nothing else; added: features ("cord", "buttons"); sleeve:
    variants ("bell", "wider"); garment: its type ("robe"); fibres: names or label texts, of which
    unknown words are passed over, since a caution must not be lost to a spelling.

    >>> found = cautions_for(audience="child", added=frozenset({"cord"}), sleeve=frozenset(),
    ...     garment="cardigan", raised_surface=False, fibres=("wool",))
    >>> [caution.code for caution in found]
    ['cord']
    """
    if audience not in AUDIENCES:
        raise KindError(_("Say whether the garment is for an adult or for a child."))
    named = tuple(fibre for text in fibres for fibre in fibres_named(text))
    found = (
        *_cord(audience, added),
        *_flame(sleeve, garment, raised_surface, named),
        *_small_parts(audience, added),
        *_skin(added, named),
    )
    return tuple(sorted(found, key=lambda caution: caution.strength != "strong"))


def closing() -> str:
    """The sentence below all cautions: who governs, and what the site does not do."""
    return _(CLOSING)


def _cord(audience: str, added: frozenset[str]) -> Iterator[Caution]:
    if audience == "child" and _names_any(added, _CORDS):
        yield CORD.said


def _flame(
    sleeve: frozenset[str], garment: str, raised_surface: bool, fibres: tuple[Fibre, ...]
) -> Iterator[Caution]:
    at_night = _names_any((garment,), _ROBES | _NIGHT)
    if not at_night and not _names_any(sleeve, _WIDE_SLEEVES):
        return
    facts = FLAME.facts + NIGHTWEAR_FACTS if at_night else FLAME.facts
    caution = replace(FLAME, facts=facts).said
    if raised_surface and any(fibre.family == "cellulosic" for fibre in fibres):
        caution = replace(caution, strength="strong", sentence=f"{caution.sentence} {_(FUZZY)}")
    yield caution


def _small_parts(audience: str, added: frozenset[str]) -> Iterator[Caution]:
    if audience == "child" and _names_any(added, _SMALL):
        yield SMALL_PARTS.said


def _skin(added: frozenset[str], fibres: tuple[Fibre, ...]) -> Iterator[Caution]:
    """Only where rubber may be in it: said of every wool garment it would soon be read by nobody;
    GENERAL_CAUTIONS holds it for a page's foot."""
    if _names_any(added, frozenset({"elastic"})) or any(
        fibre.name == "elastodiene" for fibre in fibres
    ):
        yield SKIN.said


def _names_any(texts: Iterable[str], wanted: frozenset[str]) -> bool:
    """Whether any text has one of the words, singular or plural: "i-cords at the neck"."""
    words = {word for text in texts for word in re.findall(r"[a-z]+", text.casefold())}
    return any({word, word.removesuffix("s"), word.removesuffix("es")} & wanted for word in words)
