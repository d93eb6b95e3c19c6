"""What a pattern file says that the page has no place for, told when it is taken over."""

import re

from django.utils.translation import gettext as _

from alterations.errors import PatternFileError
from alterations.patternfile import load_pattern
from gallery.series.editor.document import NUMBERS, SECTION, Document
from gallery.series.editor.places import note_of_problem
from gallery.series.editor.wording import shape_of

# What the file reader says of such names, as it is written there.
_LEFT_OUT = (
    "is not a name this format knows; did you mean “%(near)s”?",
    "is not a name this format knows; please take it out.",
    "must be a table, begun with [%(name)s].",
    "must be tables, each begun with [[%(name)s]].",
)


def left_out(document: Document, text: str) -> tuple[str, ...]:
    """A sentence for each name of the file that the document of it does not hold."""
    try:
        load_pattern(text)
    except PatternFileError as error:
        told = (_told(document, problem) for problem in error.problems)
        return tuple(sentence for sentence in told if sentence)
    return ()


def _told(document: Document, problem: str) -> str:
    found = _told_of(problem)
    if found is None:
        return ""
    name = found["place"].rpartition(".")[2]
    if "sections[" in found["place"] and name in SECTION + NUMBERS:
        return ""  # a number of another shape: it is kept
    facts = {"name": found["place"], "where": _where(document, problem)}
    near = found.groupdict().get("near", "").strip("“”„")
    sentence = _("Not taken over from the file: %(name)s%(where)s.") % facts
    if not near:
        return sentence
    return f"{sentence} {_remedy(near) % {'near': near}}"


def _told_of(problem: str) -> re.Match[str] | None:
    tried = (re.fullmatch(f"(?P<place>.+): {shape_of(one)}", problem) for one in _LEFT_OUT)
    return next(filter(None, tried), None)


def _remedy(near: str) -> str:
    if near == "shape":
        return _("If “%(near)s” was meant: the section is straight now; choose how it is worked.")
    return _("If “%(near)s” was meant, please fill it in here.")


def _where(document: Document, problem: str) -> str:
    """The titles of the piece and the section, in brackets; nothing outside of them."""
    steps = note_of_problem(document, problem).field.split(".")
    if steps[0] != "pieces" or len(steps) < 3:
        return ""
    piece = document["pieces"][int(steps[1])]
    titles = [piece["title"]]
    if steps[2] == "sections":
        titles.append(piece["sections"][int(steps[3])]["title"])
    return f" ({', '.join(title for title in titles if title)})"
