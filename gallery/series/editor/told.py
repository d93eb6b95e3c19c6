"""The notes of a typed pattern as a list, each with the name its field has on the page."""

from collections.abc import Iterator
from dataclasses import dataclass

from django.utils.translation import gettext as _

from alterations.wording import all_small
from gallery.series.editor.document import Document
from gallery.series.editor.grid import grid_of
from gallery.series.editor.page import Field, pieces_of, tables_of
from gallery.series.editor.places import Note


@dataclass(frozen=True)
class Told:
    """A note with the name of its field and where it stands on the page."""

    label: str
    id: str
    note: Note


def told(document: Document, notes: tuple[Note, ...]) -> tuple[Told, ...]:
    """Each note with its field named as the page names it."""
    known = {
        row.field: (f"{group.title}, {row.label}", row.id)
        for group in grid_of(document, ())
        for row in group.rows
    }
    for title, field in _all_fields(document, ()):
        known.setdefault(field.name, (f"{title}, {all_small(field.label)}", field.id))
    return tuple(Told(*known.get(note.field, ("", "")), note) for note in notes)


def fields_with_notes(document: Document, notes: tuple[Note, ...]) -> tuple[Field, ...]:
    """The fields outside the grid beside which something is to be said."""
    return tuple(field for _title, field in _all_fields(document, notes) if field.notes)


def _all_fields(document: Document, notes: tuple[Note, ...]) -> Iterator[tuple[str, Field]]:
    names = {"fabrics": _("Fabric"), "follows": _("Rule"), "measures": _("Measurement")}
    for name, found in tables_of(document, notes).items():
        for one in found if isinstance(found, tuple) else (found,):
            title = f"{names[name]} {one.at + 1}" if name in names else one.title
            yield from ((title, field) for field in one.fields)
    for piece in pieces_of(document, notes):
        yield from ((piece.title, field) for field in piece.fields)
        for section in piece.sections:
            title = f"{piece.title}, {all_small(section.title)}"
            yield from ((title, field) for field in section.fields)
