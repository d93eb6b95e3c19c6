"""What a person typed as a length, and how a length is shown: cm, inches, rows."""

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from alterations.errors import UnitError
from alterations.rounding import Exact, exact, round_half_up, to_step
from alterations.saying import decimal_mark, ngettext
from alterations.saying import gettext as _

Unit = Literal["cm", "in", "rows"]
ShownIn = Literal["cm", "in", "both"]

CM_PER_INCH = Fraction("2.54")
LONGEST_CM = Fraction(300)  # no garment part is longer than a tall person with a train
LONGEST_ROWS = 3000
LONGEST_TEXT = 40

_UNITS: dict[str, Unit] = {
    "": "cm",
    "cm": "cm",
    "centimetre": "cm",
    "centimetres": "cm",
    "centimeter": "cm",
    "centimeters": "cm",
    "in": "in",
    "inch": "in",
    "inches": "in",
    '"': "in",
    "''": "in",
    "″": "in",
    "”": "in",
    "row": "rows",
    "rows": "rows",
    "r": "rows",
    # As shown lengths are spelled in German, so that what was shown can be typed again.
    "zentimeter": "cm",
    "zoll": "in",
    "reihe": "rows",
    "reihen": "rows",
}
_OTHER_UNITS = {"mm": Fraction(1, 10), "m": Fraction(100), "ft": Fraction("30.48")}
_SHAPE = re.compile(
    r"(?P<sign>[+-]?)\s*"
    r"(?:(?P<whole>\d+)\s+(?P<top>\d+)/(?P<bottom>\d+)"  # 5 3/4
    r"|(?P<alone>\d+)/(?P<under>\d+)"  # 1/2
    r"|(?P<plain>\d*[.,]?\d+|\d+[.,]))"  # 12  12.5  12,5  ,5
    r"\s*(?P<unit>[^\d\s+\-./,][^\d]*)?",
    re.ASCII,
)
_DASHES = str.maketrans({"−": "-", "–": "-", "—": "-", "⁄": "/", "\u00a0": " ", "＋": "+"})
_QUARTERS = {0: "", 1: "¼", 2: "½", 3: "¾"}


@dataclass(frozen=True)
class Length:
    """A length as the person gave it: a signed amount and its unit (cm, in or rows)."""

    amount: Fraction
    unit: Unit = "cm"

    def __post_init__(self) -> None:
        object.__setattr__(self, "amount", exact(self.amount))
        if self.unit == "rows":
            self._refuse_odd_rows()
        elif abs(self.amount) * _in_cm(self.unit) > LONGEST_CM:
            raise UnitError(
                _("%(length)s is longer than any garment; give a length of at most %(most)s cm.")
                % {"length": spell(self), "most": LONGEST_CM}
            )

    def _refuse_odd_rows(self) -> None:
        if self.amount.denominator != 1:
            raise UnitError(_("Rows are counted whole; give a number without a fraction."))
        if abs(self.amount) > LONGEST_ROWS:
            raise UnitError(
                _("%(rows)s rows are more than any garment has; give at most %(most)s.")
                % {"rows": self.amount, "most": LONGEST_ROWS}
            )

    def in_cm(self, rows_per_cm: Exact) -> Fraction:
        """The length in cm; rows are turned into cm at the given rows per cm."""
        if self.unit == "rows":
            return self.amount / exact(rows_per_cm)
        return self.amount * _in_cm(self.unit)

    def __str__(self) -> str:
        return spell(self)


def parse_length(text: str, default: Unit = "cm", *, signed: bool = True) -> Length:
    """Reads what a person types: "12,5 cm", "12.5", "5¾ in", '1/2"', "−4", "14 rows".

    Without a unit the default is taken. Full-width digits and typographic signs are understood.
    Refuses, with a sentence: nothing, words, NaN, infinity, lengths beyond 300 cm, fractions of a
    row, and (signed=False) anything below zero.

    >>> str(parse_length("5¾ in"))
    '5¾ in'
    """
    if len(text) > LONGEST_TEXT:
        raise UnitError(_("That is too long to be a length; write for example 12.5 cm or 5 in."))
    found = _SHAPE.fullmatch(_tidy(text))
    if found is None:
        raise UnitError(_not_read(text))
    amount = _amount(found)
    if amount < 0 and not signed:
        raise UnitError(
            _("“%(text)s” is below zero; give the length without a minus.") % {"text": text.strip()}
        )
    return _with_unit(amount, (found["unit"] or "").strip().lower(), default, text)


def parse_number(text: str, meaning: str = "a number") -> Fraction:
    """A plain number as a person types it: "12,5", "12.5", "１２"; refuses all else in a sentence,
    which names what the number means (already translated).

    >>> parse_number("12,5")
    Fraction(25, 2)
    """
    found = _SHAPE.fullmatch(_tidy(text)) if len(text) <= LONGEST_TEXT else None
    if found is None or found["unit"]:
        raise UnitError(
            _("“%(text)s” is no number; give the %(meaning)s.")
            % {"text": text.strip()[:LONGEST_TEXT], "meaning": meaning}
        )
    return _amount(found)


