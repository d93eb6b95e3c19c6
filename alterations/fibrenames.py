"""Which names a fibre may carry on a label in the EU (and UK) and in the US, and what they mean.

EU: Regulation (EU) No 1007/2011, Annex I, by row number. US: Textile Fiber Products Identification
Act, 16 CFR 303, whose generic names are required for fibres of 5 % and more (303.6). The EU
regulation leaves out goods of home workers and self-employed tailors, the US Act handicraft
threads; this list only keeps one word for one fibre.
"""

import re
import unicodedata
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Literal

from alterations.errors import KindError
from alterations.fibrewords import GERMAN, GERMAN_VARIETIES, fibre_in_words
from alterations.saying import gettext as _

Family = Literal["animal", "cellulosic", "synthetic", "other"]

# Annex I was read for rows 1 to 20 and row 50; the others are from memory, unverified.
SEEN_ROWS = frozenset({*range(1, 21), 50})
_LITTLE_MEMORY = frozenset({"silk", "alpaca"})


@dataclass(frozen=True)
class Fibre:
    """One fibre: the name used here (the EU name where there is one), the US name where it is
    another or the only one, its family, its row in the EU list (None: US list only)."""

    name: str
    family: Family
    eu_row: int | None = None
    us_name: str = ""
    also: tuple[str, ...] = ()

    @property
    def is_verified(self) -> bool:
        """Whether the EU row was read; the US list of manufactured names is from memory."""
        return self.eu_row in SEEN_ROWS


_HAIRS = (
    "alpaca",
    "llama",
    "camel",
    "cashmere",
    "mohair",
    "angora",
    "vicuña",
    "yak",
    "guanaco",
    "cashgora",
    "beaver",
    "otter",
)
_PLANTS = {
    "cotton": 5,
    "kapok": 6,
    "jute": 9,
    "abaca": 10,
    "alfa": 11,
    "coir": 12,
    "broom": 13,
    "ramie": 14,
    "sisal": 15,
    "sunn": 16,
    "henequen": 17,
    "maguey": 18,
}
_SYNTHETIC = {  # from memory, unverified, except row 50
    "chlorofibre": 27,
    "fluorofibre": 28,
    "modacrylic": 29,
    "aramid": 31,
    "polyimide": 32,
    "polyester": 35,
    "polyethylene": 36,
    "polypropylene": 37,
    "polycarbamide": 38,
    "polyurethane": 39,
    "vinylal": 40,
    "trivinyl": 41,
    "elastomultiester": 45,
    "elastolefin": 46,
    "melamine": 47,
    "polypropylene/polyamide bicomponent": 49,
    "polyacrylate": 50,
}
# From memory, unverified (16 CFR 303.7). Which EU name each of these answers to is not claimed.
_US_ONLY = (
    "anidex",
    "elastoester",
    "fluoropolymer",
    "lastrile",
    "novoloid",
    "nytril",
    "olefin",
    "lastol",
    "PBI",
    "elasterell-p",
    "saran",
    "sulfar",
    "vinal",
    "vinyon",
)

FIBRES: tuple[Fibre, ...] = (
    Fibre("wool", "animal", 1, also=("sheep's wool",)),
    *(Fibre(hair, "animal", 2, also=(f"{hair} wool", f"{hair} hair")) for hair in _HAIRS),
    Fibre("animal hair", "animal", 3, also=("hair", "horsehair")),
    Fibre("silk", "animal", 4),
    *(Fibre(plant, "cellulosic", row) for plant, row in _PLANTS.items()),
    Fibre("flax", "cellulosic", 7, "linen", ("linen",)),
    Fibre("true hemp", "cellulosic", 8, also=("hemp",)),
    # Acetates are made from cellulose: counted with it, which is the careful side for cautions.
    Fibre("acetate", "cellulosic", 19),
    Fibre("alginate", "other", 20),
    # Rows 21 to 49 from memory, unverified.
    Fibre("cupro", "cellulosic", 21),
    Fibre("modal", "cellulosic", 22),
    Fibre("protein", "other", 23),
    Fibre("triacetate", "cellulosic", 24),
    # "Bamboo" is viscose; in the US "rayon made from bamboo" (from memory, unverified).
    Fibre(
        "viscose",
        "cellulosic",
        25,
        "rayon",
        ("rayon", "bamboo", "bamboo viscose", "viscose from bamboo", "rayon made from bamboo"),
    ),
    Fibre("acrylic", "synthetic", 26),
    Fibre("polyamide", "synthetic", 30, "nylon", ("nylon",)),
    Fibre("lyocell", "cellulosic", 33),
    Fibre("polylactide", "synthetic", 34, "PLA", ("PLA",)),
    Fibre("elastodiene", "other", 42, "rubber", ("rubber", "natural rubber")),
    Fibre("elastane", "synthetic", 43, "spandex", ("spandex",)),
    Fibre("glass fibre", "other", 44, "glass", ("glass", "glass fiber")),
    *(Fibre(name, "synthetic", row) for name, row in _SYNTHETIC.items()),
    *(Fibre(name, "synthetic", None, name) for name in _US_ONLY),
    Fibre("azlon", "other", None, "azlon"),
    Fibre("metallic", "other", None, "metallic"),
)

