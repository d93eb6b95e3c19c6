"""Published body measurements by size, in inches, each with how well its figures are known.

Craft Yarn Council, Standards & Guidelines for Crochet and Knitting (YarnStandards.com). Most of the
figures are from memory and have to be checked against the original before anybody is shown them;
`shown_tables` of `alterations.bodies` gives only those that were seen elsewhere.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from alterations.saying import gettext as _
from alterations.saying import gettext_noop

Wearer = Literal["woman", "man", "child"]
Span = tuple[Fraction, Fraction]

# Names and sources are kept in English and said through gettext where they are shown.
MEMORY = gettext_noop("from memory, unverified")
TRADE_SHEETS = gettext_noop(
    "agrees with size ranges on trade pattern sheets that follow the Council's table"
)
DESIGNER = gettext_noop("agrees with a designer's published table based on the Council's")
_WEARERS = (gettext_noop("woman"), gettext_noop("man"), gettext_noop("child"))


@dataclass(frozen=True)
class BodyColumn:
    """One measurement over all sizes of a table, lowest and highest figure per size, in inches."""

    measurement: str
    inches: tuple[Span, ...]
    source: str = MEMORY

    @property
    def shown(self) -> str:
        """The measurement's name as it is shown."""
        return _(self.measurement)

    @property
    def is_verified(self) -> bool:
        """Whether the figures were seen outside memory."""
        return self.source != MEMORY


@dataclass(frozen=True)
class BodyTable:
    """The sizes of one kind of wearer and their measurements."""

    wearer: Wearer
    sizes: tuple[str, ...]
    columns: tuple[BodyColumn, ...]


def _spans(text: str) -> tuple[Span, ...]:
    """ "14–14.5 16" as ((14, 14.5), (16, 16))."""
    pairs = (entry.split("–") for entry in text.split())
    return tuple((Fraction(pair[0]), Fraction(pair[-1])) for pair in pairs)


def _column(measurement: str, figures: str, source: str = MEMORY) -> BodyColumn:
    return BodyColumn(measurement, _spans(figures), source)


WOMAN = BodyTable(
    "woman",
    ("XS", "S", "M", "L", "1X", "2X", "3X", "4X", "5X"),
    (
        _column(
            gettext_noop("chest or bust"),
            "28–30 32–34 36–38 40–42 44–46 48–50 52–54 56–58 60–62",
            TRADE_SHEETS,
        ),
        _column(
            gettext_noop("centre back neck to cuff"),
            "27–27.5 28–28.5 29–29.5 30–30.5 31–31.5 31.5–32 32.5–33 32.5–33 33–33.5",
        ),
        _column(gettext_noop("back waist length"), "16.5 17 17.25 17.5 17.75 18 18 18.5 18.5"),
        _column(gettext_noop("cross back"), "14–14.5 14.5–15 16–16.5 17–17.5 17.5 18 18 18.5 18.5"),
        _column(gettext_noop("arm length to underarm"), "16.5 17 17 17.5 17.5 18 18 18.5 18.5"),
        _column(gettext_noop("upper arm"), "9.75 10.25 11 12 13.5 15.5 17 18.5 19.5"),
        _column(
            gettext_noop("armhole depth"),
            "6–6.5 6.5–7 7–7.5 7.5–8 8–8.5 8.5–9 9–9.5 9.5–10 10–10.5",
        ),
        _column(gettext_noop("waist"), "23–24 25–26.5 28–30 32–34 36–38 40–42 44–45 46–47 49–50"),
        _column(gettext_noop("hips"), "33–34 35–36 38–40 42–44 46–48 52–53 54–55 56–57 61–62"),
    ),
)
# The Council's own rounded centimetres of the first column, for comparison only (from memory,
# unverified): what is shown is worked out from the inches.
WOMAN_CHEST_CM = _spans(
    "71–76 81–86 91.5–96.5 101.5–106.5 111.5–117 122–127 132–137 142–147 152–158"
)

MAN = BodyTable(
    "man",
    ("S", "M", "L", "XL", "XXL"),
    (
        _column(gettext_noop("chest"), "34–36 38–40 42–44 46–48 50–52"),
        _column(
            gettext_noop("centre back neck to cuff"), "32–32.5 33–33.5 34–34.5 35–35.5 36–36.5"
        ),
        _column(gettext_noop("back hip length"), "25–25.5 26.5–26.75 27–27.25 27.5–27.75 28–28.5"),
        _column(gettext_noop("cross back"), "15.5–16 16.5–17 17.5–18 18–18.5 18.5–19"),
        _column(gettext_noop("arm length to underarm"), "18 18.5 19.5 20 20.5"),
        _column(gettext_noop("upper arm"), "12 13 15 16 17"),
        _column(gettext_noop("armhole depth"), "8.5–9 9–9.5 9.5–10 10–10.5 10.5–11"),
    ),
)
CHILD = BodyTable(
    "child",
    ("2", "4", "6", "8", "10", "12", "14", "16"),
    (
        _column(gettext_noop("chest"), "21 23 25 26.5 28 30 31.5 32.5"),
        _column(gettext_noop("centre back neck to cuff"), "18 19.5 20.5 22 24 26 27 28"),
        _column(gettext_noop("back waist length"), "8.5 9.5 10.5 12.5 14 15 15.5 16", DESIGNER),
        _column(gettext_noop("cross back"), "9.25 9.75 10.25 10.75 11.25 12 12.25 13", DESIGNER),
        _column(
            gettext_noop("arm length to underarm"), "8.5 10.5 11.5 12.5 13.5 15 16 16.5", DESIGNER
        ),
        _column(gettext_noop("upper arm"), "7 7.5 8 8.5 8.75 9 9.25 9.5", DESIGNER),
        _column(gettext_noop("armhole depth"), "4.25 4.75 5 5.5 6 6.5 7 7.5", DESIGNER),
    ),
)
BODY_TABLES: tuple[BodyTable, ...] = (WOMAN, MAN, CHILD)
