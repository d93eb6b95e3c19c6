"""Forms of the teacher for her series and its pattern file."""

from typing import Any

from crispy_forms.helper import FormHelper
from django import forms
from django.db import transaction
from django.db.models import Q
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from alterations.errors import PatternFileError
from alterations.records.load import load_pattern, read_text
from alterations.records.models import PatternVersion
from gallery.series.models import Series

MOST_BYTES = 512 * 1024


class PlainHelper(FormHelper):
    """Crispy settings shared by the forms here: the template writes form tag and buttons."""

    form_tag = False


class PatternField(forms.FileField):
    """A pattern file; each mistake in it becomes a sentence beside the field."""

    def clean(self, data: Any, initial: Any = None) -> str:
        file = super().clean(data, initial)
        if not file:
            return ""
        if file.size > MOST_BYTES:
            raise forms.ValidationError(
                _("This file is larger than a pattern file can be. Is it the right one?")
            )
        try:
            return read_text(file.read())
        except PatternFileError as error:
            raise forms.ValidationError(list(error.problems)) from error


class PatternForm(forms.Form):
    """Load a pattern file into a series."""

    pattern_file = PatternField(
        label=gettext_lazy("Pattern file"),
        help_text=gettext_lazy("A text file in TOML; its form is explained below."),
    )
    helper = PlainHelper()

    @transaction.atomic
    def keep_for(self, series: Series) -> PatternVersion:
        """Keep the file as a version of its pattern and use it for this series from now on."""
        version = load_pattern(self.cleaned_data["pattern_file"])
        series.pattern_version = version
        series.save(update_fields=["pattern_version"])
        return version


class SeriesForm(forms.ModelForm):
    """Title, dates and words of a series."""

    helper = PlainHelper()

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for field in self.fields.values():
            field.error_messages["required"] = _("Please fill this in.")

    class Meta:
        model = Series
        fields = [
            "title",
            "teacher_name",
            "introduction",
            "opens_on",
            "closes_on",
            "minimum_age",
            "invitation_code",
        ]
        labels = {
            "title": gettext_lazy("Title of the series"),
            "teacher_name": gettext_lazy("Your name, as the pages and the film show it"),
            "introduction": gettext_lazy("A few words to the knitters"),
            "opens_on": gettext_lazy("Garments may be sent from"),
            "closes_on": gettext_lazy("Last day on which garments may be sent"),
            "minimum_age": gettext_lazy("Age from which a person may send alone"),
            "invitation_code": gettext_lazy("A word that whoever sends must know"),
        }
        help_texts = {
            "minimum_age": gettext_lazy("Between 13 and 16; your country's law decides."),
            "invitation_code": gettext_lazy(
                "Only if you want to receive garments from those alone whom you told it. Capitals "
                "and spaces do not count. Leave it empty, and everybody may send."
            ),
        }
        widgets = {
            "opens_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
            "closes_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        }

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        opens, closes = cleaned.get("opens_on"), cleaned.get("closes_on")
        if opens and closes and closes < opens:
            self.add_error("closes_on", _("Choose a last day that comes after the first."))
        return cleaned


class NewSeriesForm(SeriesForm):
    """Everything a new series needs, with its pattern file."""

    pattern = forms.ModelChoiceField(
        PatternVersion.objects.none(),
        label=gettext_lazy("A pattern you wrote here"),
        required=False,
        empty_label=gettext_lazy("None of these"),
    )
    pattern_file = PatternField(
        label=gettext_lazy("Or a pattern file"),
        required=False,
        help_text=gettext_lazy("A text file in TOML with the numbers of every size."),
    )

    class Meta(SeriesForm.Meta):
        fields = ["title", "slug", "short_code", *SeriesForm.Meta.fields[1:]]
        labels = {
            **SeriesForm.Meta.labels,
            "slug": gettext_lazy("Address of the series (small letters and hyphens)"),
            "short_code": gettext_lazy("Short address to be typed from the video"),
        }
        help_texts = {
            **SeriesForm.Meta.help_texts,
            "short_code": gettext_lazy("Twelve letters at most, for example: ostri"),
        }
        error_messages = {
            "slug": {
                "unique": gettext_lazy("Another series has this address; choose another one."),
                "invalid": gettext_lazy("Use small letters, digits and hyphens, without spaces."),
            },
            "short_code": {
                "unique": gettext_lazy("Another series has this short address; choose another."),
                "invalid": gettext_lazy("Use letters, digits and hyphens, without spaces."),
            },
        }

    def __init__(self, *args: Any, teacher: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.teacher = teacher
        hers = Q(drafts__owner=teacher) | Q(series__teacher=teacher)
        known = PatternVersion.objects.filter(hers).select_related("pattern").distinct()
        self.fields["pattern"].queryset = known  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        chosen = [name for name in ("pattern", "pattern_file") if cleaned.get(name)]
        if not chosen and "pattern_file" not in self.errors:
            self.add_error("pattern", _("Choose a pattern you wrote here, or a pattern file."))
        if len(chosen) > 1:
            self.add_error("pattern", _("Choose one of both: this pattern, or the file."))
        return cleaned

    def clean_short_code(self) -> str:
        return self.cleaned_data["short_code"].lower()

    @transaction.atomic
    def save(self, commit: bool = True) -> Series:
        self.instance.teacher = self.teacher
        text = self.cleaned_data["pattern_file"]
        self.instance.pattern_version = load_pattern(text) if text else self.cleaned_data["pattern"]
        return super().save(commit)
