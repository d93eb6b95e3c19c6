"""Which published yarn-weight category a gauge falls into, 0 (lace) to 7 (jumbo).

The figures are the Craft Yarn Council's Standard Yarn Weight System (YarnStandards.com), seen in
several reproductions that agree. The Council calls them guidelines and asks for its credit line.
"""

from dataclasses import dataclass
from fractions import Fraction

from alterations.errors import GaugeError
from alterations.gauge import Gauge
from alterations.rounding import Exact, exact, round_half_up
from alterations.saying import gettext as _
from alterations.saying import gettext_noop

CREDIT = "Source: Craft Yarn Council's www.YarnStandards.com"
LACE_NOTE = gettext_noop(
    "Lace is usually worked much looser than its range; for category 0 follow the pattern's gauge."
)
OVERLAP_NOTE = gettext_noop(
    "The published ranges overlap; wraps per inch alone cannot fix a category."
)
PER_4_IN = Fraction("1.016")  # 4 in = 10.16 cm exactly


@dataclass(frozen=True)
class Category:
    """One published row: stitches per 4 in of plain knitting, needles in mm and US sizes, wraps
    per inch as published. None is an open end."""

    number: int
    name: str
    usual_types: tuple[str, ...]
    fewest: int | None
    most: int
    needle_from_mm: Fraction
    needle_to_mm: Fraction | None
    us_needles: str
    wraps_per_inch: str

    @property
    def stitches(self) -> str:
        """The published stitches per 4 in, in words: "21–24"."""
        if self.fewest is None:
            return _("%(most)s and fewer") % {"most": self.most}
        return f"{self.fewest}–{self.most}"

    @property
    def shown_name(self) -> str:
        """Its name in the reader's language; the published one is the English name."""
        return _(self.name)


# name, usual types, stitches per 4 in, needles (from mm, to mm, US), wraps per inch
_Printed = tuple[str, str, tuple[int | None, int], tuple[str, str, str], str]
_PRINTED: tuple[_Printed, ...] = (
    (
        gettext_noop("Lace"),
        "fingering, 10-count thread",
        (33, 40),
        ("1.5", "2.25", "000–1"),
        "30–40+",
    ),
    (
        gettext_noop("Super fine"),
        "sock, fingering, baby",
        (27, 32),
        ("2.25", "3.25", "1–3"),
        "14–30",
    ),
    (gettext_noop("Fine"), "sport, baby", (23, 26), ("3.25", "3.75", "3–5"), "12–18"),
    (gettext_noop("Light"), "DK, light worsted", (21, 24), ("3.75", "4.5", "5–7"), "11–15"),
    (gettext_noop("Medium"), "worsted, afghan, aran", (16, 20), ("4.5", "5.5", "7–9"), "9–12"),
    (gettext_noop("Bulky"), "chunky, craft, rug", (12, 15), ("5.5", "8", "9–11"), "6–9"),
    # The lower needle limit was cut off in the copy seen; 8 mm is US 11, which was seen.
    (gettext_noop("Super bulky"), "super bulky, roving", (7, 11), ("8", "12.75", "11–17"), "5–6"),
    (gettext_noop("Jumbo"), "jumbo, roving", (None, 6), ("12.75", "", "17 and up"), "1–4"),
)


def _row(number: int, printed: _Printed) -> Category:
    name, types, (fewest, most), (thinnest, thickest, us_needles), wraps = printed
    upper = Fraction(thickest) if thickest else None
    usual = tuple(types.split(", "))
    return Category(number, name, usual, fewest, most, Fraction(thinnest), upper, us_needles, wraps)


CATEGORIES: tuple[Category, ...] = tuple(_row(*numbered) for numbered in enumerate(_PRINTED))


def category(number: int) -> Category:
    """The category of that number; refuses any but 0 to 7.

    >>> category(3).name, category(3).stitches
    ('Light', '21–24')
    """
    if not 0 <= number < len(CATEGORIES):
        raise GaugeError(
            _("There is no yarn-weight category %(number)s; choose one from 0 to 7.")
            % {"number": number}
        )
    return CATEGORIES[number]


def categories_of(gauge: Gauge) -> frozenset[int]:
    """The categories a gauge of plain knitting falls into; 2 and 3 overlap at 23 and 24 stitches.

    A nominal gauge ("10 cm or 4 in") already is the figure per 4 in and is not converted; one
    counted over 10 cm is.

    >>> sorted(categories_of(Gauge(Fraction(22), Fraction(30))))
    [3]
    """
    if gauge.basis == "10cm":
        return categories_of_stitches(gauge.stitches * PER_4_IN)
    return categories_of_stitches(gauge.stitches)


def categories_of_stitches(per_4in: Exact) -> frozenset[int]:
    """The categories of a number of stitches per 4 in, rounded to a whole number first, which
    closes the gaps between the published ranges (20.4). Refuses none at all.

    >>> sorted(categories_of_stitches(24)), sorted(categories_of_stitches(45))
    ([2, 3], [0])
    """
    if exact(per_4in) <= 0:
        raise GaugeError(_("Give the stitches in 4 inches, a number above zero."))
    count = round_half_up(per_4in)
    if count > CATEGORIES[0].most:
        return frozenset({0})
    return frozenset(row.number for row in CATEGORIES if (row.fewest or 0) <= count <= row.most)
