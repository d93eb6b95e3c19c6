"""What a sheet tells besides its changes: as the texts of the form's fields, and as words."""

from typing import Any

from django.utils.translation import gettext as _

from alterations.counted import TEN_CM
from alterations.records import store
from alterations.records.models import Sheet
from alterations.units import show_cm, show_in, spell
from alterations.wear import Measured, Wear
from gallery.contributions.garment_choices import ANOTHER, TENTH, bed_of

TEN = spell(TEN_CM)


def as_typed_garment(sheet: Sheet) -> dict[str, str]:
    """The texts of the form's fields, from which the form reads the very same sheet again."""
    told = {name: getattr(sheet, name) for name in store.TOLD}
    typed = {name: text_of(value) for name, value in told.items() if value not in (None, "")}
    stitches, rows = typed.pop("swatch_stitches", ""), typed.pop("swatch_rows", "")
    if stitches and rows and "swatch_counted_stitches" not in typed:
        typed |= {"swatch_counted_stitches": stitches, "swatch_counted_rows": rows}
        typed |= {"swatch_counted_over": TEN, "swatch_counted_high": TEN}
    return {"size": sheet.size_name, **typed, **_machine(typed)}


def _machine(typed: dict[str, str]) -> dict[str, str]:
    """The machine in the list; what it stands for by itself need not be typed again."""
    pitch, needles = typed.get("machine_pitch_mm", ""), typed.get("machine_needles", "")
    bed = bed_of(pitch)
    if bed is None or not needles:
        return {"machine": ANOTHER} if pitch or needles else {}
    is_usual = needles == str(bed.needles)
    return {
        "machine": pitch,
        "machine_pitch_mm": "",
        "machine_needles": "" if is_usual else needles,
    }


def text_of(value: Any) -> str:
    """A kept number without the noughts the database adds: 4.50 is 4.5; a text as it is."""
    text = str(value)
    if isinstance(value, str) or "." not in text:
        return text
    return text.rstrip("0").rstrip(".")


def counted_words(sheet: Sheet) -> str:
    """What she counted on her swatch: "40 stitches over 18.2 cm, 60 rows over 20.4 cm"."""
    if sheet.swatch_counted_stitches is None or sheet.swatch_counted_rows is None:
        return ""
    return _("%(stitches)s stitches over %(over)s, %(rows)s rows over %(high)s") % {
        "stitches": text_of(sheet.swatch_counted_stitches),
        "over": sheet.swatch_counted_over,
        "rows": text_of(sheet.swatch_counted_rows),
        "high": sheet.swatch_counted_high,
    }


def wear_rows(wear: Wear) -> list[tuple[str, str]]:
    """How it behaved, line by line, only what was told."""
    rows = [
        (_("Chest"), changed_words(wear.chest) if wear.chest else ""),
        (_("Length"), changed_words(wear.length) if wear.length else ""),
        (_("Pilled"), _label(Sheet.Pilled, wear.pilled)),
        (_("Split while knitting"), _label(Sheet.Split, wear.split)),
        (_("In the knitter's words"), wear.words),
    ]
    return [(what, words) for what, words in rows if words]


def _label(choices: Any, value: str) -> str:
    return str(choices(value).label) if value else ""


def changed_words(one: Measured) -> str:
    """One measure before and after in words: "60 cm → 57 cm: shrank by 3 cm (5 %)"."""
    facts = {
        "before": spell(one.before),
        "after": spell(one.after),
        "by": _amount(one),
        "percent": show_cm(abs(one.percent), TENTH),
    }
    if one.change_cm > 0:
        return _("%(before)s → %(after)s: grew by %(by)s (%(percent)s %%)") % facts
    if one.change_cm < 0:
        return _("%(before)s → %(after)s: shrank by %(by)s (%(percent)s %%)") % facts
    return _("%(before)s → %(after)s: stayed as it was") % facts


def _amount(one: Measured) -> str:
    """By how much it changed: in cm, and in inches too where she measured in inches."""
    cm = abs(one.change_cm)
    in_cm = f"{show_cm(cm, TENTH)} cm"
    return f"{show_in(cm)} in, {in_cm}" if one.before.unit == "in" else in_cm
