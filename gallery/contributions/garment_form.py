"""The form of the section "The garment": size, tools, swatch, and how it behaved."""

from decimal import Decimal
from fractions import Fraction
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from alterations.beds import BedClass
from alterations.counted import Counted
from alterations.errors import AlterationsError
from alterations.gauge import Gauge
from alterations.pattern import Pattern
from alterations.records.models import Sheet
from alterations.records.store import Knitter
from alterations.units import Unit, parse_length, show_cm
from alterations.wear import Measured
from gallery.contributions.fields import LengthField, NumberField
from gallery.contributions.forms import SendingForm
from gallery.contributions.garment_choices import (
    KEEPS,
    KNITTED_ON,
    NOT_TOLD,
    bed_of,
    machines,
    size_choices,
)
from gallery.contributions.models import Contribution
from gallery.contributions.writing import refuse_control_in_lines

MOST_CARDS = 12  # more sizes are a list, not cards: a phone would scroll for ever
LONGEST_BEHAVED = 2000
STANDARD_OVER: dict[str, str] = {"cm": "10 cm", "in": "4 in"}
OF_MACHINE = ("machine_pitch_mm", "machine_needles", "bed")
MEASURED = ("chest", "length")
# Names of fields in drafts from before the swatch was asked for as it was counted.
EARLIER_NAMES = {
    "swatch_stitches": "swatch_counted_stitches",
    "swatch_rows": "swatch_counted_rows",
}


def _counted_field(label: Any, example: str) -> NumberField:
    return NumberField(label=label, example=example, least="1", most="2000", places=1)


def _over_field(label: Any, example: str) -> LengthField:
    return LengthField(
        label, example, help_text=gettext_lazy("10 cm, 4 in, or for example 18,2 cm")
    )


