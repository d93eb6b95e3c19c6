"""What may stand in a name or a note: taken exactly as written, or refused in words."""

import unicodedata

from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _

MOST_LETTERS = 100  # what a reader sees as one letter, a family emoji included
MOST_CHARACTERS = 400

_JOINERS = {"\u200d"}
_LINE_ENDS = {"Zl", "Zp"}
# Embeddings, overrides and isolates (Unicode Annex 9): they could turn round what stands beside.
_TURNERS = set("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


def refuse_control_characters(text: str) -> None:
    """Refuse what no keyboard line contains; nothing is taken out silently."""
    for place, character in enumerate(text, start=1):
        is_turner = character in _TURNERS
        if is_turner or unicodedata.category(character) in {"Cc", *_LINE_ENDS}:
            raise ValidationError(
                _(
                    "Character number %(place)s is an invisible control character. "
                    "Please delete it and type the text again."
                )
                % {"place": place},
                code="control",
            )


def refuse_control_in_lines(text: str) -> None:
    """As above, for a text of several lines: line ends and tabs are welcome."""
    refuse_control_characters(text.translate({10: " ", 13: " ", 9: " "}))


def refuse_long_name(text: str) -> None:
    """Refuse a name that no caption can hold."""
    if len(text) > MOST_CHARACTERS or letters_seen(text) > MOST_LETTERS:
        raise ValidationError(
            _("This name is too long to be shown: please keep to %(most)s letters.")
            % {"most": MOST_LETTERS},
            code="long",
        )


def letters_seen(text: str) -> int:
    """How many letters a reader sees: marks, joined emoji and flags count with their letter.

    A close reading of Unicode's extended grapheme clusters (UAX #29), enough for a limit.
    """
    count = 0
    before = ""
    half_flag = False
    for character in text:
        is_flag = "\U0001f1e6" <= character <= "\U0001f1ff"
        joins = _is_mark(character) or before in _JOINERS or (is_flag and half_flag)
        count += not joins
        half_flag = is_flag and not half_flag
        before = character
    return count


def _is_mark(character: str) -> bool:
    is_skin_tone = "\U0001f3fb" <= character <= "\U0001f3ff"
    is_jamo = "\u1160" <= character <= "\u11ff"  # vowels and finals of a Korean syllable
    return (
        character in _JOINERS
        or is_skin_tone
        or is_jamo
        or unicodedata.category(character) in {"Mn", "Me", "Mc"}
    )
