"""A pattern's numbers as tables of sizes: stitches and rows, measurements, yarn."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from alterations.errors import ShapingError
from alterations.measures import Measure, finished
from alterations.panels import panels_of
from alterations.pattern import Pattern, Piece, Section, Size, Where
from alterations.rounding import round_half_up
from alterations.saying import gettext as _
from alterations.saying import gettext_noop
from alterations.stitches import schedule_of
from alterations.units import show_cm, show_in
from alterations.wording import inside
from alterations.yarn import balls_of, grams_of

TENTH = Fraction(1, 10)
_SPREAD: dict[tuple[bool, Where], str] = {
    (True, "both"): gettext_noop("%(section)s, increase each side (rows × times)"),
    (True, "left"): gettext_noop("%(section)s, increase at the left edge (rows × times)"),
    (True, "right"): gettext_noop("%(section)s, increase at the right edge (rows × times)"),
    (False, "both"): gettext_noop("%(section)s, decrease each side (rows × times)"),
    (False, "left"): gettext_noop("%(section)s, decrease at the left edge (rows × times)"),
    (False, "right"): gettext_noop("%(section)s, decrease at the right edge (rows × times)"),
}


@dataclass(frozen=True)
class Row:
    """One row: its name, its unit, a cell for each size; a group row has a name only."""

    name: str
    unit: str = ""
    cells: tuple[str, ...] = ()
    is_group: bool = False


@dataclass(frozen=True)
class Table:
    """A table with its words; one column for each size."""

    id: str
    caption: str
    corner: str
    columns: tuple[str, ...]
    rows: tuple[Row, ...]


def size_table(pattern: Pattern) -> tuple[Table, ...]:
    """Three tables: what is knitted, what it measures (cm, inches to the quarter), the yarn."""
    tables = (
        ("knitted", _("%(pattern)s: stitches and rows"), _knitted(pattern)),
        ("finished", _("%(pattern)s: finished measurements"), _finished(pattern)),
        ("yarn", _("%(pattern)s: yarn (%(yarn)s)"), _yarn(pattern)),
    )
    told = {"pattern": pattern.name, "yarn": pattern.yarn.name}
    return tuple(
        Table(key, caption % told, _("Size"), pattern.size_names, tuple(rows))
        for key, caption, rows in tables
    )


def _knitted(pattern: Pattern) -> Iterator[Row]:
    for index, piece in enumerate(pattern.sizes[0].pieces):
        title = _("%(piece)s (two)") % {"piece": piece.title} if piece.make == 2 else piece.title
        yield Row(title, is_group=True)
        yield from _piece(pattern, index, piece)


def _piece(pattern: Pattern, index: int, first: Piece) -> Iterator[Row]:
    pieces = [size.pieces[index] for size in pattern.sizes]
    yield Row(_("Cast on"), _("stitches"), tuple(_cast_on(piece) for piece in pieces))
    if any(piece.panels > 1 for piece in pieces):
        yield Row(_("Worked as"), "", tuple(_worked_as(piece) for piece in pieces))
    for place, section in enumerate(first.sections):
        columns = [piece.sections[place] for piece in pieces]
        if section.shape == "across":
            added = tuple(_correction(piece, place) for piece in pieces)
            yield Row(_("Correction"), _("stitches"), added)
        yield from _section(section, columns)


def _correction(piece: Piece, place: int) -> str:
    """Stitches added in the row after the edge; of each half where the piece is worked in two."""
    key = piece.sections[place].key
    rows = [panel.section(key) for panel in panels_of(piece)]
    added = [row.end - row.start for row in rows]
    shown = [f"+{count}" if count > 0 else str(count) for count in added]
    if len(shown) == 1:
        return shown[0]
    return f"{len(shown)} × {shown[0]}" if len(set(shown)) == 1 else " ".join(shown)


def _cast_on(piece: Piece) -> str:
    counts = [panel.cast_on for panel in panels_of(piece)]
    if len(counts) == 1:
        return str(counts[0])
    if len(set(counts)) == 1:
        return f"{len(counts)} × {counts[0]}"
    return " + ".join(map(str, counts))


def _worked_as(piece: Piece) -> str:
    if piece.panels == 1:
        return _("1 piece")
    if piece.panels == 2:
        return _("2 halves")
    return _("%(panels)s panels") % {"panels": piece.panels}


def _section(first: Section, columns: list[Section]) -> Iterator[Row]:
    if any(one.rows for one in columns):
        yield Row(first.title, _("rows"), tuple(str(one.rows) for one in columns))
    unit, told = _("stitches"), {"section": first.title}
    if first.shape == "spread":
        words = _(_SPREAD[first.end > first.start, first.where])
        yield Row(words % told, "", tuple(_rhythm(one) for one in columns))
    if first.shape == "edges":
        yield Row(_("%(section)s, each side") % told, unit, _cells(columns, _each_side))
    if first.shape == "neck":
        centres = _cells(columns, lambda one: one.centre)
        yield Row(_("%(section)s, centre") % told, unit, centres)
        steps = tuple(_steps(columns, "steps"))
        yield Row(_("%(section)s, then each side") % told, unit, steps)
    if first.shape == "held":
        yield Row(_("%(section)s, groups") % told, unit, tuple(_steps(columns, "groups")))
    if first.shape != "straight" and any(one.end for one in columns):
        after = _("After the %(section)s") % {"section": inside(first.title)}
        name = first.title if first.shape == "across" else after
        yield Row(name, unit, _cells(columns, _end))


def _rhythm(section: Section) -> str:
    """For example "6×13, 8×3": every 6 rows 13 times, then every 8 rows 3 times."""
    try:
        runs = schedule_of(section).runs
    except ShapingError:
        return _("not possible")
    return ", ".join(f"{run.every}×{run.times}" for run in runs) or "–"


def _cells(columns: list[Section], read: Callable[[Section], int]) -> tuple[str, ...]:
    return tuple(str(read(one)) for one in columns)


def _each_side(section: Section) -> int:
    return (section.start - section.end) // section.edges


def _end(section: Section) -> int:
    return section.end


def _steps(columns: list[Section], name: str) -> Iterator[str]:
    for one in columns:
        yield "-".join(map(str, getattr(one, name))) or "–"


def _finished(pattern: Pattern) -> Iterator[Row]:
    columns = [finished(pattern, size) for size in pattern.sizes]
    if all(size.to_fit_cm is not None for size in pattern.sizes):
        fits = [Measure("", "", Fraction(size.to_fit_cm or 0)) for size in pattern.sizes]
        yield from _measured(_("To fit"), fits)
    for index, first in enumerate(columns[0]):
        yield from _measured(first.title, [column[index] for column in columns])


def _measured(title: str, values: list[Measure]) -> Iterator[Row]:
    yield Row(title, _("cm"), tuple(show_cm(value.cm, TENTH) for value in values))
    yield Row(title, _("in"), tuple(show_in(value.cm) for value in values))


def _yarn(pattern: Pattern) -> Iterator[Row]:
    yarn = pattern.yarn

    def balls(size: Size) -> int:
        return balls_of(size.metres, yarn.ball_metres)

    ball = _("Balls of %(grams)s g = %(metres)s m") % {
        "grams": show_cm(yarn.ball_grams),
        "metres": show_cm(yarn.ball_metres),
    }
    yield Row(_("Metres"), "m", tuple(str(size.metres) for size in pattern.sizes))
    yield Row(ball, "", tuple(str(balls(size)) for size in pattern.sizes))
    grams = (round_half_up(grams_of(size.metres, yarn.tex)) for size in pattern.sizes)
    yield Row(_("Weight used"), "g", tuple(map(str, grams)))
