"""The question about the people in one picture, and what must be answered before it is shown."""

from typing import Any

from django import forms
from django.conf import settings
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from gallery.contributions.models import Photo
from gallery.contributions.people.said import PeopleSaid

People = Photo.People
NEEDS_EMAIL = gettext_lazy(
    "This e-mail address is not complete; it needs an @ and a dot, like anna@example.org."
)


def guardian_email_field(label: Any, help_text: Any) -> forms.EmailField:
    """A parent's or guardian's address; one person is one address, whatever the capitals."""
    return forms.EmailField(
        label=label,
        help_text=help_text,
        required=False,
        max_length=254,
        widget=forms.EmailInput(attrs={"autocomplete": "off"}),
        error_messages={"invalid": NEEDS_EMAIL},
    )


def warn_where_no_letters(field: forms.Field) -> None:
    """Say beside a guardian's address that this site cannot write to anybody."""
    if not settings.POSTS_LETTERS:
        words = _(
            "This site cannot send letters at the moment, so nobody is asked yet, and what needs "
            "their yes stays unused. Later, have the letter written from the page of your garment."
        )
        field.help_text = f"{field.help_text} {words}"


class AddressForm(forms.Form):
    """Another address of a parent or guardian."""

    guardian_email = guardian_email_field(gettext_lazy("The right address"), "")

    def clean_guardian_email(self) -> str:
        address = str(self.cleaned_data["guardian_email"]).lower()
        if not address:
            raise forms.ValidationError(_("Please give the right address."))
        return address


class PeopleForm(forms.Form):
    """Who can be recognised in a picture; nothing is chosen beforehand."""

    people = forms.ChoiceField(
        label=gettext_lazy("Who can be recognised in it?"),
        required=False,
        widget=forms.RadioSelect,
        choices=[choice for choice in People.choices if choice[0]],
        help_text=gettext_lazy("Needed only if the picture may be shown."),
        error_messages={"invalid_choice": gettext_lazy("Please choose one of these answers.")},
    )
    others_agree = forms.BooleanField(
        label=gettext_lazy("They know that this picture may be shown, and they agree."),
        required=False,
    )
    sender_is_guardian = forms.BooleanField(
        label=gettext_lazy(
            "I am the child's parent or guardian, and I agree to what I allow with this picture."
        ),
        required=False,
    )
    guardian_email = guardian_email_field(
        gettext_lazy("Or the e-mail address of the child's parent or guardian"),
        gettext_lazy(
            "They get a link of their own, see this picture and say yes or no. Until then it is "
            "shown nowhere. We never ask for the child's name."
        ),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        warn_where_no_letters(self.fields["guardian_email"])

    def clean_guardian_email(self) -> str:
        return str(self.cleaned_data["guardian_email"]).lower()

    @property
    def said(self) -> PeopleSaid:
        """What was said, as far as it can be understood."""
        given: dict[str, Any] = self.cleaned_data
        return PeopleSaid(
            people=given.get("people", ""),
            others_agree=given.get("others_agree", False),
            sender_is_guardian=given.get("sender_is_guardian", False),
            guardian_email=given.get("guardian_email", ""),
        )

    def require_answers(self, *, sender_is_younger: bool = False) -> None:
        """Say beside each field what is still missing before the picture may be shown."""
        if "people" in self.errors:
            return
        said = self.said
        if said.people == People.UNSAID:
            self.add_error("people", _("Please say who can be recognised in this picture."))
        elif said.people == People.OTHERS and not said.others_agree:
            words = _("Please ask them and tick this, or take this picture out.")
            self.add_error("others_agree", words)
        elif said.people == People.CHILD and "guardian_email" not in self.errors:
            self._require_guardian(said, sender_is_younger)

    def _require_guardian(self, said: PeopleSaid, sender_is_younger: bool) -> None:
        if said.sender_is_guardian and not sender_is_younger:
            return
        if said.sender_is_guardian:
            words = _(
                "You told us that your own parent or guardian confirms for you, so please give "
                "the address of this child's parent or guardian instead."
            )
            self.add_error("sender_is_guardian", words)
        elif not said.guardian_email:
            words = _(
                "Please give the address of the child's parent or guardian, or tick that you are."
            )
            self.add_error("guardian_email", words)
