"""What may be asked for: the four purposes and the first wording of each question."""

from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext_lazy

FILM = "film"
PUBLIC_PAGES = "public_pages"
NOTES = "notes"
NAME = "name"


@dataclass(frozen=True)
class Question:
    """One purpose in plain words: the sentence to answer and what it means."""

    purpose: str
    label: Any
    sentence: str
    meaning: str


QUESTIONS = (
    Question(
        FILM,
        gettext_lazy("photos in the closing film"),
        "My photos of this garment may be shown in the closing film of this series.",
        "The film is published with the series and may be watched and copied by anyone. If you "
        "change your mind, your photos leave the film here at once, and the film is made anew "
        "without them; copies that others already hold cannot be called back.",
    ),
    Question(
        PUBLIC_PAGES,
        gettext_lazy("photos on the public pages"),
        "My photos of this garment may be shown on the public pages of this site.",
        "Anyone can see them there. If you change your mind, they are gone from the pages at "
        "once; search engines may keep a copy for a while.",
    ),
    Question(
        NOTES,
        gettext_lazy("notes and numbers for other knitters"),
        "What I changed, my numbers and my notes may be shown to other knitters.",
        "Others can read how you altered the pattern, on the public pages and in the caption of "
        "your slide if the film shows it. Your figures are counted in with those of others. Your "
        "name is not shown with them unless you allow it in the next question.",
    ),
    Question(
        NAME,
        gettext_lazy("name shown"),
        "My name may be shown exactly as I write it here, wherever my photos or notes are shown.",
        "Without this, neutral words stand in its place. Your e-mail address is never shown.",
    ),
)
PURPOSES = tuple(question.purpose for question in QUESTIONS)
PURPOSE_CHOICES = [(question.purpose, question.label) for question in QUESTIONS]


def label_of(purpose: str) -> Any:
    """A purpose in a few words, in the language it is read in."""
    return next(question.label for question in QUESTIONS if question.purpose == purpose)
