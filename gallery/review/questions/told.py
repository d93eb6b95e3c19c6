"""An answer told outside the site: the teacher writes it into the ledger, with how she knows."""

import datetime
from typing import Any

from django import forms
from django.conf import settings
from django.contrib.auth.models import AbstractBaseUser
from django.db import transaction
from django.http import QueryDict
from django.template.loader import render_to_string
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.text import Truncator, capfirst
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from gallery import letters
from gallery.consent.models import ConsentText, Entry
from gallery.consent.purposes import PURPOSES, QUESTIONS, Question
from gallery.consent.texts import wordings
from gallery.contributions import permissions
from gallery.contributions.models import Contribution
from gallery.contributions.writing import refuse_control_in_lines
from gallery.review.models import ToldAnswer
from gallery.series.forms import PlainHelper
from gallery.speaking import the_language

LONGEST_WORDS = 2000
LONGEST_CHOICE = 60
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
    # The newest answer when the page was read: nothing is written over one that came since.
    seen = forms.IntegerField(widget=forms.HiddenInput, required=False)
    helper = PlainHelper()

    def __init__(self, garment: Contribution, data: QueryDict | None = None) -> None:
        first = {"told_on": timezone.localdate(), "seen": permissions.last_entry(garment)}
        super().__init__(data, initial=first)
        self.garment, self.posted = garment, data
        self.wordings = {one: wordings_once(one, garment.series.slug) for one in PURPOSES}
        asked: dict[str, forms.Field] = {}
        for question in QUESTIONS:
            asked |= _question(question, self.wordings[question.purpose])
        self.fields = {**asked, **self.fields}

    def see_again(self) -> None:
        """After an answer has come in between: say so, and count that one as seen."""
        self.data = {
            **(self.posted.dict() if self.posted else {}),
            "seen": permissions.last_entry(self.garment),
        }
        words = _(
            "Her answers have changed since you opened this page. How they stand now is above; "
            "please look, and write it down again if it is still so."
        )
        self.add_error(None, words)

    def clean_told_on(self) -> datetime.date:
        day: datetime.date = self.cleaned_data["told_on"]
        if day > timezone.localdate():
            raise forms.ValidationError(_("This day has not come yet."))
        return day

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        if self.errors:
            return cleaned
        if not self.answers:
            self.add_error(None, _("Please choose yes or no for at least one question."))
        for text in self.answers:
            self._check_day(text, cleaned["told_on"])
        return cleaned

    def _check_day(self, text: ConsentText, day: datetime.date) -> None:
        """Refuse words that were not there on that day, and what a later answer has overtaken."""
        is_first = text.valid_from == min(one.valid_from for one in self.wordings[text.purpose])
        since = timezone.localdate(text.valid_from)
        if day < since and not is_first:
            words = _("These words are used since %(since)s only. Which ones was she shown?")
            self.add_error(f"{text.purpose}_words", words % {"since": date_format(since)})
        answered = self._answered_herself(text.purpose)
        if answered and day < answered:
            words = _(
                "She answered this herself on %(day)s, after the day you give, and the later "
                "answer counts. If she told you something since, give that day."
            )
            self.add_error(text.purpose, words % {"day": date_format(answered)})

    def _answered_herself(self, purpose: str) -> datetime.date | None:
        """The day of the sender's own newest answer."""
        own = Entry.objects.filter(
            agreement=self.garment.agreement_id, purpose=purpose, actor=Entry.Actor.SENDER
        ).order_by("-seq")
        newest = own.first()
        return timezone.localdate(newest.at) if newest else None

    @property
    def answers(self) -> dict[ConsentText, bool]:
        """What was told, by the words it was an answer to."""
        given = self.cleaned_data
        told = [purpose for purpose in PURPOSES if given.get(purpose)]
        return {self._text(purpose): given[purpose] == "yes" for purpose in told}

    def _text(self, purpose: str) -> ConsentText:
        """The words that were chosen; where there are no others, those in force."""
        texts = self.wordings[purpose]
        chosen = self.cleaned_data.get(f"{purpose}_words")
        return next((one for one in texts if str(one.pk) == chosen), texts[0])


def wordings_once(purpose: str, scope: str) -> list[ConsentText]:
    """The wordings of a question, the one in force first; words that came back count from the day
    they were used first."""
    return list({one.sha256: one for one in wordings(purpose, scope)}.values())


def _question(question: Question, texts: list[ConsentText]) -> dict[str, forms.Field]:
    """A question's answer and, where it has been put in several ways, to which words."""
    answer = forms.ChoiceField(label=capfirst(str(question.label)), required=False, choices=ANSWERS)
    if len(texts) == 1:
        return {question.purpose: answer}
    which = forms.ChoiceField(
        label=_("To which words"),
        required=False,
        choices=[(str(text.pk), _in_short(text)) for text in texts],
        help_text=_("The words in force come first; all of them stand in full further down."),
    )
    return {question.purpose: answer, f"{question.purpose}_words": which}


def _in_short(text: ConsentText) -> str:
    """A wording as a choice that a phone does not cut off: its number before its words."""
    whose = _("yours no. %d: %s") if text.scope else _("the site's no. %d: %s")
    return whose % (text.version, Truncator(text.sentence).chars(LONGEST_CHOICE))


@transaction.atomic
def record_told(garment: Contribution, form: ToldForm, by: AbstractBaseUser) -> None:
    """Write the answers into the ledger, how they were told beside them, and tell the sender."""
    given = form.cleaned_data
    entries = permissions.record(garment, form.answers, Entry.Way(given["way"]), given["seen"])
    for entry in entries:
        ToldAnswer.objects.create(
            contribution=garment,
            entry=entry,
            told_on=given["told_on"],
            words=given["words"],
            by_id=by.pk,
        )
    if garment.email:
        facts = {"garment": garment, "entries": entries, "contact_email": settings.CONTACT_EMAIL}
        with the_language(garment.language):
            words = render_to_string("letters/told.txt", facts)
            letters.post(_("Written down: what you allow"), words, garment.email)
