"""Reading and adding the wordings of the questions; a new wording is a new version."""

import hashlib

from django.db import transaction

from gallery.consent import chain
from gallery.consent.models import ConsentText
from gallery.consent.purposes import QUESTIONS, Question

FORM_VERSION = "1"


def text_hash(sentence: str, meaning: str) -> str:
    """SHA-256 over the exact words a person was shown."""
    return hashlib.sha256(f"{sentence}\n\n{meaning}".encode()).hexdigest()


def current_texts(language: str = "en", scope: str = "") -> tuple[ConsentText, ...]:
    """The wording in force for each purpose, in the order the questions are asked."""
    return tuple(_current(question, language, scope) for question in QUESTIONS)


def _current(question: Question, language: str, scope: str) -> ConsentText:
    """The newest wording of one purpose; the series' own before the general one."""
    found = (
        ConsentText.objects.filter(
            purpose=question.purpose, language=language, scope__in={scope, ""}
        )
        .order_by("-scope", "-version")
        .first()
    )
    return found or add_text(question.purpose, question.sentence, question.meaning, language)


def wordings(purpose: str, scope: str = "", language: str = "en") -> list[ConsentText]:
    """All wordings of a purpose a series has had, the one in force first: its own, then the general
    ones."""
    found = ConsentText.objects.filter(
        purpose=purpose, language=language, scope__in={scope, ""}
    ).order_by("-scope", "-version")
    return list(found) or [add_text(*_first_words(purpose), language=language)]


def standard_text(purpose: str, language: str = "en") -> ConsentText:
    """The general wording in force, for every series without words of its own."""
    return wordings(purpose, "", language)[0]


def _first_words(purpose: str) -> tuple[str, str, str]:
    question = next(one for one in QUESTIONS if one.purpose == purpose)
    return purpose, question.sentence, question.meaning


@transaction.atomic
def add_text(
    purpose: str, sentence: str, meaning: str, language: str = "en", scope: str = ""
) -> ConsentText:
    """Add the next version of a wording; words already in force are given back as they are."""
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
