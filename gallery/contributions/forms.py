"""Forms of the front door: pictures, words, sender; parts of one page."""

from typing import Any

from crispy_forms.helper import FormHelper
from django import forms
from django.utils.crypto import constant_time_compare
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from gallery.contributions.fields import PicturesField
from gallery.contributions.keeping import PictureWords
from gallery.contributions.models import Photo
from gallery.contributions.people.forms import (
    PeopleForm,
    guardian_email_field,
    warn_where_no_letters,
)
from gallery.contributions.writing import (
    refuse_control_characters,
    refuse_control_in_lines,
    refuse_long_name,
)
from gallery.series.models import Series

LONGEST_NOTES = 4000
LONGEST_DESCRIPTION = 500


class PlainHelper(FormHelper):
    """Crispy settings shared by the forms here: one form tag, written by the page, around all."""

    form_tag = False
    disable_csrf = True


class SendingForm(forms.Form):
    """A part of the page."""

    helper = PlainHelper()


class PicturesForm(SendingForm):
    """Where pictures are chosen."""

    pictures = PicturesField(
        label=gettext_lazy("Choose pictures"),
        required=False,
        help_text=gettext_lazy(
            "Up to twelve, several at once. Pictures straight from a phone or camera are fine "
            "(JPEG, PNG, WebP, HEIC, AVIF; up to 40 MB each)."
        ),
    )


class PictureForm(PeopleForm, SendingForm):
    """What one kept picture shows, and whom."""

    description = forms.CharField(
        label=gettext_lazy("What the picture shows"),
        required=False,
        max_length=LONGEST_DESCRIPTION,
        help_text=gettext_lazy("For people who cannot see it. May be left empty."),
        validators=[refuse_control_characters],
        error_messages={
            "max_length": gettext_lazy("Please keep the description to %(limit_value)d letters.")
        },
    )
    is_decorative = forms.BooleanField(
        label=gettext_lazy("It needs no description: it shows nothing the others do not show."),
        required=False,
    )
    stage = forms.ChoiceField(
        label=gettext_lazy("It is"), required=False, choices=Photo.Stage.choices
    )

    def clean_stage(self) -> str:
        return self.cleaned_data["stage"] or Photo.Stage.FINISHED

    def words_for(self, photo: Photo) -> PictureWords:
        """What is said about the picture now; where that cannot be read, what was kept of it."""
        given = self.cleaned_data
        return PictureWords(
            description=given.get("description", photo.description),
            stage=given.get("stage", photo.stage),
            is_decorative=given.get("is_decorative", photo.is_decorative),
        )


class WordsForm(SendingForm):
    """Her own words."""

    notes = forms.CharField(
        label=gettext_lazy("Anything you would like to tell"),
        required=False,
        max_length=LONGEST_NOTES,
        widget=forms.Textarea(attrs={"rows": 5}),
        help_text=gettext_lazy("How it went, what you would do again. May be left empty."),
        validators=[refuse_control_in_lines],
        error_messages={
            "max_length": gettext_lazy("Please keep your words to %(limit_value)d letters.")
        },
    )

    def clean_notes(self) -> str:
        return self.cleaned_data["notes"].replace("\r\n", "\n")


class NameForm(SendingForm):
    """The name as it should be shown."""

    credit_name = forms.CharField(
        label=gettext_lazy("Your name, exactly as it should be shown"),
        required=False,
        strip=False,
        validators=[refuse_control_characters, refuse_long_name],
        widget=forms.TextInput(attrs={"autocomplete": "name", "dir": "auto"}),
        help_text=gettext_lazy("Shown only if you said yes to that above. May be left empty."),
    )

    def clean_credit_name(self) -> str:
        name = self.cleaned_data["credit_name"]
        if name and not name.strip():
            raise forms.ValidationError(
                _("The name has nothing but spaces. Please write it, or leave it empty.")
            )
        return name


def plain_word(text: str) -> str:
    """A word told from mouth to mouth: capitals and spaces do not count."""
    return "".join(text.split()).casefold()


class SenderForm(NameForm):
    """Her name, an address for the private link, and her age in one tick."""

    email = forms.EmailField(
        label=gettext_lazy("E-mail address"),
        required=False,
        max_length=254,
        widget=forms.EmailInput(attrs={"autocomplete": "email"}),
        help_text=gettext_lazy(
            "Never shown. Used only to send you your private link and questions about your garment."
        ),
        error_messages={
            "invalid": gettext_lazy(
                "This e-mail address is not complete; it needs an @ and a dot, like "
                "anna@example.org. You may also leave it empty."
            )
        },
    )
    is_old_enough = forms.BooleanField(required=False)
    is_younger = forms.BooleanField(
        label=gettext_lazy("I am younger: my parent or guardian confirms."), required=False
    )
    guardian_name = forms.CharField(
        label=gettext_lazy("If you are younger: the name of your parent or guardian"),
        required=False,
        validators=[refuse_control_characters, refuse_long_name],
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
        help_text=gettext_lazy("Only the teacher sees it."),
    )
    guardian_email = guardian_email_field(
        gettext_lazy("If you are younger: the e-mail address of your parent or guardian"),
        gettext_lazy(
            "They get a link of their own, see what you sent and say yes or no. Until then nothing "
            "of it is used."
        ),
    )

    invitation = forms.CharField(
        label=gettext_lazy("The word of the invitation"),
        required=False,
        max_length=80,
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
        help_text=gettext_lazy("The teacher told it to those who follow the series."),
    )

    def __init__(self, *args: Any, series: Series, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.invitation_code = series.invitation_code
        if not self.invitation_code:
            del self.fields["invitation"]
        self.fields["is_old_enough"].label = _("I am at least %(age)s years old.") % {
            "age": series.minimum_age
        }
        warn_where_no_letters(self.fields["guardian_email"])

    def clean_invitation(self) -> str:
        told = str(self.cleaned_data["invitation"])
        if not constant_time_compare(plain_word(told), plain_word(self.invitation_code)):
            raise forms.ValidationError(
                _("This is not the word of the invitation. Please ask the teacher for it.")
            )
        return told

    def clean_guardian_email(self) -> str:
        return str(self.cleaned_data["guardian_email"]).lower()

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        is_old_enough, is_younger = cleaned["is_old_enough"], cleaned["is_younger"]
        if is_old_enough and is_younger:
            self.add_error("is_younger", _("Please tick only one of the two, whichever is true."))
        elif not is_old_enough and not is_younger:
            self.add_error("is_old_enough", self._neither())
        elif is_younger:
            if "guardian_email" not in self.errors:
                self._require_guardian(cleaned["guardian_email"], cleaned.get("email", ""))
            if "guardian_name" not in self.errors and not cleaned["guardian_name"].strip():
                self.add_error("guardian_name", _("Please give their name."))
        return cleaned

    def _neither(self) -> str:
        return _(
            "Please tick this. If you are younger, tick the next line instead, and your parent or "
            "guardian confirms."
        )

    def _require_guardian(self, guardian: str, own: str) -> None:
        if not guardian:
            self.add_error("guardian_email", _("Please give their e-mail address."))
        elif guardian == own.lower():
            words = _("This is your own address. Please give your parent's or guardian's.")
            self.add_error("guardian_email", words)

    @property
    def guardian(self) -> str:
        """The address of the guardian who must confirm; empty where nobody must."""
        given = self.cleaned_data
        return str(given["guardian_email"]) if given["is_younger"] else ""

    @property
    def guardians_name(self) -> str:
        """The name of that guardian; empty where nobody must confirm."""
        given = self.cleaned_data
        return str(given["guardian_name"]) if given["is_younger"] else ""
