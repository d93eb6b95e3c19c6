"""The permissions as questions: each by itself, nothing ticked, nothing needed to send."""

from collections.abc import Sequence
from typing import Any

from django import forms
from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from gallery.consent.models import ConsentText
from gallery.consent.purposes import QUESTIONS
from gallery.contributions.forms import SendingForm

LABELS = {question.purpose: question.label for question in QUESTIONS}
_ASK_AGAIN = gettext_lazy(
    "The words of this question changed while the page was open. Please read and answer it again."
)


class PermissionsForm(SendingForm):
    """One question for each purpose, each by itself: yes, no, or left open, which counts as no."""

    asked = forms.CharField(required=False, widget=forms.HiddenInput)

    def __init__(self, *args: Any, texts: Sequence[ConsentText], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.texts = texts
        self.wording = ",".join(str(text.pk) for text in texts)
        self.fields["asked"].initial = self.wording
        for text in texts:
            self.fields[f"allow_{text.purpose}"] = forms.ChoiceField(
                label=capfirst(str(LABELS[text.purpose])),
                required=False,
                widget=forms.RadioSelect,
                choices=[("yes", _("Yes")), ("no", _("No"))],
            )

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        if cleaned.get("asked") != self.wording:
            self._ask_again()
        return cleaned

    def _ask_again(self) -> None:
        """Take no answer to words that were not the ones shown."""
        names = [f"allow_{text.purpose}" for text in self.texts]
        self.data = {name: self.data[name] for name in self.data if name not in names}
        self.data["asked"] = self.wording
        for name in names:
            self.add_error(name, _ASK_AGAIN)

    @property
    def questions(self) -> list[tuple[ConsentText, forms.BoundField]]:
        """Each wording with its field."""
        return [(text, self[f"allow_{text.purpose}"]) for text in self.texts]

    def allows(self, *purposes: str) -> bool:
        """Whether any of these is allowed as far as it was answered."""
        return any(self.cleaned_data.get(f"allow_{purpose}") == "yes" for purpose in purposes)

    @property
    def answers(self) -> dict[ConsentText, bool]:
        """Yes or no to each wording as it was shown; no answer is a no."""
        return {text: self.cleaned_data[f"allow_{text.purpose}"] == "yes" for text in self.texts}
