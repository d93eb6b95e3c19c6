"""The parts of the editing page besides the grid: fields with their labels, choices and notes."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, get_args

from django.utils.translation import gettext as _

from alterations.pattern import EDGES, MeasureOf, Rhythm, Rule, Shape
from alterations.places import PARTS
from gallery.series.editor.document import (
    FABRIC,
    FOLLOW,
    MEASURE,
    NUMBERS,
    Document,
    key_of,
    numbers_of,
)
from gallery.series.editor.grid import grid_of
from gallery.series.editor.places import Note


@dataclass(frozen=True)
class Field:
    """One field: its name in the form, its label, what is typed, its choices, its notes."""

    name: str
    label: str
    typed: str
    choices: tuple[tuple[str, str], ...] = ()
    notes: tuple[Note, ...] = ()
    is_long: bool = False
    help_text: str = ""

    @property
    def id(self) -> str:
        """The field's id on the page."""
        return "f-" + self.name.replace(".", "-")


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


def shapes() -> tuple[tuple[str, str], ...]:
    """How a section gets from one count to the other, in words."""
    known = {
        "straight": _("straight"),
        "across": _("more or fewer within one row"),
        "edges": _("bound off or cast on at the edges"),
        "spread": _("increased or decreased along the edges"),
        "held": _("held in short rows"),
        "neck": _("a neck: centre bound off, then steps"),
    }
    return tuple((name, known[name]) for name in get_args(Shape))


def _choices(*names: str, empty: str = "") -> tuple[tuple[str, str], ...]:
    first = (("", empty),) if empty else ()
    return (*first, *((name, name) for name in names))


def choices_of(document: Document) -> dict[str, Any]:
    """What the fields with a list may hold."""
    fabrics = tuple(
        (one["key"] or key_of(one["title"]), one["title"]) for one in document["fabrics"]
    )
    return {
        "audience": (("adult", _("an adult")), ("child", _("a child"))),
        "even_rows": (("yes", _("must be even")), ("no", _("may be odd"))),
        "may_be_halved": (("no", _("no")), ("yes", _("yes"))),
        "folded": (("no", _("no")), ("yes", _("yes, a hung hem"))),
        "basis": (("10cm", "10 cm"), ("4in", _("4 inches")), ("nominal", _("10 cm or 4 inches"))),
        "edge": tuple((name, name) for name in EDGES),
        "shape": shapes(),
        "where": (("both", _("both edges")), ("left", _("left")), ("right", _("right"))),
        "every": _choices(*get_args(Rhythm)),
        "fabric": fabrics,
        "rule": _choices(*get_args(Rule), empty=_("please choose")),
        "measure": _choices(*get_args(MeasureOf), empty=_("please choose")),
    }


PART_NAMES = (*PARTS, "hem", "cuff", "neckband")


def tables_of(document: Document, notes: tuple[Note, ...]) -> dict[str, Any]:
    """Head, yarn, machine, fabrics, follow rules and measures as sets of fields."""
    make = _Maker(document, notes)
    return {
        "head": make.set_of(_("The pattern"), "pattern", document["pattern"], _HEAD()),
        "yarn": make.set_of(_("The yarn"), "yarn", document["yarn"], _YARN()),
        "machine": make.set_of(_("The machine"), "machine", document["machine"], _MACHINE()),
        "fabrics": make.list_of("fabrics", _FABRIC()),
        "follows": make.list_of("follows", _FOLLOW()),
        "measures": make.list_of("measures", _MEASURE()),
    }


def pieces_of(document: Document, notes: tuple[Note, ...]) -> tuple[PiecePart, ...]:
    """The pieces with their sections as sets of fields."""
    make = _Maker(document, notes)
    return tuple(make.piece(at, piece) for at, piece in enumerate(document["pieces"]))


Labels = dict[str, tuple[str, str]]  # name: its label, a word of help


