"""How an alteration is written as short texts and read again, field by field."""

from collections.abc import Mapping
from fractions import Fraction

from alterations.errors import KindError
from alterations.gauge import Basis, Gauge
from alterations.saying import gettext as _
from alterations.units import Length, parse_number

Plain = dict[str, str]

LONGEST_NOTE = 2000
LONGEST_NAME = 120


def exactly(length: Length) -> str:
    """A length without any rounding, as parse_length reads it again: "61/12 in"."""
    return f"{length.amount} {length.unit}"


def needed(fields: Mapping[str, str], name: str, meaning: str) -> str:
    """A field that must be there; what it means is named already translated."""
    value = fields.get(name, "").strip()
    if not value:
        raise KindError(_("Please give %(meaning)s.") % {"meaning": meaning})
    return value


def number(fields: Mapping[str, str], name: str, meaning: str) -> Fraction | None:
    """A number that may be left out."""
    value = fields.get(name, "").strip()
    return parse_number(value, meaning) if value else None


def whole(fields: Mapping[str, str], name: str, meaning: str) -> int | None:
    """A whole number that may be left out; refuses fractions."""
    value = number(fields, name, meaning)
    if value is None:
        return None
    if value.denominator != 1:
        raise KindError(_("Give the %(meaning)s as a whole number.") % {"meaning": meaning})
    return int(value)


def one_of(
    fields: Mapping[str, str], name: str, choices: tuple[str, ...], meaning: str, default: str = ""
) -> str:
    """One of a few words; the default where the field is empty."""
    value = fields.get(name, "").strip() or default
    if value not in choices:
        raise KindError(
            _("Say %(meaning)s: one of %(choices)s.")
            % {"meaning": meaning, "choices": ", ".join(choices)}
        )
    return value


def is_yes(fields: Mapping[str, str], name: str) -> bool:
    """Whether a field says yes."""
    return fields.get(name, "").strip().lower() in ("yes", "true", "1")


def gauge_from(fields: Mapping[str, str]) -> Gauge | None:
    """The gauge in stitches, rows and basis; refuses half a gauge."""
    stitches = number(fields, "stitches", _("stitches of the gauge"))
    rows = number(fields, "rows", _("rows of the gauge"))
    if stitches is None and rows is None:
        return None
    if stitches is None or rows is None:
        raise KindError(
            _("A gauge needs both its stitches and its rows; please give the other one.")
        )
    basis: Basis = fields.get("basis") or "10cm"  # type: ignore[assignment]
    return Gauge(stitches, rows, basis)


def gauge_to(gauge: Gauge | None) -> Plain:
    """A gauge as gauge_from reads it."""
    if gauge is None:
        return {}
    return {"stitches": str(gauge.stitches), "rows": str(gauge.rows), "basis": gauge.basis}


def refuse_long_name(name: str, sentence: str) -> None:
    """Refuses a name that is empty or longer than a line, in that sentence, which has a place for
    the most letters."""
    if not name.strip() or len(name) > LONGEST_NAME:
        raise KindError(_(sentence) % {"most": LONGEST_NAME})
