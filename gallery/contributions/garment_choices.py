"""The lists of the section "The garment": sizes, the usual machines, the usual hand needles."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from django.utils.text import format_lazy
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from alterations.beds import BED_CLASSES, BedClass
from alterations.choosing import sizes_in_short
from alterations.pattern import Pattern
from alterations.records.models import Sheet
from alterations.units import show_cm, show_in

ANOTHER = "other"
TENTH = Fraction(1, 10)
# Sizes of hand needles in mm that are commonly sold (common practice, no source).
NEEDLE_SIZES = (
    *("2", "2.25", "2.5", "2.75", "3", "3.25", "3.5", "3.75", "4", "4.5", "5", "5.5"),
    *("6", "6.5", "7", "8", "9", "10", "12", "15", "20"),
)
NOT_TOLD = "not_told"
# Nothing is chosen beforehand, and what was chosen can be taken back.
KNITTED_ON = [
    (Sheet.Tool.MACHINE, Sheet.Tool.MACHINE.label),
    (Sheet.Tool.NEEDLES, Sheet.Tool.NEEDLES.label),
    (NOT_TOLD, gettext_lazy("I leave that open")),
]
KEEPS = [
    (
        Sheet.Keeps.COUNTS,
        gettext_lazy("as many stitches and rows as the pattern says (another size came out)"),
    ),
    (
        Sheet.Keeps.MEASUREMENTS,
        gettext_lazy("to the pattern's measures (with other stitch and row counts)"),
    ),
]
CLASS_NAMES: dict[str, Any] = {
    "fine": gettext_lazy("fine"),
    "standard": gettext_lazy("standard"),
    "mid": gettext_lazy("mid gauge"),
    "bulky": gettext_lazy("chunky"),
}


def machines() -> Iterator[tuple[str, Any]]:
    """The usual machines by distance and needles, and a place for all others."""
    yield "", gettext_lazy("Please choose")
    for bed in BED_CLASSES:
        words = gettext_lazy("{name}, {mm} mm, {needles} needles")
        name, mm = CLASS_NAMES[bed.name], show_cm(bed.pitch_mm, TENTH)
        yield value_of(bed), format_lazy(words, name=name, mm=mm, needles=bed.needles)
    yield ANOTHER, gettext_lazy("another machine")


def value_of(bed: BedClass) -> str:
    """A machine's value in the list: its distance in mm."""
    return show_cm(bed.pitch_mm, TENTH)


def bed_of(value: str) -> BedClass | None:
    """The machine of the list with that value; None for another one and for none."""
    return next((bed for bed in BED_CLASSES if value_of(bed) == value), None)


def size_choices(pattern: Pattern) -> list[tuple[str, str]]:
    """Each size with its finished chest in cm and inches where the pattern names it."""
    return [(size.name, _size_words(size.name, size.chest_cm)) for size in sizes_in_short(pattern)]


def _size_words(name: str, chest_cm: Fraction | None) -> str:
    if chest_cm is None:
        return name
    return _("%(size)s – chest %(cm)s cm (%(inches)s in)") % {
        "size": name,
        "cm": show_cm(chest_cm, TENTH),
        "inches": show_in(chest_cm),
    }
