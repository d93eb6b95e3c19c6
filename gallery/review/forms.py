"""Forms of the desk: signing in, and one verdict."""

from typing import Any

from crispy_forms.helper import FormHelper
from crispy_forms.layout import Field, Layout
from django import forms
from django.contrib.auth.forms import AuthenticationForm
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from gallery.review.models import Verdict

MOST_LETTERS = 2000


class SignInForm(AuthenticationForm):
    """Name and password; a wrong name and a wrong password get the same answer."""

    error_messages = {
        "invalid_login": gettext_lazy(
            "Name and password do not fit together. Check both; capital letters count."
        ),
        "inactive": gettext_lazy(
            "Name and password do not fit together. Check both; capital letters count."
        ),
    }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["username"].label = _("Sign-in name")
        self.fields["username"].error_messages["required"] = _("Please give your sign-in name.")
        self.fields["password"].error_messages["required"] = _("Please give your password.")


class VerdictForm(forms.Form):
    """One verdict on a photo or on the words; which button was pressed says which."""

    decision = forms.ChoiceField(
        choices=Verdict.Decision,
        widget=forms.HiddenInput,
        error_messages={
            "required": gettext_lazy("Please press one of the three buttons."),
            "invalid_choice": gettext_lazy("Please press one of the three buttons."),
        },
    )
    seen = forms.IntegerField(min_value=0, required=False, widget=forms.HiddenInput)
    edition = forms.IntegerField(min_value=1, required=False, widget=forms.HiddenInput)
    note = forms.CharField(
        label=gettext_lazy("A note to its knitter"),
        required=False,
        max_length=MOST_LETTERS,
        widget=forms.Textarea(attrs={"rows": 3}),
        error_messages={
            "max_length": gettext_lazy(
                "The note is %(show_value)d letters long; please keep it under %(limit_value)d."
            )
        },
    )

    def __init__(self, about: str, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **{**kwargs, "auto_id": f"{about}-%s"})
        self.helper = FormHelper()
        self.helper.form_tag = False
        self.helper.disable_csrf = True
        self.helper.layout = Layout(Field("note"))

    def clean(self) -> dict[str, Any]:
        """A question needs words."""
        said = super().clean() or {}
        if said.get("decision") == Verdict.Decision.ASK and not self._has_note(said):
            self.add_error("note", _("Write what you would like to ask."))
        return said

    def _has_note(self, said: dict[str, Any]) -> bool:
        """A note refused for another reason is not missing."""
        return bool(said.get("note")) or "note" in self.errors

    @property
    def seen_before(self) -> int:
        """The verdict that stood when the page was opened; a damaged number fits none."""
        seen = self.cleaned_data.get("seen", -1)
        return 0 if seen is None else int(seen)

    @property
    def edition_before(self) -> int:
        """The garment's edition that was on the page; a damaged number fits none."""
        edition = self.cleaned_data.get("edition", 0)
        return 1 if edition is None else int(edition)
