"""The numbers of a typed pattern as a grid: sizes across, numbers down."""

from collections.abc import Iterator
from dataclasses import dataclass

from django.utils.translation import gettext as _

from gallery.series.editor.document import Document, numbers_of
from gallery.series.editor.places import Note


@dataclass(frozen=True)
class GridRow:
    """One number in all sizes: the field, its names, what is typed, what is to be looked at."""

    field: str
    label: str
    unit: str
    typed: str
    notes: tuple[Note, ...] = ()
    is_list: bool = False

    @property
    def id(self) -> str:
        """The field's id on the page."""
        return "n-" + self.field.replace(".", "-")

    @property
    def shows_unit(self) -> bool:
        """Whether the unit is not in the label already."""
        return bool(self.unit) and self.unit not in self.label

    @property
    def is_wrong(self) -> bool:
        """Whether the pattern cannot be used because of it."""
        return any(note.is_wrong for note in self.notes)

    @property
    def sizes(self) -> str:
        """The sizes its notes are about, as the script reads them."""
        return "|".join(dict.fromkeys(note.size for note in self.notes if note.size))


@dataclass(frozen=True)
class GridGroup:
    """The rows under one heading."""

    title: str
    rows: tuple[GridRow, ...]


def grid_of(document: Document, notes: tuple[Note, ...]) -> tuple[GridGroup, ...]:
    """All numbers that differ by size, each with its notes."""
    known: dict[str, list[Note]] = {}
    for note in notes:
        known.setdefault(note.field, []).append(note)
    return tuple(
        GridGroup(title, tuple(_noted(row, known) for row in rows))
        for title, rows in _groups(document)
    )


def _noted(row: GridRow, known: dict[str, list[Note]]) -> GridRow:
    notes = tuple(known.get(row.field, ()))
    return GridRow(row.field, row.label, row.unit, row.typed, notes, row.is_list)


def _groups(document: Document) -> Iterator[tuple[str, list[GridRow]]]:
    head = document["pattern"]
    yield (
        _("Sizes"),
        [
            GridRow("pattern.sizes", _("Names of the sizes"), "", head["sizes"]),
            GridRow("pattern.to_fit_cm", _("To fit"), _("cm"), head["to_fit_cm"]),
        ],
    )
    for at, piece in enumerate(document["pieces"]):
        rows = [
            row
            for place, section in enumerate(piece["sections"])
            for row in _section(f"pieces.{at}.sections.{place}", section, is_first=place == 0)
        ]
        yield piece["title"] or _("Piece without a name"), rows
    yield _("Yarn"), [GridRow("yarn.metres", _("Metres"), _("m"), document["yarn"]["metres"])]


def _section(place: str, section: dict[str, str], *, is_first: bool) -> Iterator[GridRow]:
    wanted = numbers_of(section, is_first=is_first)
    title = section["title"] or section["key"]
    names = {
        "stitches": _("%(title)s: stitches at its end"),
        "rows": _("%(title)s: rows"),
        "plain_end": _("%(title)s: plain rows at its end"),
        "groups": _("%(title)s: groups held, as 7-6-6"),
        "centre": _("%(title)s: bound off in the centre"),
        "steps": _("%(title)s: then at each side, as 6-2-1"),
    }
    if is_first:
        names["stitches"] = _("%(title)s: stitches cast on")
    units = {"rows": _("rows"), "plain_end": _("rows")}
    for name in wanted:
        yield GridRow(
            f"{place}.{name}",
            names[name] % {"title": title},
            units.get(name, _("stitches")),
            section[name],
            is_list=name in ("groups", "steps"),
        )
