"""What is wrong with one number as it was typed, said of what stands in its cell."""

from django.utils.translation import gettext as _

from alterations.saying import gettext as said
from gallery.series.editor.document import LONGEST_NUMBER, Document, size_names, words_as_typed

EMPTY = "?"  # holds the place of a size that has no number yet
_LONGEST_SHOWN = 20
# What the file reader says, as it is written there.
_COUNT = "must be a whole number without quotes."
_FIGURE = "must be a number without quotes, like 21 or 6.5."
_ABOVE_ZERO = "must be a number above zero."


def said_of_cell(document: Document, field: str, size: str, problem: str) -> str:
    """The sentence for a word that is no number; nothing where the problem is another one."""
    written = next((one for one in (_COUNT, _FIGURE, _ABOVE_ZERO) if said(one) == problem), "")
    if not written:
        return ""
    word = _word_at(document, field, size)
    if word in ("", EMPTY):
        return _("A number is missing here.")
    shown = word[:_LONGEST_SHOWN] + "…" * (len(word) > _LONGEST_SHOWN)
    return _sentence(word, written) % {"word": shown}


def _sentence(word: str, problem: str) -> str:
    commas = word.count(",")
    if commas > 1:
        return _("“%(word)s” is no single number: no comma parts two sizes. Give each its own.")
    if problem == _COUNT and commas:
        return _("“%(word)s” is no whole number, and no comma parts two sizes.")
    if word.isdecimal() and len(word) > LONGEST_NUMBER:
        return _("“%(word)s” is too large a number.")
    if problem == _COUNT:
        return _("“%(word)s” is no whole number; write one like 18.")
    if problem == _ABOVE_ZERO:
        return _("“%(word)s” is no number above zero; write one like 81 or 76.5.")
    return _("“%(word)s” is no number; write one like 21 or 6.5.")


def _word_at(document: Document, field: str, size: str) -> str:
    """What stands in a field at a size (or at a value counted from 1, where the sizes are fewer or
    more); a single word stands for all."""
    row = words_as_typed(_typed(document, field))
    if len(row) == 1:
        return row[0]
    names = size_names(document)
    at = names.index(size) if size in names else int(size) - 1 if size.isdecimal() else 0
    return row[at] if at < len(row) else ""


def _typed(document: Document, field: str) -> str:
    here = document
    for step in field.split("."):
        here = here[int(step)] if isinstance(here, list) else here.get(step, {})
    return here if isinstance(here, str) else ""
