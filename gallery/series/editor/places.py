"""From the place a mistake names to the field it was typed in."""

import re
from dataclasses import dataclass

from alterations.identities import Identity
from gallery.series.editor.cells import said_of_cell
from gallery.series.editor.document import Document, key_of, size_names
from gallery.series.editor.wording import in_page_words, shape_of

_STEP = re.compile(r"(?P<name>[^.\[]+)(?:\[(?P<at>\d+)\])?")


@dataclass(frozen=True)
class Note:
    """One thing to look at: the field, the size it is about, whether the pattern cannot be used."""

    field: str
    size: str
    sentence: str
    is_wrong: bool = True


def note_of_problem(document: Document, problem: str) -> Note:
    """A problem of a pattern file as a note beside its field; without one it stands at the top."""
    found = re.fullmatch(_parts(), _numbered(document, problem))
    if found is None:
        return Note("", "", in_page_words(problem))
    field = field_of(document, found["place"])
    size = found["size"] or found["number"] or ""
    of_cell = said_of_cell(document, field, size, found["words"])
    sentence = of_cell or in_page_words(found["words"] if field else problem)
    if size.isdigit() and size not in size_names(document):
        size = ""
    return Note(field, size, sentence[:1].upper() + sentence[1:])


def _parts() -> str:
    """A problem in its parts: the place, the size or which of several values, the words."""
    size, value = shape_of(", size %(size)s"), shape_of(", value %(number)s")
    return rf"(?P<place>[\w.\[\]\"]+)(?:{size}|{value})?: (?P<words>.+)"


def _numbered(document: Document, problem: str) -> str:
    """The problem with the number of a piece or fabric in place of its key, which may hold any
    sign: "pieces.left back.make: …" as "pieces.0.make: …"."""
    for first in ("pieces", "fabrics"):
        keys = [(_key(one), at) for at, one in enumerate(document[first])]
        for key, at in sorted(keys, key=lambda pair: -len(pair[0])):
            start = f"{first}.{key}"
            if key and problem.startswith(start) and problem[len(start) : len(start) + 1] in ".:,":
                return f"{first}.{at}{problem[len(start) :]}"
    return problem


def note_of_identity(document: Document, one: Identity) -> Note:
    """An identity that fails as a note beside its number."""
    parts = one.address.split(".")
    field = one.address
    if len(parts) == 3:
        field = _number_field(document, *parts)
    return Note(field, one.size, one.sentence[:1].upper() + one.sentence[1:], is_wrong=False)


def _number_field(document: Document, piece_key: str, section_key: str, what: str) -> str:
    for at, piece in enumerate(document["pieces"]):
        if _key(piece) != piece_key:
            continue
        for place, section in enumerate(piece["sections"]):
            if _key(section) == section_key:
                return f"pieces.{at}.sections.{place}.{what}"
    return ""


def _key(table: dict[str, str]) -> str:
    return table["key"].strip() or key_of(table["title"])


def field_of(document: Document, place: str) -> str:
    """ "pieces.0.sections[3].rows" as "pieces.0.sections.2.rows"; or nothing."""
    steps = [_STEP.fullmatch(step) for step in place.split(".")]
    names = [step for step in steps if step is not None]
    if not names or len(names) != len(steps):
        return ""
    first = names[0]["name"]
    if first in ("pattern", "machine", "yarn") and len(names) == 2:
        return f"{first}.{names[1]['name']}"
    if first in ("follows", "measures") and names[0]["at"]:
        last = names[1]["name"] if len(names) > 1 else "what"
        return f"{first}.{int(names[0]['at']) - 1}.{last}"
    if first in ("fabrics", "pieces") and len(names) > 1:
        return _inside(document, first, names)
    return ""


def _inside(document: Document, first: str, names: list[re.Match[str]]) -> str:
    at = names[1]["name"]
    if not at.isdecimal() or int(at) >= len(document[first]):
        return ""
    field, rest = f"{first}.{at}", names[2:]
    if rest and rest[0]["name"] == "sections" and rest[0]["at"]:
        field += f".sections.{int(rest[0]['at']) - 1}"
        rest = rest[1:]
    name = rest[0]["name"] if rest else "title"
    # Short names are not shown: what is wrong with one is said beside the name it was made of.
    return f"{field}.{'title' if name in ('key', 'sections') else name}"
