"""What a pattern file says that the page has no place for, told when it is taken over."""

import re

from django.utils.translation import gettext as _

from alterations.errors import PatternFileError
from alterations.patternfile import load_pattern
from gallery.series.editor.document import NUMBERS, SECTION, Document
from gallery.series.editor.places import note_of_problem

_UNKNOWN = re.compile(r"(?P<place>.+): is not a name this format knows; (?P<hint>.+)")
_NO_TABLE = re.compile(r"(?P<place>.+): must be (?:a table|tables), .+")


def left_out(document: Document, text: str) -> tuple[str, ...]:
    """A sentence for each name of the file that the document of it does not hold."""
    try:
        load_pattern(text)
    except PatternFileError as error:
        told = (_told(document, problem) for problem in error.problems)
        return tuple(sentence for sentence in told if sentence)
    return ()


def _told(document: Document, problem: str) -> str:
    found = _UNKNOWN.fullmatch(problem) or _NO_TABLE.fullmatch(problem)
    if found is None:
        return ""
    name = found["place"].rpartition(".")[2]
    if "sections[" in found["place"] and name in SECTION + NUMBERS:
        return ""  # a number of another shape: it is kept
    facts = {"name": found["place"], "where": _where(document, problem)}
    near = re.search("“(.+)”", found.groupdict().get("hint", ""))
    sentence = _("Not taken over from the file: %(name)s%(where)s.") % facts
    if near is None:
        return sentence
    return f"{sentence} {_remedy(near[1]) % {'near': near[1]}}"


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