class _Maker:
    """Makes fields with their notes."""

    def __init__(self, document: Document, notes: tuple[Note, ...]) -> None:
        self.document, self.choices = document, choices_of(document)
        self.notes: dict[str, list[Note]] = {}
        for note in notes:
            self.notes.setdefault(note.field, []).append(note)

    def set_of(
        self, title: str, place: str, values: dict[str, Any], labels: Labels, at: int = 0
    ) -> FieldSet:
        """The fields of one table."""
        return FieldSet(title, tuple(self._fields(place, values, labels)), at)

    def list_of(self, name: str, labels: Labels) -> tuple[FieldSet, ...]:
        """The fields of a list of tables."""
        return tuple(
            self.set_of("", f"{name}.{at}", one, labels, at)
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
        return PiecePart(title, at, tuple(self._fields(place, piece, _PIECE())), sections)

    def section(self, place: str, one: dict[str, str], at: int) -> FieldSet:
        """One section, with the numbers the grid does not show for its shape."""
        title = one["title"] or one["key"] or _("New section")
        shown = numbers_of(one, is_first=at == 0)
        hidden = tuple((f"{place}.{name}", one[name]) for name in NUMBERS if name not in shown)
        return FieldSet(title, tuple(self._fields(place, one, _SECTION())), at, hidden)

    def _fields(self, place: str, values: dict[str, Any], labels: Labels) -> Iterator[Field]:
        for name, (label, help_text) in labels.items():
            field = f"{place}.{name}"
            kind = "measure" if place.startswith("measures") and name == "of" else name
            typed = values[name]
            choices = self.choices.get(kind, ())
            if choices and typed and typed not in dict(choices):
                choices = (*choices, (typed, typed))  # what was typed elsewhere is not lost
            yield Field(
                field,
                label,
                typed,
                choices,
                tuple(self.notes.get(field, ())),
                name in ("note", "making_up", "words"),
                help_text,
            )


def _HEAD() -> Labels:  # noqa: N802
    return {
        "name": (_("Name of the pattern"), ""),
        "designer": (_("Designed by"), ""),
        "series": (_("Belongs to the series"), ""),
        "garment": (_("What it is"), _("tunic, cardigan, robe …; some call for a caution")),
        "audience": (_("It is for"), ""),
        "even_rows": (_("Row counts"), _("even where the carriage must come back to its side")),
        "note": (_("Before one begins"), ""),
        "making_up": (_("Making up"), ""),
    }


def _YARN() -> Labels:  # noqa: N802
    return {
        "name": (_("Yarn"), ""),
        "fibre": (_("Fibre"), _("as 100 % wool")),
        "ball_grams": (_("Grams in a ball"), ""),
        "ball_metres": (_("Metres in a ball"), ""),
        "allowance_percent": (_("Allowance in per cent"), _("seams, edges and swatch; 8 is usual")),
    }


def _MACHINE() -> Labels:  # noqa: N802
    return {
        "needles": (_("Needles on the bed"), _("empty for hand needles")),
        "pitch_mm": (_("From needle to needle, mm"), ""),
    }


def _FABRIC() -> Labels:  # noqa: N802
    names = {
        "key": (_("Short name"), _("the first fabric is the main one")),
        "title": (_("Name"), ""),
        "stitches": (_("Stitches"), ""),
        "rows": (_("Rows"), ""),
        "basis": (_("Counted over"), ""),
        "loop_percent": (_("Yarn in a stitch, %"), _("of the main fabric's; 90 for a rib")),
    }
    return {name: names[name] for name in FABRIC}


def _PIECE() -> Labels:  # noqa: N802
    return {
        "key": (_("Short name"), _("as back; rules use it")),
        "title": (_("Name"), ""),
        "make": (_("How many"), ""),
        "edge": (_("Edge"), _("or a repeat as 3n + 2")),
        "seams": (_("Seam stitches left and right"), _("as 1 1; empty for one at each side")),
        "panels": (_("Panels by size"), _("1, or 2 for halves; as 1 1 2 2")),
        "may_be_halved": (_("May be parted in panels"), ""),
        "words": (_("How it is worked, in your words"), ""),
    }


def _SECTION() -> Labels:  # noqa: N802
    return {
        "key": (_("Short name"), ""),
        "title": (_("Name"), ""),
        "shape": (_("How"), ""),
        "fabric": (_("Fabric"), ""),
        "where": (_("At which edge"), ""),
        "every": (_("Shaped on"), ""),
        "part": (_("Knitters call it"), _("what they lengthen or widen, as body length")),
        "folded": (_("Folded"), ""),
        "seams": (_("Seam stitches, if others"), ""),
    }


def _FOLLOW() -> Labels:  # noqa: N802
    names = {
        "what": (_("This number"), _("as front.body.rows")),
        "rule": (_("follows by the rule"), ""),
        "of": (_("from"), _("as back.body.rows; several with a blank between")),
    }
    return {name: names[name] for name in FOLLOW}


def _MEASURE() -> Labels:  # noqa: N802
    names = {
        "key": (_("Short name"), ""),
        "title": (_("Name"), ""),
        "of": (_("Measured as"), ""),
        "at": (_("along"), _("as back.body front.body")),
    }
    return {name: names[name] for name in MEASURE}


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
    for title, field in _all_fields(document):
        known.setdefault(field.name, (f"{title}, {field.label.lower()}", field.id))
    return tuple(Told(*known.get(note.field, ("", "")), note) for note in notes)


def _all_fields(document: Document) -> Iterator[tuple[str, Field]]:
    tables = tables_of(document, ())
    names = {"fabrics": _("Fabric"), "follows": _("Rule"), "measures": _("Measurement")}
    for name, found in tables.items():
        for one in found if isinstance(found, tuple) else (found,):
            title = f"{names[name]} {one.at + 1}" if name in names else one.title
            yield from ((title, field) for field in one.fields)
    for piece in pieces_of(document, ()):
        yield from ((piece.title, field) for field in piece.fields)
        for section in piece.sections:
            title = f"{piece.title}, {section.title.lower()}"
            yield from ((title, field) for field in section.fields)
