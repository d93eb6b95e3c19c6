"""The words of a series' questions: how they stand, who answered to which, and changing them.

The purposes themselves are the site's and never change: whatever the words say, a yes lets the
site do what its purpose names and nothing more. New words are a new version; answers stay tied to
the words they were given to, and go on for these.
"""

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from django import forms
from django.db.models import OuterRef, Subquery
from django.utils.text import capfirst
from django.utils.translation import gettext_lazy

from gallery.consent.models import ConsentText, Entry
from gallery.consent.purposes import QUESTIONS
from gallery.consent.texts import add_text, standard_text, wordings
from gallery.contributions.arrived import arrived
from gallery.contributions.models import Contribution
from gallery.contributions.writing import refuse_control_characters, refuse_control_in_lines
from gallery.review.questions.again import Asking, asking_about
from gallery.series.forms import PlainHelper
from gallery.series.models import Series

LONGEST_SENTENCE, LONGEST_MEANING = 300, 2000


class OneLine(forms.CharField):
    """A sentence in a field of two lines: a line end typed in it is a space."""

    def to_python(self, value: Any) -> str:
        return " ".join(re.split(r"[ ]*[\r\n]+[ ]*", super().to_python(value) or ""))


class ManyLines(forms.CharField):
    """A text of several lines, each line end counted as one letter as the browser counts it."""

    def to_python(self, value: Any) -> str:
        return (super().to_python(value) or "").replace("\r\n", "\n").replace("\r", "\n")


class WordsForm(forms.Form):
    """A question in the teacher's own words."""

    sentence = OneLine(
        label=gettext_lazy("The sentence a knitter answers with yes or no"),
        max_length=LONGEST_SENTENCE,
        widget=forms.Textarea(attrs={"rows": 2}),
        validators=[refuse_control_characters],
        error_messages={"required": gettext_lazy("Please write the sentence.")},
    )
    meaning = ManyLines(
        label=gettext_lazy("What this means"),
        max_length=LONGEST_MEANING,
        widget=forms.Textarea(attrs={"rows": 5}),
        validators=[refuse_control_in_lines],
        help_text=gettext_lazy(
            "What happens with a yes, and what can no longer be helped after a change of mind."
        ),
        error_messages={"required": gettext_lazy("Please write what this means.")},
    )
    helper = PlainHelper()

    @property
    def is_looked_at(self) -> bool:
        """Whether these words came to be looked at before they are kept."""
        return "look" in self.data and self.is_valid()


@dataclass(frozen=True)
class Wording:
    """One wording a question has had, and how many answers of this series rest on it."""

    text: ConsentText
    answers: int
    is_own: bool


@dataclass(frozen=True)
class AskedQuestion:
    """One question of a series as its teacher sees it."""

    purpose: str
    label: str
    text: ConsentText
    is_standard: bool
    wordings: list[Wording]
    form: WordsForm
    asking: Asking


def questions_of(series: Series, came_back: dict[str, WordsForm]) -> list[AskedQuestion]:
    """Every question of a series; came_back holds forms that were refused, by purpose."""
    return list(_questions(series, came_back))


def _questions(series: Series, came_back: dict[str, WordsForm]) -> Iterator[AskedQuestion]:
    for question in QUESTIONS:
        texts = wordings(question.purpose, series.slug)
        resting = _answers_resting(series, question.purpose)
        text = texts[0]
        yield AskedQuestion(
            purpose=question.purpose,
            label=capfirst(str(question.label)),
            text=text,
            is_standard=text.sha256 == standard_text(question.purpose).sha256,
            wordings=[
                Wording(one, resting[one.sha256], bool(one.scope))
                for one in texts
                if one.scope or one == text or resting[one.sha256]
            ],
            form=came_back.get(question.purpose) or form_of(question.purpose, text),
            asking=asking_about(series, text),
        )


def form_of(purpose: str, text: ConsentText) -> WordsForm:
    """The form with the words in force."""
    initial = {"sentence": text.sentence, "meaning": text.meaning}
    return WordsForm(initial=initial, prefix=purpose)


def keep_words(series: Series, purpose: str, sentence: str, meaning: str) -> bool:
    """Keep new words; False where they are those in force."""
    before = wordings(purpose, series.slug)[0]
    text = add_text(purpose, sentence, meaning, scope=series.slug)
    return text.sha256 != before.sha256


def back_to_standard(series: Series, purpose: str) -> bool:
    """Use the site's own words again, as a new version; False where they are in force."""
    standard = standard_text(purpose)
    return keep_words(series, purpose, standard.sentence, standard.meaning)


def _answers_resting(series: Series, purpose: str) -> Counter[str]:
    """How many newest answers rest on each wording, by the hash of its words."""
    newest = Entry.objects.filter(agreement=OuterRef("agreement"), purpose=purpose)
    rows = (
        Contribution.objects.filter(arrived(), series=series)
        .annotate(words=Subquery(newest.order_by("-seq").values("text_sha256")[:1]))
        .values_list("words", flat=True)
    )
    return Counter(words for words in rows if words)
