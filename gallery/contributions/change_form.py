"""What was changed: one group of fields for each kind, read into the library's own classes."""

from collections.abc import Callable, Iterator
from typing import Any

from django import forms
from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy

from alterations.errors import AlterationsError
from alterations.kinds import (
    LONGEST_NAME,
    LONGEST_NOTE,
    AnyAlteration,
    BodyLength,
    FreeNote,
    SleeveLength,
    SleeveWidth,
    YarnSwap,
)
from alterations.measures import finished, measure
from alterations.pattern import Pattern
from alterations.units import Length, parse_length
from gallery.contributions.fields import NumberField
from gallery.contributions.forms import SendingForm
from gallery.contributions.writing import refuse_control_characters, refuse_control_in_lines

LONGER, SHORTER = "longer", "shorter"
WRIST, WIDER, NARROWER = "wrist", "wider", "narrower"
UNITS = [("cm", gettext_lazy("cm")), ("in", gettext_lazy("inches"))]
WAYS = [(LONGER, gettext_lazy("longer by")), (SHORTER, gettext_lazy("shorter by"))]
WIDTHS = [
    (WRIST, gettext_lazy("the new width is")),
    (WIDER, gettext_lazy("wider by")),
    (NARROWER, gettext_lazy("narrower by")),
]
KEEPS = [
    ("measurements", gettext_lazy("the measurements (other stitch and row counts)")),
    ("counts", gettext_lazy("the pattern's stitch and row counts")),
]


class AmountField(forms.CharField):
    """An amount as typed; the library reads it, with its unit if one was written."""

    def __init__(self, example: str) -> None:
        super().__init__(
            label=gettext_lazy("How much"),
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


class ChangesForm(SendingForm):
    """Everything a knitter may have changed; a group left empty is nothing changed there."""

    body_length_way = ChoiceOf(gettext_lazy("The body is"), WAYS)
    body_length_amount = AmountField("5")
    body_length_unit = ChoiceOf(gettext_lazy("In"), [*UNITS, ("rows", gettext_lazy("rows"))])
    sleeve_length_way = ChoiceOf(gettext_lazy("The sleeves are"), WAYS)
    sleeve_length_amount = AmountField("4")
    sleeve_length_unit = ChoiceOf(gettext_lazy("In"), [*UNITS, ("rows", gettext_lazy("rows"))])
    sleeve_width_way = ChoiceOf(gettext_lazy("Round the wrist"), WIDTHS)
    sleeve_width_amount = AmountField("22,5")
    sleeve_width_unit = ChoiceOf(gettext_lazy("In"), UNITS)
    yarn_name = forms.CharField(
        label=gettext_lazy("Name of the yarn"),
        required=False,
        max_length=LONGEST_NAME,
        validators=[refuse_control_characters],
    )
    yarn_ball_grams = NumberField(
        label=gettext_lazy("Grams in one ball"), example="50", least="1", most="2000", places=1
    )
    yarn_ball_metres = NumberField(
        label=gettext_lazy("Metres in one ball"), example="120", least="1", most="9000", places=1
    )
    yarn_stitches = NumberField(
        label=gettext_lazy("Stitches in 10 cm"), example="21", least="2", most="200", places=1
    )
    yarn_rows = NumberField(
        label=gettext_lazy("Rows in 10 cm"), example="28", least="2", most="200", places=1
    )
    yarn_keep = ChoiceOf(gettext_lazy("You kept"), KEEPS)
    free_note = forms.CharField(
        label=gettext_lazy("What else you changed"),
        required=False,
        max_length=LONGEST_NOTE,
        widget=forms.Textarea(attrs={"rows": 4}),
        validators=[refuse_control_in_lines],
    )

    def __init__(self, *args: Any, pattern: Pattern, size_name: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.pattern, self.size_name = pattern, size_name
        self.alterations: tuple[AnyAlteration, ...] = ()

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        self.alterations = tuple(self._read())
        return cleaned

    def field_of(self, kind: str) -> str:
        """The field beside which a refusal of that kind is shown."""
        return _FIELD_OF.get(kind, "free_note")

    def _read(self) -> Iterator[AnyAlteration]:
        for kind, read in _READERS.items():
            field = self.field_of(kind)
            if any(name in self.errors for name in self.fields if name.startswith(_STEM[kind])):
                continue
            try:
                found = read(self)
            except AlterationsError as error:
                self.add_error(field, str(error))
            else:
                yield from [found] if found else []

    def _length(self, stem: str) -> Length | None:
        """The amount of one group, below zero where it says shorter or narrower."""
        text = self.cleaned_data[f"{stem}_amount"].strip()
        if not text:
            return None
        length = parse_length(text, self.cleaned_data[f"{stem}_unit"], signed=False)
        if not length.amount:
            return None
        is_less = self.cleaned_data[f"{stem}_way"] in (SHORTER, NARROWER)
        return Length(-length.amount, length.unit) if is_less else length

    def _body(self) -> BodyLength | None:
        change = self._length("body_length")
        return BodyLength(change) if change else None

    def _sleeves(self) -> SleeveLength | None:
        change = self._length("sleeve_length")
        return SleeveLength(change) if change else None

    def _wrist(self) -> SleeveWidth | None:
        width = self._length("sleeve_width")
        if self.cleaned_data["sleeve_width_way"] == WRIST:
            text = self.cleaned_data["sleeve_width_amount"].strip()
            unit = self.cleaned_data["sleeve_width_unit"]
            return SleeveWidth(parse_length(text, unit, signed=False)) if text else None
        if width is None:
            return None
        SleeveWidth(Length(abs(width.amount), width.unit))  # refuses rows, in its own words
        if self.size_name not in self.pattern.size_names:
            return None  # the missing size has its own sentence
        base = measure(finished(self.pattern, self.pattern.size(self.size_name)), "wrist")
        return SleeveWidth(Length(base + width.in_cm(1), "cm"))

    def _yarn(self) -> YarnSwap | None:
        told = ("name", "ball_grams", "ball_metres", "stitches", "rows")
        fields = {name: self.cleaned_data.get(f"yarn_{name}") for name in told}
        if not any(fields.values()):
            return None
        plain = {name: str(value) for name, value in fields.items() if value}
        return YarnSwap.from_plain({**plain, "keep": self.cleaned_data["yarn_keep"]})

    def _note(self) -> FreeNote | None:
        text = self.cleaned_data["free_note"]
        return FreeNote(text.replace("\r\n", "\n")) if text.strip() else None


_READERS: dict[str, Callable[[ChangesForm], AnyAlteration | None]] = {
    BodyLength.kind: ChangesForm._body,
    SleeveLength.kind: ChangesForm._sleeves,
    SleeveWidth.kind: ChangesForm._wrist,
    YarnSwap.kind: ChangesForm._yarn,
    FreeNote.kind: ChangesForm._note,
}
_STEM = {
    BodyLength.kind: "body_length",
    SleeveLength.kind: "sleeve_length",
    SleeveWidth.kind: "sleeve_width",
    YarnSwap.kind: "yarn_",
    FreeNote.kind: "free_note",
}
_FIELD_OF = {
    BodyLength.kind: "body_length_amount",
    SleeveLength.kind: "sleeve_length_amount",
    SleeveWidth.kind: "sleeve_width_amount",
    YarnSwap.kind: "yarn_name",
    FreeNote.kind: "free_note",
}
GROUPS = tuple(_STEM.values())
# Lists with a first line chosen beforehand: they tell nothing by themselves.
NEVER_TELLING = {f"{stem}_{part}" for stem in (*GROUPS, "yarn") for part in ("way", "unit", "keep")}
