"""A pattern's numbers as tables of sizes: stitches and rows, measurements, yarn."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from alterations.errors import ShapingError
from alterations.measures import Measure, finished
from alterations.panels import panels_of
from alterations.pattern import Pattern, Piece, Section, Size
from alterations.rounding import round_half_up
from alterations.stitches import schedule_of
from alterations.units import show_cm, show_in
from alterations.wording import inside
from alterations.yarn import balls_of, grams_of

TENTH = Fraction(1, 10)


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
        ("knitted", f"{pattern.name}: stitches and rows", _knitted(pattern)),
        ("finished", f"{pattern.name}: finished measurements", _finished(pattern)),
        ("yarn", f"{pattern.name}: yarn ({pattern.yarn.name})", _yarn(pattern)),
    )
    return tuple(
        Table(key, caption, "Size", pattern.size_names, tuple(rows))
        for key, caption, rows in tables
    )


def _knitted(pattern: Pattern) -> Iterator[Row]:
    for index, piece in enumerate(pattern.sizes[0].pieces):
        yield Row(f"{piece.title}{' (two)' if piece.make == 2 else ''}", is_group=True)
        yield from _piece(pattern, index, piece)


def _piece(pattern: Pattern, index: int, first: Piece) -> Iterator[Row]:
    pieces = [size.pieces[index] for size in pattern.sizes]
    yield Row("Cast on", "stitches", tuple(_cast_on(piece) for piece in pieces))
    if any(piece.panels > 1 for piece in pieces):
        yield Row("Worked as", "", tuple(_worked_as(piece) for piece in pieces))
    for place, section in enumerate(first.sections):
        columns = [piece.sections[place] for piece in pieces]
        if section.shape == "across":
            yield Row(
                "Correction", "stitches", tuple(_correction(piece, place) for piece in pieces)
            )
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
    return {1: "1 piece", 2: "2 halves"}.get(piece.panels, f"{piece.panels} panels")


def _section(first: Section, columns: list[Section]) -> Iterator[Row]:
    if any(one.rows for one in columns):
        yield Row(first.title, "rows", tuple(str(one.rows) for one in columns))
    if first.shape == "spread":
        deed = "increase" if first.end > first.start else "decrease"
        where = "each side" if first.where == "both" else f"at the {first.where} edge"
        name = f"{first.title}, {deed} {where} (rows × times)"
        yield Row(name, "", tuple(_rhythm(one) for one in columns))
    if first.shape == "edges":
        yield Row(f"{first.title}, each side", "stitches", _cells(columns, _each_side))
    if first.shape == "neck":
        yield Row(f"{first.title}, centre", "stitches", _cells(columns, lambda one: one.centre))
        yield Row(f"{first.title}, then each side", "stitches", tuple(_steps(columns, "steps")))
    if first.shape == "held":
        yield Row(f"{first.title}, groups", "stitches", tuple(_steps(columns, "groups")))
    if first.shape != "straight" and any(one.end for one in columns):
        after = first.title if first.shape == "across" else f"After the {inside(first.title)}"
        yield Row(after, "stitches", _cells(columns, _end))


def _rhythm(section: Section) -> str:
    """For example "6×13, 8×3": every 6 rows 13 times, then every 8 rows 3 times."""
    try:
        runs = schedule_of(section).runs
    except ShapingError:
        return "not possible"
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
        yield from _measured("To fit", fits)
    for index, first in enumerate(columns[0]):
        yield from _measured(first.title, [column[index] for column in columns])


def _measured(title: str, values: list[Measure]) -> Iterator[Row]:
    yield Row(title, "cm", tuple(show_cm(value.cm, TENTH) for value in values))
    yield Row(title, "in", tuple(show_in(value.cm) for value in values))


def _yarn(pattern: Pattern) -> Iterator[Row]:
    yarn = pattern.yarn

    def balls(size: Size) -> int:
        return balls_of(size.metres, yarn.ball_metres)

    ball = f"Balls of {show_cm(yarn.ball_grams)} g = {show_cm(yarn.ball_metres)} m"
    yield Row("Metres", "m", tuple(str(size.metres) for size in pattern.sizes))
    yield Row(ball, "", tuple(str(balls(size)) for size in pattern.sizes))
    grams = (round_half_up(grams_of(size.metres, yarn.tex)) for size in pattern.sizes)
    yield Row("Weight used", "g", tuple(map(str, grams)))
