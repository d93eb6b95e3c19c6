"""The fields of the changes: amounts with a way and a unit, short lists, counts."""

from collections.abc import Mapping
from typing import Any

from django import forms
from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy

from alterations.kinds import LONGEST_NAME, LONGEST_NOTE
from alterations.units import Length, parse_length
from gallery.contributions.fields import NumberField
from gallery.contributions.writing import refuse_control_characters, refuse_control_in_lines

CM_OR_INCHES = [("cm", gettext_lazy("cm")), ("in", gettext_lazy("inches"))]
ANY_UNIT = [*CM_OR_INCHES, ("rows", gettext_lazy("rows"))]
LESS = {"shorter", "narrower", "shallower"}
LONGER = [("longer", gettext_lazy("longer by")), ("shorter", gettext_lazy("shorter by"))]
WIDER = [("wider", gettext_lazy("wider by")), ("narrower", gettext_lazy("narrower by"))]
DEEPER = [("deeper", gettext_lazy("deeper by")), ("shallower", gettext_lazy("shallower by"))]
TALLER = [("taller", gettext_lazy("taller by")), ("shorter", gettext_lazy("shorter by"))]

HOW_MUCH = gettext_lazy("How much")

Fields = dict[str, forms.Field]
Typed = Mapping[str, Any]


class AmountField(forms.CharField):
    """An amount as typed; the library reads it, with its unit if one was written."""

    def __init__(self, example: str, label: Any = HOW_MUCH) -> None:
        super().__init__(
            label=label,
            required=False,
            max_length=40,
            widget=forms.TextInput(attrs={"inputmode": "text", "autocomplete": "off"}),
            help_text=format_lazy("{} {}", gettext_lazy("For example"), example),
            validators=[refuse_control_characters],
        )


class ChoiceOf(forms.ChoiceField):
    """A short list whose first line holds where nothing was chosen."""

    def __init__(self, label: Any, choices: list[tuple[str, Any]]) -> None:
        super().__init__(label=label, choices=choices, required=False)
        self.first = choices[0][0]

    def clean(self, value: Any) -> str:
        return super().clean(value) or self.first


def words_field(label: Any, *, longest: int = LONGEST_NAME, help_text: Any = "") -> forms.CharField:
    """A line of words."""
    return forms.CharField(
        label=label,
        required=False,
        max_length=longest,
        help_text=help_text,
        validators=[refuse_control_characters],
    )


def note_field(label: Any) -> forms.CharField:
    """Several lines of words."""
    return forms.CharField(
        label=label,
        required=False,
        max_length=LONGEST_NOTE,
        widget=forms.Textarea(attrs={"rows": 4}),
        validators=[refuse_control_in_lines],
    )


def count_field(label: Any, example: str, most: str = "3000") -> NumberField:
    """A whole number."""
    return NumberField(label=label, example=example, least="0", most=most)


def length_fields(
    stem: str, label: Any, ways: list[tuple[str, Any]], example: str, *, rows: bool = True
) -> Fields:
    """The three fields of one length: which way, how much, in which unit."""
    units = ANY_UNIT if rows else CM_OR_INCHES
    return {
        f"{stem}_way": ChoiceOf(label, ways),
        f"{stem}_amount": AmountField(example),
        f"{stem}_unit": ChoiceOf(gettext_lazy("In"), units),
    }


def length_typed(typed: Typed, stem: str) -> Length | None:
    """The length of a group, below zero where it says shorter or narrower; None where it is empty.

    Raises AlterationsError, with a sentence, where it cannot be read.
    """
    text = typed[f"{stem}_amount"].strip()
    if not text:
        return None
    length = parse_length(text, typed[f"{stem}_unit"], signed=False)
    is_less = typed.get(f"{stem}_way") in LESS
    if not length.amount:
        return None
    return Length(-length.amount, length.unit) if is_less else length


def width_typed(typed: Typed, stem: str) -> Length | None:
    """An amount that is a width or a depth in itself; nothing is not left out but refused later."""
    text = typed[f"{stem}_amount"].strip()
    return parse_length(text, typed[f"{stem}_unit"], signed=False) if text else None


def numbers_typed(typed: Typed, stem: str, names: tuple[str, ...]) -> dict[str, str]:
    """What was typed in numbers and words of a group, as the library's plain fields."""
    told = {name: typed.get(f"{stem}{name}") for name in names}
    return {name: str(value) for name, value in told.items() if value not in (None, "")}
