"""A result as base → made, a line for each number that changed, in words with units."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from alterations.errors import ShapingError
from alterations.measures import height_cm, width_cm
from alterations.panels import panels_of
from alterations.pattern import Piece, Section
from alterations.recalculate import Garment, Result
from alterations.reshape import fabric_gauge
from alterations.rounding import round_half_up
from alterations.stitches import schedule_of
from alterations.units import show_cm

TENTH = Fraction(1, 10)
_ONE = {"rows": "row", "stitches": "stitch", "balls": "ball"}


@dataclass(frozen=True)
class Number:
    """One number in the pattern and as made, with its unit; change is empty where it has none."""

    base: str
    made: str
    change: str = ""


@dataclass(frozen=True)
class Line:
    """What changed: its name, its numbers, and a note in words."""

    what: str
    numbers: tuple[Number, ...] = ()
    note: str = ""


def lines(result: Result) -> tuple[Line, ...]:
    """Every number that changed: sections of the pieces, measurements, yarn."""
    return (*_merged(list(_sections(result))), *_measures(result), *_yarn(result))


def _sections(result: Result) -> Iterator[tuple[str, Line]]:
    """Title of the piece and the line, piece by piece, bottom to top."""
    for base, made in zip(result.before.size.pieces, result.after.size.pieces, strict=True):
        if base.panels != made.panels:
            yield base.title, _halves(made)
        for index, (old, new) in enumerate(zip(base.sections, made.sections, strict=True)):
            numbers = tuple(_numbers(result, old, new, is_first=index == 0))
            note = _schedule(old, new)
            if numbers or note:
                yield base.title, Line(old.title.lower(), numbers, note)


def _merged(found: list[tuple[str, Line]]) -> tuple[Line, ...]:
    """Front and back often change alike: one line then names both."""
    titles: dict[Line, list[str]] = {}
    for title, line in found:
        titles.setdefault(line, []).append(title)
    return tuple(
        Line(f"{_and(names)}: {line.what}", line.numbers, line.note)
        for line, names in titles.items()
    )


def _and(names: list[str]) -> str:
    head, *tail = names
    return " and ".join([head, *(name.lower() for name in tail)])


def _numbers(result: Result, old: Section, new: Section, *, is_first: bool) -> Iterator[Number]:
    before = fabric_gauge(result.pattern, old.fabric, result.before.gauge)
    after = fabric_gauge(result.pattern, new.fabric, result.after.gauge)
    if is_first and old.start != new.start:
        yield _count(old.start, new.start, "stitches cast on")
    if old.rows != new.rows:
        yield _count(old.rows, new.rows, "rows")
        yield _length(height_cm(old, before), height_cm(new, after))
    if old.end != new.end and old.shape != "straight":
        yield _count(old.end, new.end, "stitches")
        if old.end and new.end:
            yield _length(width_cm(old, before), width_cm(new, after))


def _count(old: int, new: int, unit: str) -> Number:
    sign = "+" if new > old else "−"
    difference = _counted(abs(new - old), unit.removesuffix(" cast on"))
    return Number(_counted(old, unit), _counted(new, unit), f"{sign}{difference}")


def _counted(count: int, unit: str) -> str:
    """A count with its unit: "1 row", "14 rows", "1 stitch cast on", "500 g"."""
    noun, *rest = unit.split(" ")
    one = _ONE.get(noun, noun) if count == 1 else noun
    return " ".join([str(count), one, *rest])


def _length(old: Fraction, new: Fraction) -> Number:
    change = new - old
    shown = show_cm(abs(change), TENTH)
    sign = "+" if change > 0 else "−"
    return Number(
        f"{show_cm(old, TENTH)} cm",
        f"{show_cm(new, TENTH)} cm",
        f"{sign}{shown} cm" if shown != "0" else "",
    )


def _schedule(old: Section, new: Section) -> str:
    """How a slope is shaped now, where that changed."""
    try:
        before, after = schedule_of(old), schedule_of(new)
    except ShapingError as error:
        return str(error)
    changed = old.shape == "spread" and (before, old.start) != (after, new.start)
    deed = "increase" if new.end > new.start else "decrease"
    return f"{deed} one stitch each side {after}" if changed and after.runs else ""


def _halves(made: Piece) -> Line:
    panels = panels_of(made)
    widths = " and ".join(str(_above_edge(panel)) for panel in panels)
    casts = " and ".join(str(panel.cast_on) for panel in panels)
    return Line(
        "in two halves",
        note=f"worked in two halves of {widths} stitches, cast on {casts}, with a seam between",
    )


def _above_edge(panel: Piece) -> int:
    across = (section.end for section in panel.sections if section.shape == "across")
    return next(across, panel.cast_on)


def _measures(result: Result) -> Iterator[Line]:
    for before, after in zip(result.before.measures, result.after.measures, strict=True):
        number = _length(before.cm, after.cm)
        if number.base != number.made:
            yield Line(before.title, (number,))


def _yarn(result: Result) -> Iterator[Line]:
    before, after = result.before, result.after
    numbers = tuple(_amounts(before, after))
    if numbers or before.amount.yarn.name != after.amount.yarn.name:
        other = before.amount.yarn.name != after.amount.yarn.name
        note = f"{before.amount.yarn.name} → {after.amount.yarn.name}" if other else ""
        yield Line("Yarn", numbers, note)


def _amounts(before: Garment, after: Garment) -> Iterator[Number]:
    pairs = (
        (before.amount.metres, after.amount.metres, "m"),
        (before.amount.balls, after.amount.balls, "balls"),
        (round_half_up(before.amount.grams), round_half_up(after.amount.grams), "g"),
    )
    yield from (_count(old, new, unit) for old, new, unit in pairs if old != new)