def _tidy(text: str) -> str:
    """Full-width digits made plain, ¾ made 3/4 with a space before it, signs made ASCII."""
    spaced = "".join(
        f" {char}" if unicodedata.category(char) == "No" and "/" in _folded(char) else char
        for char in text
    )
    return unicodedata.normalize("NFKC", spaced).translate(_DASHES).strip()


def _folded(char: str) -> str:
    return unicodedata.normalize("NFKC", char).translate(_DASHES)


def _amount(found: re.Match[str]) -> Fraction:
    if found["whole"]:
        amount = int(found["whole"]) + _quotient(found["top"], found["bottom"])
    elif found["alone"]:
        amount = _quotient(found["alone"], found["under"])
    else:
        amount = Fraction("0" + found["plain"].replace(",", ".").rstrip("."))
    return -amount if found["sign"] == "-" else amount


def _quotient(top: str, bottom: str) -> Fraction:
    if int(bottom) == 0:
        raise UnitError(_("A fraction cannot have nothing below its line; write for example 1/2."))
    return Fraction(int(top), int(bottom))


def _with_unit(amount: Fraction, unit: str, default: Unit, text: str) -> Length:
    if unit in _OTHER_UNITS:
        return Length(amount * _OTHER_UNITS[unit], "cm")
    if unit not in _UNITS:
        raise UnitError(_not_read(text))
    return Length(amount, _UNITS[unit] if unit else default)


def _not_read(text: str) -> str:
    shown = text.strip()
    if not shown:
        return _("No length was given; write for example 12.5 cm, 5 in or 14 rows.")
    return _(
        "“%(text)s” cannot be read as a length; write for example 12.5 cm, 5¾ in or 14 rows."
    ) % {"text": shown}


def _in_cm(unit: Unit) -> Fraction:
    return CM_PER_INCH if unit == "in" else Fraction(1)


def inches(cm: Exact) -> Fraction:
    """Centimetres as inches, exact."""
    return exact(cm) / CM_PER_INCH


def show_cm(cm: Exact, step: Fraction = Fraction(1, 2)) -> str:
    """Centimetres for the eye, to 0.5 cm unless another step is wanted: "63", "12.5".

    >>> show_cm(Fraction("63.14")), show_cm(Fraction("63.14"), Fraction(1, 10))
    ('63', '63.1')
    """
    return _decimal(to_step(cm, step))


def show_in(cm: Exact) -> str:
    """Centimetres shown as inches to the quarter: "41¾".

    >>> show_in(Fraction("106.68"))
    '42'
    """
    return _quarters(to_step(inches(cm), Fraction(1, 4)))


def show_length(cm: Exact, shown_in: ShownIn = "cm", step: Fraction = Fraction(1, 10)) -> str:
    """Centimetres with their unit: in cm, in inches to the quarter, or in both.

    >>> show_length(Fraction("63.14")), show_length(Fraction("63.14"), "both")
    ('63.1 cm', '63.1 cm (24¾ in)')
    """
    if shown_in == "in":
        return _("%(inches)s in") % {"inches": show_in(cm)}
    if shown_in == "both":
        return _("%(cm)s cm (%(inches)s in)") % {"cm": show_cm(cm, step), "inches": show_in(cm)}
    return _("%(cm)s cm") % {"cm": show_cm(cm, step)}


def spell(length: Length) -> str:
    """A length in its own unit, as a person would write it: "5 cm", "1¼ in", "14 rows"."""
    if length.unit == "rows":
        return ngettext("%(count)s row", "%(count)s rows", abs(int(length.amount))) % {
            "count": _decimal(length.amount)
        }
    if length.unit == "cm":
        return _("%(cm)s cm") % {"cm": _decimal(length.amount)}
    is_quarters = (length.amount * 4).denominator == 1
    shown = _quarters(length.amount) if is_quarters else _decimal(length.amount)
    return _("%(inches)s in") % {"inches": shown}


def _decimal(value: Fraction) -> str:
    text = show_number(abs(value))
    return f"−{text}" if value < 0 and text != "0" else text


def show_number(value: Fraction) -> str:
    """A value above zero to at most two decimals, with the reader's decimal mark; written out
    without passing through a float.

    >>> show_number(Fraction(25, 2)), show_number(Fraction(13))
    ('12.5', '13')
    """
    whole, rest = divmod(round_half_up(value * 100), 100)
    decimals = f"{rest:02d}".rstrip("0")
    return f"{whole}{decimal_mark()}{decimals}" if decimals else str(whole)


def _quarters(value: Fraction) -> str:
    whole, quarter = divmod(int(abs(value) * 4), 4)
    text = f"{whole if whole or not quarter else ''}{_QUARTERS[quarter]}"
    return f"−{text}" if value < 0 else text
