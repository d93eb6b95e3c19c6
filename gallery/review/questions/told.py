"""An answer told outside the site: the teacher writes it into the ledger, with how she knows."""

import datetime
from typing import Any

from django import forms
from django.conf import settings
from django.contrib.auth.models import AbstractBaseUser
from django.db import transaction
from django.template.loader import render_to_string
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from gallery import letters
from gallery.consent.models import Entry
from gallery.consent.purposes import QUESTIONS
from gallery.contributions import permissions
from gallery.contributions.models import Contribution
from gallery.contributions.writing import refuse_control_in_lines
from gallery.review.models import ToldAnswer
from gallery.series.forms import PlainHelper

LONGEST_WORDS = 2000
ANSWERS = [
    ("", gettext_lazy("not told, stays as it is")),
    ("yes", gettext_lazy("yes")),
    ("no", gettext_lazy("no, or no longer")),
]
WAYS = [
    (Entry.Way.LETTER, gettext_lazy("in a letter or e-mail")),
    (Entry.Way.DESK, gettext_lazy("on paper, or spoken")),
]


class ToldForm(forms.Form):
    """What a sender told, question by question, how and when."""

    way = forms.ChoiceField(label=gettext_lazy("How it was told"), choices=WAYS)
    told_on = forms.DateField(
        label=gettext_lazy("On which day"),
        widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        error_messages={
            "required": gettext_lazy("Please give the day, as 2026-03-14."),
            "invalid": gettext_lazy("Please give the day as year-month-day, as 2026-03-14."),
        },
    )
    words = forms.CharField(
        label=gettext_lazy("In which words, and where they can be found"),
        max_length=LONGEST_WORDS,
        widget=forms.Textarea(attrs={"rows": 4}),
        validators=[refuse_control_in_lines],
        help_text=gettext_lazy("For example: her e-mail of that day, “yes, do show the photos”."),
        error_messages={"required": gettext_lazy("Please write what was told.")},
    )
    helper = PlainHelper()

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        first = {
            question.purpose: forms.ChoiceField(
                label=question.label.capitalize(), required=False, choices=ANSWERS
            )
            for question in QUESTIONS
        }
        self.fields = {**first, **self.fields}

    def clean_told_on(self) -> datetime.date:
        day: datetime.date = self.cleaned_data["told_on"]
        if day > timezone.localdate():
            raise forms.ValidationError(_("This day has not come yet."))
        return day

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        if not self.errors and not self.answers:
            self.add_error(None, _("Please choose yes or no for at least one question."))
        return cleaned

    @property
    def answers(self) -> dict[str, bool]:
        """What was told, by purpose."""
        told = {one.purpose: self.cleaned_data.get(one.purpose) for one in QUESTIONS}
        return {purpose: answer == "yes" for purpose, answer in told.items() if answer}


@transaction.atomic
def record_told(garment: Contribution, form: ToldForm, by: AbstractBaseUser) -> int:
    """Write the answers that change something, and tell the sender; how many they are."""
    given = form.cleaned_data
    entries = permissions.record(garment, form.answers, Entry.Way(given["way"]))
    for entry in entries:
        ToldAnswer.objects.create(
            contribution=garment,
            entry=entry,
            told_on=given["told_on"],
            words=given["words"],
            by_id=by.pk,
        )
    if entries and garment.email:
        facts = {"garment": garment, "entries": entries, "contact_email": settings.CONTACT_EMAIL}
        words = render_to_string("letters/told.txt", facts)
        letters.post(_("Written down: what you allow"), words, garment.email)
    return len(entries)
