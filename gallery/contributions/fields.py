"""Fields of the sending form: numbers with a comma or a point, several files at once."""

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction
from typing import Any

from django import forms
from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext as _

from alterations.errors import AlterationsError
from alterations.units import parse_number

ACCEPTED = "image/jpeg,image/png,image/webp,image/heic,image/heif,image/avif,.heic,.heif,.avif"


class NumberField(forms.CharField):
    """A number that may be left out: "12,5", "12.5" and "12½" are all understood."""

    def __init__(
        self, *, least: str, most: str, example: str, places: int = 0, **kwargs: Any
    ) -> None:
        self.least, self.most, self.places = Decimal(least), Decimal(most), places
        self.example = example
        keyboard = "decimal" if places else "numeric"
        widget = forms.TextInput(attrs={"inputmode": keyboard, "autocomplete": "off"})
        super().__init__(required=False, widget=widget, **kwargs)

    def clean(self, value: Any) -> Decimal | None:
        text = super().clean(value)
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
