"""In which language something is said that no page at hand decides: films, letters, jobs."""

from contextlib import AbstractContextManager

from django.conf import settings
from django.utils import translation


def the_sites() -> AbstractContextManager[None]:
    """The site's own language: of films and packs, whoever looks at the page that asks for them."""
    return translation.override(settings.LANGUAGE_CODE)


def the_language(code: str) -> AbstractContextManager[None]:
    """That language, for a letter; the site's own where it is not known."""
    known = code if code in dict(settings.LANGUAGES) else settings.LANGUAGE_CODE
    return translation.override(known)


def now_spoken() -> str:
    """The language of the page at hand, as a row remembers it."""
    return translation.get_language() or settings.LANGUAGE_CODE
