"""How the library's sentences are said: in English, until it is told through whom to speak.

The names are those the usual tools (xgettext, makemessages) look for, so every sentence can be
taken out of the source and translated. What is stored or compared is never said through here.
"""

from collections.abc import Callable
from dataclasses import dataclass

__all__ = [
    "decimal_mark",
    "gettext",
    "gettext_noop",
    "ngettext",
    "speak_english",
    "speak_through",
]


@dataclass(frozen=True)
class _Voice:
    gettext: Callable[[str], str]
    ngettext: Callable[[str, str, int], str]
    decimal_mark: Callable[[], str]


def _as_written(text: str) -> str:
    return text


def _one_or_many(one: str, many: str, number: int) -> str:
    return one if number == 1 else many


def _point() -> str:
    return "."


_ENGLISH = _Voice(_as_written, _one_or_many, _point)
_speaking: list[_Voice] = [_ENGLISH]


def speak_through(
    gettext: Callable[[str], str],
    ngettext: Callable[[str, str, int], str],
    decimal_mark: Callable[[], str],
) -> None:
    """From now on every sentence goes through these; they are asked each time anew, so that they
    may follow a language that changes from one reader to the next."""
    _speaking[0] = _Voice(gettext, ngettext, decimal_mark)


def speak_english() -> None:
    """English again, as it is written in the source."""
    _speaking[0] = _ENGLISH


def gettext(text: str) -> str:
    """A sentence as it is to be said.

    >>> gettext("Above the armhole")
    'Above the armhole'
    """
    # Of an empty text a catalogue would give its own head.
    return _speaking[0].gettext(text) if text else text


def ngettext(one: str, many: str, number: int) -> str:
    """The sentence for one or for so many.

    >>> ngettext("%(count)s row", "%(count)s rows", 1) % {"count": 1}
    '1 row'
    """
    return _speaking[0].ngettext(one, many, number)


def gettext_noop(text: str) -> str:
    """Marks a text that is translated later, when it is said: for constants of a module."""
    return text


def decimal_mark() -> str:
    """The sign between whole number and decimals: "." in English, "," in German."""
    return _speaking[0].decimal_mark()
