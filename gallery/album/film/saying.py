"""In which language this room speaks: English, until it is told through whom to translate."""

from collections.abc import Callable

_through: list[Callable[[str], str]] = [str]


def speak_through(translate: Callable[[str], str]) -> None:
    """From now on each sentence goes through this; it is asked each time anew."""
    _through[0] = translate


def gettext(text: str) -> str:
    """A sentence as it is to be said."""
    return _through[0](text)


def gettext_noop(text: str) -> str:
    """Mark a text that is said later."""
    return text
