"""Reading and adding the wordings of the questions; a new wording is a new version."""

import hashlib

from django.conf import settings
from django.db import transaction
from django.utils.translation import get_language

from gallery.consent import chain
from gallery.consent.germanwords import QUESTIONS_IN_GERMAN
from gallery.consent.models import ConsentText
from gallery.consent.purposes import QUESTIONS

FORM_VERSION = "1"
QUESTIONS_IN = {"en": QUESTIONS, "de": QUESTIONS_IN_GERMAN}


def text_hash(sentence: str, meaning: str) -> str:
    """SHA-256 over the exact words a person was shown."""
    return hashlib.sha256(f"{sentence}\n\n{meaning}".encode()).hexdigest()


def spoken() -> str:
    """The language of the page at hand, as wordings name it: "en", "de"."""
    return (get_language() or settings.LANGUAGE_CODE).split("-")[0]


def current_texts(language: str = "", scope: str = "") -> tuple[ConsentText, ...]:
    """The wording in force for each purpose, in the order the questions are asked; in the language
    of the page where none is named."""
    return tuple(wordings(question.purpose, scope, language)[0] for question in QUESTIONS)


def wordings(purpose: str, scope: str = "", language: str = "") -> list[ConsentText]:
    """All wordings of a purpose a series has had, the one in force first: its own, then the general
    ones.

    Words of its own that a series has in another language only are asked in that language: they say
    what the teacher means, and the general ones do not.
    """
    language = language or spoken()
    rows = ConsentText.objects.filter(purpose=purpose)
    own = rows.filter(scope=scope).order_by("-version") if scope else rows.none()
    found = list(own.filter(language=language)) or list(own)
    found += rows.filter(scope="", language=language).order_by("-version")
    return found or [add_text(*_first_words(purpose, language), language=language)]


def standard_text(purpose: str, language: str = "") -> ConsentText:
    """The general wording in force, for every series without words of its own."""
    return wordings(purpose, "", language)[0]


def _first_words(purpose: str, language: str) -> tuple[str, str, str]:
    asked = QUESTIONS_IN.get(language, QUESTIONS)
    question = next(one for one in asked if one.purpose == purpose)
    return purpose, question.sentence, question.meaning


@transaction.atomic
def add_text(
    purpose: str, sentence: str, meaning: str, language: str = "", scope: str = ""
) -> ConsentText:
    """Add the next version of a wording; words already in force are given back as they are."""
    language = language or spoken()
    chain.take_turn()  # a second press finds the version the first one made
    newest = (
        ConsentText.objects.filter(purpose=purpose, language=language, scope=scope)
        .order_by("-version")
        .first()
    )
    sha256 = text_hash(sentence, meaning)
    if newest and newest.sha256 == sha256:
        return newest
    return ConsentText.objects.create(
        purpose=purpose,
        language=language,
        scope=scope,
        version=newest.version + 1 if newest else 1,
        sentence=sentence,
        meaning=meaning,
        sha256=sha256,
    )
