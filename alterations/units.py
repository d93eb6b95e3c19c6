"""What a person typed as a length, and how a length is shown: cm, inches, rows."""

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from alterations.errors import UnitError
from alterations.rounding import Exact, exact, round_half_up, to_step

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
                f"{spell(self)} is longer than any garment; "
                f"give a length of at most {LONGEST_CM} cm."
            )

    def _refuse_odd_rows(self) -> None:
        if self.amount.denominator != 1:
            raise UnitError("Rows are counted whole; give a number without a fraction.")
        if abs(self.amount) > LONGEST_ROWS:
            raise UnitError(
                f"{self.amount} rows are more than any garment has; give at most {LONGEST_ROWS}."
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
        raise UnitError("That is too long to be a length; write for example 12.5 cm or 5 in.")
    found = _SHAPE.fullmatch(_tidy(text))
    if found is None:
        raise UnitError(_not_read(text))
    amount = _amount(found)
    if amount < 0 and not signed:
        raise UnitError(f"“{text.strip()}” is below zero; give the length without a minus.")
    return _with_unit(amount, (found["unit"] or "").strip().lower(), default, text)


def parse_number(text: str, meaning: str = "a number") -> Fraction:
    """A plain number as a person types it: "12,5", "12.5", "１２"; refuses all else in a sentence.

    >>> parse_number("12,5")
    Fraction(25, 2)
    """
    found = _SHAPE.fullmatch(_tidy(text)) if len(text) <= LONGEST_TEXT else None
    if found is None or found["unit"]:
        raise UnitError(f"“{text.strip()[:LONGEST_TEXT]}” is no number; give the {meaning}.")
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
        raise UnitError("A fraction cannot have nothing below its line; write for example 1/2.")
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
        return "No length was given; write for example 12.5 cm, 5 in or 14 rows."
    return f"“{shown}” cannot be read as a length; write for example 12.5 cm, 5¾ in or 14 rows."


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
        return f"{show_in(cm)} in"
    in_cm = f"{show_cm(cm, step)} cm"
    return f"{in_cm} ({show_in(cm)} in)" if shown_in == "both" else in_cm


def spell(length: Length) -> str:
    """A length in its own unit, as a person would write it: "5 cm", "1¼ in", "14 rows"."""
    if length.unit == "rows":
        return f"{_decimal(length.amount)} row{'' if abs(length.amount) == 1 else 's'}"
    if length.unit == "in" and (length.amount * 4).denominator == 1:
        return f"{_quarters(length.amount)} in"
    return f"{_decimal(length.amount)} {length.unit}"


def _decimal(value: Fraction) -> str:
    """A value to at most two decimals, written out without passing through a float."""
    hundredths = round_half_up(abs(value) * 100)
    whole, rest = divmod(hundredths, 100)
    text = f"{whole}.{rest:02d}".rstrip("0").rstrip(".")
    return f"−{text}" if value < 0 and text != "0" else text


def _quarters(value: Fraction) -> str:
    whole, quarter = divmod(int(abs(value) * 4), 4)
    text = f"{whole if whole or not quarter else ''}{_QUARTERS[quarter]}"
    return f"−{text}" if value < 0 else text