# Varieties and trade words are no fibre names: they are answered with the name to write.
VARIETIES: dict[str, str] = {
    "merino": "wool",
    "merino wool": "wool",
    "shetland": "wool",
    "shetland wool": "wool",
    "virgin wool": "wool",
    "lambswool": "wool",
    "lamb's wool": "wool",
    "pima": "cotton",
    "pima cotton": "cotton",
    "mercerised cotton": "cotton",
    "organic cotton": "cotton",
    "baby alpaca": "alpaca",
    "kid mohair": "mohair",
    "mulberry silk": "silk",
    **GERMAN_VARIETIES,
}


def _folded(text: str) -> str:
    plain = unicodedata.normalize("NFKC", text).replace("’", "'").replace("vicuna", "vicuña")
    return " ".join(plain.split()).casefold()


_BY_NAME = {
    _folded(name): fibre
    for fibre in FIBRES
    for name in (fibre.name, *fibre.also, *GERMAN.get(fibre.name, ()))
}


def known_fibre(name: str) -> Fibre:
    """The fibre of that EU or US name or synonym; refuses varieties and unknown names with the
    name to write.

    >>> known_fibre("nylon").name, known_fibre("Polyamide").us_name, known_fibre("bamboo").name
    ('polyamide', 'nylon', 'viscose')
    """
    asked = _folded(name)
    if asked in _BY_NAME:
        return _BY_NAME[asked]
    shown = " ".join(name.split())[:60]
    if not shown:
        raise KindError(_("No fibre was named; write for example wool, cotton or polyamide."))
    if asked in VARIETIES:
        raise KindError(
            _("“%(text)s” says which kind it is; write the fibre, %(fibre)s.")
            % {"text": shown, "fibre": fibre_in_words(VARIETIES[asked])}
        )
    near = get_close_matches(asked, _BY_NAME, n=1)
    if near:
        raise KindError(
            _("“%(text)s” is no fibre name; did you mean %(fibre)s?")
            % {"text": shown, "fibre": near[0]}
        )
    raise KindError(
        _(
            "“%(text)s” is no fibre name; write the one on the ball band, for example wool, cotton "
            "or polyamide."
        )
        % {"text": shown}
    )


def is_cellulosic(fibre: str) -> bool:
    """Whether the fibre is cellulose, from a plant or made from one.

    >>> is_cellulosic("rayon"), is_cellulosic("wool")
    (True, False)
    """
    return known_fibre(without_superwash(fibre)[0]).family == "cellulosic"


def is_low_recovery(fibre: str) -> bool:
    """Whether the fibre recovers little after stretching: cotton, linen, viscose, silk, alpaca
    (common practice); we count the other cellulose fibres with them.

    >>> is_low_recovery("linen"), is_low_recovery("wool")
    (True, False)
    """
    found = known_fibre(without_superwash(fibre)[0])
    return found.family == "cellulosic" or found.name in _LITTLE_MEMORY


def without_superwash(name: str) -> tuple[str, bool]:
    """Superwash is a treatment of wool, no fibre."""
    words = name.split()
    plain = [word for word in words if word.casefold() not in ("superwash", "(superwash)")]
    return " ".join(plain), len(plain) < len(words)


def fibres_named(text: str) -> tuple[Fibre, ...]:
    """Every fibre that a free text names, varieties too, in its order; never refuses. For cautions,
    which may not be missed because a sentence was not a label's.

    >>> [fibre.name for fibre in fibres_named("soft pima cotton with a little nylon")]
    ['cotton', 'polyamide']
    """
    found = (_meant(hit[0]) for hit in _ANY_NAME.finditer(_folded(text)))
    return tuple(dict.fromkeys(found))


def _meant(name: str) -> Fibre:
    return _BY_NAME.get(name) or _BY_NAME[VARIETIES[name]]


# Longest first: "polypropylene/polyamide bicomponent" is one fibre, "glass fibre" not "glass".
_ANY_NAME = re.compile(
    r"(?<!\w)(?:"
    + "|".join(sorted(map(re.escape, {*_BY_NAME, *VARIETIES}), key=len, reverse=True))
    + r")(?!\w)"
)
