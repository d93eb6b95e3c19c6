"""The parts of the editing page besides the grid: fields with their labels, choices and notes."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext as _

from gallery.series.editor import labels
from gallery.series.editor.choices import Choices, choices_of
from gallery.series.editor.document import NUMBERS, Document, numbers_of
from gallery.series.editor.labels import Labels
from gallery.series.editor.places import Note

LONG = ("note", "making_up", "words")
# Which list of choices a field has, where its name alone does not say it.
KINDS = {
    ("follows", "what"): "number",
    ("follows", "of"): "number",
    ("measures", "of"): "measure",
    ("measures", "at"): "section",
}
LISTED = {("follows", "of"), ("measures", "at")}  # several places, each chosen by itself


@dataclass(frozen=True)
class Part:
    """One of several places in a field: its name and id in the form, what is chosen."""

    name: str
    id: str
    typed: str


@dataclass(frozen=True)
class Field:
    """One field: its name in the form, its label, what is typed, its choices, its notes."""

    name: str
    label: str
    typed: str
    choices: Choices = ()
    notes: tuple[Note, ...] = ()
    is_long: bool = False
    help_text: str = ""
    is_listed: bool = False

    @property
    def id(self) -> str:
        """The field's id on the page."""
        return "f-" + self.name.replace(".", "-")

    @property
    def is_hidden(self) -> bool:
        """Whether it is a short name, which the site makes from the title and keeps."""
        return not self.label

    @property
    def suggestions(self) -> str:
        """The id of a list of usual values, for a field in which others may be typed."""
        return "usual-edges" if self.name.endswith(".edge") else ""

    @property
    def parts(self) -> tuple[Part, ...]:
        """The places chosen in a field of several, and one that is still free."""
        chosen = self.typed.split()
        return tuple(
            Part(f"{self.name}.{at}", self.id if at == 0 else f"{self.id}-{at}", typed)
            for at, typed in enumerate([*chosen, ""])
        )

    @property
    def is_wrong(self) -> bool:
        """Whether the pattern cannot be used because of it."""
        return any(note.is_wrong for note in self.notes)


@dataclass(frozen=True)
class FieldSet:
    """Fields that belong together, with the number of their place in a list."""

    title: str
    fields: tuple[Field, ...]
    at: int = 0
    # Numbers of another shape: kept, though this one does not show them.
    hidden: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True)
class PiecePart:
    """One piece with its sections."""

    title: str
    at: int
    fields: tuple[Field, ...]
    sections: tuple[FieldSet, ...]


def tables_of(document: Document, notes: tuple[Note, ...]) -> dict[str, Any]:
    """Head, yarn, machine, fabrics, follow rules and measures as sets of fields."""
    make = _Maker(document, notes)
    return {
        "head": make.set_of(_("The pattern"), "pattern", document["pattern"], labels.of_head()),
        "yarn": make.set_of(_("The yarn"), "yarn", document["yarn"], labels.of_yarn()),
        "machine": make.set_of(
            _("The machine"), "machine", document["machine"], labels.of_machine()
        ),
        "fabrics": make.list_of("fabrics", labels.of_fabric()),
        "follows": make.list_of("follows", labels.of_follow()),
        "measures": make.list_of("measures", labels.of_measure()),
    }


def pieces_of(document: Document, notes: tuple[Note, ...]) -> tuple[PiecePart, ...]:
    """The pieces with their sections as sets of fields."""
    make = _Maker(document, notes)
    return tuple(make.piece(at, piece) for at, piece in enumerate(document["pieces"]))


class _Maker:
    """Makes fields with their notes."""

    def __init__(self, document: Document, notes: tuple[Note, ...]) -> None:
        self.document, self.choices = document, choices_of(document)
        self.notes: dict[str, list[Note]] = {}
        for note in notes:
            self.notes.setdefault(note.field, []).append(note)

    def set_of(
        self, title: str, place: str, values: dict[str, Any], named: Labels, at: int = 0
    ) -> FieldSet:
        """The fields of one table."""
        return FieldSet(title, tuple(self._fields(place, values, named)), at)

    def list_of(self, name: str, named: Labels) -> tuple[FieldSet, ...]:
        """The fields of a list of tables."""
        return tuple(
            self.set_of("", f"{name}.{at}", one, named, at)
            for at, one in enumerate(self.document[name])
        )

    def piece(self, at: int, piece: dict[str, Any]) -> PiecePart:
        """One piece and its sections."""
        place = f"pieces.{at}"
        sections = tuple(
            self.section(f"{place}.sections.{row}", one, row)
            for row, one in enumerate(piece["sections"])
        )
        title = piece["title"] or _("Piece without a name")
        return PiecePart(title, at, tuple(self._fields(place, piece, labels.of_piece())), sections)

    def section(self, place: str, one: dict[str, str], at: int) -> FieldSet:
        """One section, with the numbers the grid does not show for its shape."""
        title = one["title"] or one["key"] or _("New section")
        shown = numbers_of(one, is_first=at == 0)
        hidden = tuple((f"{place}.{name}", one[name]) for name in NUMBERS if name not in shown)
        return FieldSet(title, tuple(self._fields(place, one, labels.of_section())), at, hidden)

    def _fields(self, place: str, values: dict[str, Any], named: Labels) -> Iterator[Field]:
        table = place.split(".", maxsplit=1)[0]
        for name, (label, help_text) in named.items():
            field, typed = f"{place}.{name}", values[name]
            choices = self.choices.get(KINDS.get((table, name), name), ())
            yield Field(
                field,
                label,
                typed,
                _with_others(choices, typed.split() if (table, name) in LISTED else [typed]),
                tuple(self.notes.get(field, ())),
                name in LONG,
                help_text,
                (table, name) in LISTED,
            )


def _with_others(choices: Choices, typed: list[str]) -> Choices:
    """The choices with what was typed elsewhere, so that it is not lost."""
    known = dict(choices)
    others = tuple((one, one) for one in typed if one and one not in known)
    return (*choices, *others) if choices else ()