class GarmentForm(SendingForm):
    """Size, stage, tools, swatch, and how the garment behaved. Only the size is needed."""

    size = forms.ChoiceField(
        label=gettext_lazy("Size you made"),
        error_messages={"required": gettext_lazy("Please choose the size you made.")},
    )
    help_chest = forms.CharField(
        label=gettext_lazy("Chest, all the way round"), required=False, max_length=40
    )
    help_length = forms.CharField(
        label=gettext_lazy("Length to the shoulder"), required=False, max_length=40
    )
    stage = forms.ChoiceField(
        label=gettext_lazy("How far it is"), required=False, choices=Contribution.Stage.choices
    )
    tool = forms.ChoiceField(
        label=gettext_lazy("Knitted on"),
        required=False,
        choices=KNITTED_ON,
        widget=forms.RadioSelect,
    )
    machine = forms.ChoiceField(
        label=gettext_lazy("Which machine"),
        required=False,
        choices=machines,
        help_text=gettext_lazy(
            "By the distance from one needle to the next. The number of needles is the usual one; "
            "if your bed has another, give it below."
        ),
    )
    machine_pitch_mm = NumberField(
        label=gettext_lazy("Needle distance, in mm"),
        example="4.5",
        least="1.5",
        most="20",
        places=1,
        unit="mm",
        help_text=gettext_lazy("From one needle to the next."),
    )
    machine_needles = NumberField(
        label=gettext_lazy("Needles on the bed"),
        example="150",
        least="10",
        most="400",
        help_text=gettext_lazy("For example 150 or 200."),
    )
    bed = forms.ChoiceField(
        label=gettext_lazy("Its needles are used"), required=False, choices=Sheet.Bed.choices
    )
    needle_mm = NumberField(
        label=gettext_lazy("Hand needles, in mm"),
        example="3.75",
        least="0.5",
        most="40",
        places=2,
        unit="mm",
        help_text=gettext_lazy("For example 4 or 3,75. Choose one or type your own."),
    )
    swatch_counted_stitches = _counted_field(gettext_lazy("Stitches you counted"), "21")
    swatch_counted_over = _over_field(gettext_lazy("over this width"), "18.2 cm")
    swatch_counted_rows = _counted_field(gettext_lazy("Rows you counted"), "28")
    swatch_counted_high = _over_field(gettext_lazy("over this height"), "20.4 cm")
    keeps = forms.ChoiceField(
        label=gettext_lazy("If your swatch is not like the pattern's, you knitted"),
        required=False,
        choices=KEEPS,
        widget=forms.RadioSelect,
        help_text=gettext_lazy("If you choose nothing, the first is taken."),
    )
    chest_before = LengthField(gettext_lazy("Chest before"), "100 cm")
    chest_after = LengthField(gettext_lazy("Chest after"), "103 cm")
    length_before = LengthField(gettext_lazy("Length before"), "60 cm")
    length_after = LengthField(gettext_lazy("Length after"), "57 cm")
    pilled = forms.ChoiceField(
        label=gettext_lazy("Did it pill (little balls of fluff)?"),
        required=False,
        choices=Sheet.Pilled.choices,
    )
    split = forms.ChoiceField(
        label=gettext_lazy("Did the yarn split while you knitted?"),
        required=False,
        choices=Sheet.Split.choices,
    )
    behaved_words = forms.CharField(
        label=gettext_lazy("Anything else about the fabric, in your words"),
        required=False,
        max_length=LONGEST_BEHAVED,
        widget=forms.Textarea(attrs={"rows": 3}),
        validators=[refuse_control_in_lines],
        error_messages={
            "max_length": gettext_lazy("Please keep your words to %(limit_value)d letters.")
        },
    )

    def __init__(self, *args: Any, pattern: Pattern, unit: Unit = "cm", **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.pattern, self.unit = pattern, unit
        self._offer_sizes(self.fields["size"])
        for earlier, name in EARLIER_NAMES.items():
            if earlier in self.initial:
                self.initial.setdefault(name, self.initial[earlier])
        for field in self.fields.values():
            if isinstance(field, LengthField):
                field.unit = unit
        for name in ("swatch_counted_over", "swatch_counted_high"):
            self.fields[name].initial = STANDARD_OVER[unit]
            self.fields[name].widget.attrs["list"] = "swatch-lengths"
        self.fields["needle_mm"].widget.attrs["list"] = "needle-sizes"

    def _offer_sizes(self, field: Any) -> None:
        if len(self.pattern.sizes) <= MOST_CARDS:
            field.widget = forms.RadioSelect()
            field.choices = size_choices(self.pattern)
        else:
            field.choices = [("", _("Please choose")), *size_choices(self.pattern)]

    def clean_stage(self) -> str:
        return self.cleaned_data["stage"] or Contribution.Stage.FINISHED

    def clean_tool(self) -> str:
        tool = self.cleaned_data["tool"]
        return "" if tool == NOT_TOLD else tool

    def clean_keeps(self) -> str:
        return self.cleaned_data["keeps"] or Sheet.Keeps.COUNTS

    def clean_behaved_words(self) -> str:
        return str(self.cleaned_data["behaved_words"]).replace("\r\n", "\n")

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        self._clean_machine(cleaned)
        self._clean_swatch(cleaned)
        for name in MEASURED:
            self._clean_measured(cleaned, f"{name}_before", f"{name}_after")
        return cleaned

    def _clean_machine(self, cleaned: dict[str, Any]) -> None:
        """The machine of the list stands for its distance and, where no other is given, needles."""
        if cleaned.get("tool") == Sheet.Tool.NEEDLES:
            for name in OF_MACHINE:  # the page hides these questions then
                self.errors.pop(name, None)
            cleaned.update(machine_pitch_mm=None, machine_needles=None, bed=Sheet.Bed.EVERY)
            return
        bed = bed_of(cleaned.get("machine", ""))
        pitch = cleaned.get("machine_pitch_mm")
        if bed is not None and pitch is not None and pitch != _decimal(bed.pitch_mm, 1):
            self.add_error("machine_pitch_mm", _another_distance(bed))
        elif bed is not None:
            cleaned["machine_pitch_mm"] = _decimal(bed.pitch_mm, 1)
            cleaned["machine_needles"] = cleaned.get("machine_needles") or Decimal(bed.needles)
        cleaned["tool"] = cleaned.get("tool") or _tool_told(cleaned)

    def _clean_swatch(self, cleaned: dict[str, Any]) -> None:
        """What was counted, as stitches and rows in 10 cm."""
        counts = [cleaned.get(f"swatch_counted_{one}") for one in ("stitches", "rows")]
        cleaned["swatch_stitches"] = cleaned["swatch_rows"] = None
        if any(name.startswith("swatch_counted") for name in self.errors):
            return
        if None in counts:
            self._clean_half_a_swatch(cleaned, counts)
            return
        for name in ("swatch_counted_over", "swatch_counted_high"):
            cleaned[name] = cleaned[name] or STANDARD_OVER["cm"]
        try:
            gauge = _counted(cleaned).gauge
        except AlterationsError as error:
            self.add_error("swatch_counted_stitches", str(error))
        else:
            cleaned["swatch_stitches"] = _decimal(gauge.stitches, 3)
            cleaned["swatch_rows"] = _decimal(gauge.rows, 3)

    def _clean_half_a_swatch(self, cleaned: dict[str, Any], counts: list[Any]) -> None:
        lengths = {cleaned["swatch_counted_over"], cleaned["swatch_counted_high"]}
        if counts[0] is not None or counts[1] is not None:
            missing = "rows" if counts[1] is None else "stitches"
            words = _("A swatch needs both numbers; please give this one too.")
            self.add_error(f"swatch_counted_{missing}", words)
        elif lengths - {"", *STANDARD_OVER.values()}:
            words = _("You gave a length of your swatch; please give what you counted over it too.")
            self.add_error("swatch_counted_stitches", words)
        cleaned["swatch_counted_over"] = cleaned["swatch_counted_high"] = ""

    def _clean_measured(self, cleaned: dict[str, Any], before: str, after: str) -> None:
        if before in self.errors or after in self.errors:
            return
        if bool(cleaned[before]) != bool(cleaned[after]):
            missing = after if cleaned[before] else before
            words = _("To see what changed, both measures are needed; please give this one too.")
            self.add_error(missing, words)
        elif cleaned[before]:
            found = Measured(parse_length(cleaned[before]), parse_length(cleaned[after]))
            if not found.is_plausible:
                self.add_error(after, _hardly_so(cleaned[before], cleaned[after]))

    @property
    def counted(self) -> Counted | None:
        """What she counted on her swatch, where it can be read."""
        if not self.is_bound or self.errors or not self.cleaned_data["swatch_stitches"]:
            return None
        return _counted(self.cleaned_data)

    @property
    def knitter(self) -> Knitter:
        """Her own swatch and her bed, as far as she told them."""
        given = self.cleaned_data
        stitches, rows = given["swatch_stitches"], given["swatch_rows"]
        needles = given["machine_needles"]
        return Knitter(
            swatch=Gauge(Fraction(stitches), Fraction(rows)) if stitches and rows else None,
            keep=given["keeps"],
            needles=int(needles) if needles else None,
            by_hand=given["tool"] == Sheet.Tool.NEEDLES,
            bed=given["bed"],
        )


def _counted(cleaned: dict[str, Any]) -> Counted:
    return Counted(
        Fraction(cleaned["swatch_counted_stitches"]),
        parse_length(cleaned["swatch_counted_over"]),
        Fraction(cleaned["swatch_counted_rows"]),
        parse_length(cleaned["swatch_counted_high"]),
    )


def _decimal(exact: Fraction, places: int) -> Decimal:
    number = Decimal(exact.numerator) / Decimal(exact.denominator)
    return number.quantize(Decimal(1).scaleb(-places))


def _another_distance(bed: BedClass) -> str:
    return _(
        "Above you chose a machine of %(mm)s mm. For another distance please choose “another "
        "machine” there, or leave this empty."
    ) % {"mm": show_cm(bed.pitch_mm, Fraction(1, 10))}


def _hardly_so(before: str, after: str) -> str:
    return _(
        "From %(before)s to %(after)s it would have shrunk to less than half, or grown to more "
        "than double. Please look at both measures and their units again."
    ) % {"before": before, "after": after}


def _tool_told(cleaned: dict[str, Any]) -> str:
    """Which tool the other fields tell of where it was not chosen."""
    told = (cleaned.get(name) for name in ("machine", "machine_pitch_mm", "machine_needles"))
    if any(told):
        return Sheet.Tool.MACHINE
    return Sheet.Tool.NEEDLES if cleaned.get("needle_mm") else Sheet.Tool.UNSAID
