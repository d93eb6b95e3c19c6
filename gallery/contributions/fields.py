"""Fields of the sending form: numbers with a comma or a point, lengths, several files at once."""

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction
from typing import Any

from django import forms
from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext as _

from alterations.errors import AlterationsError
from alterations.units import Length, Unit, parse_length, parse_number
from gallery.contributions.writing import refuse_control_characters

ACCEPTED = "image/jpeg,image/png,image/webp,image/heic,image/heif,image/avif,.heic,.heif,.avif"


class NumberField(forms.CharField):
    """A number that may be left out: "12,5", "12.5" and "12½" are all understood.

    unit: the one it is asked in, which may be written behind it all the same ("3,75 mm").
    """

    def __init__(
        self,
        *,
        least: str,
        most: str,
        example: str,
        places: int = 0,
        unit: str = "",
        **kwargs: Any,
    ) -> None:
        self.least, self.most, self.places = Decimal(least), Decimal(most), places
        self.example, self.unit = example, unit
        keyboard = "decimal" if places else "numeric"
        widget = forms.TextInput(attrs={"inputmode": keyboard, "autocomplete": "off"})
        super().__init__(required=False, widget=widget, **kwargs)

    def clean(self, value: Any) -> Decimal | None:
        text = super().clean(value)
        if self.unit:
            text = text.lower().removesuffix(self.unit).strip()
        return self._number(text) if text else None

    def _number(self, text: str) -> Decimal:
        try:
            exact = parse_number(text)
        except AlterationsError as error:
            raise forms.ValidationError(
                _(
                    "“%(text)s” cannot be read as a number; write for example %(example)s, "
                    "without a unit."
                )
                % {"text": text[:40], "example": self.example}
            ) from error
        if not self.least <= exact <= self.most:
            raise forms.ValidationError(
                _("This should be between %(least)s and %(most)s. Please look at it again.")
                % {"least": self.least, "most": self.most}
            )
        return self._rounded(exact)

    def _rounded(self, exact: Fraction) -> Decimal:
        number = Decimal(exact.numerator) / Decimal(exact.denominator)
        if self.places == 0 and exact.denominator != 1:
            raise forms.ValidationError(_("Please give a whole number here."))
        return number.quantize(Decimal(1).scaleb(-self.places))


class LengthField(forms.CharField):
    """A length as typed, which may be left out; cleaned it is the same text with its unit.

    unit: the one taken where none is written; a form sets it to the knitter's own.
    """

    unit: Unit = "cm"

    def __init__(self, label: Any, example: str, **kwargs: Any) -> None:
        widget = forms.TextInput(attrs={"inputmode": "text", "autocomplete": "off"})
        self.example = example
        super().__init__(
            label=label,
            required=False,
            max_length=40,
            widget=widget,
            validators=[refuse_control_characters],
            **kwargs,
        )

    def clean(self, value: Any) -> str:
        text = super().clean(value)
        return self._with_unit(text) if text else ""

    def _with_unit(self, text: str) -> str:
        length = self._length(text)
        is_bare = text[-1].isnumeric() or text[-1] in ".,"
        return f"{text} {length.unit}" if is_bare else text

    def _length(self, text: str) -> Length:
        try:
            length = parse_length(text, self.unit, signed=False)
        except AlterationsError as error:
            raise forms.ValidationError(str(error)) from error
        if length.unit == "rows" or not length.amount:
            words = _("Please give centimetres or inches here, for example %(example)s.")
            raise forms.ValidationError(words % {"example": self.example})
        return length


class SeveralFiles(forms.FileInput):
    """A file input that takes several pictures at once."""

    allow_multiple_selected = True


class PicturesField(forms.FileField):
    """The files as they arrived; whether each is a picture is asked later, one by one."""

    widget = SeveralFiles(
        attrs={
            "accept": ACCEPTED,
            "data-send-pictures": "chosen-pictures",
            "data-row": "chosen-picture",
        }
    )

    def clean(self, data: Any, initial: Any = None) -> Sequence[UploadedFile]:
        return data or []
