"""Where the knitter's own counts and the computed ones disagree beyond rounding."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from alterations.errors import PatternError, ShapingError
from alterations.finding import Finding
from alterations.gauge import Gauge
from alterations.gauges import Gauges
from alterations.kinds import OwnFigure
from alterations.panels import panels_of
from alterations.pattern import Piece, Section
from alterations.recalculate import Result
from alterations.units import show_cm
from alterations.wording import inside

TENTH = Fraction(1, 10)


def own_findings(result: Result) -> Iterator[Finding]:
    """Compares each of her figures with what was computed at her own gauge."""
    for one in result.alterations:
        if isinstance(one, OwnFigure):
            yield from _compared(result, one)


def _compared(result: Result, own: OwnFigure) -> Iterator[Finding]:
    place = _place(result, own.where)
    if place is None:
        known = ", ".join(
            f"{piece.key}.{section.key}"
            for piece in result.after.size.pieces
            for section in piece.sections
        )
        yield Finding(
            "own place",
            "note",
            f"“{own.where}” is no part of this pattern, so its counts cannot be compared; the "
            f"parts are {known}.",
        )
        return
    piece, section = place
    if own.rows is not None:
        yield from _rows(result, piece, section, own.rows)
    if own.stitches is not None:
        yield from _stitches(result, piece, section, own.stitches)


def _place(result: Result, where: str) -> tuple[Piece, Section] | None:
    key, _, section = where.strip().partition(".")
    try:
        piece = result.after.size.piece(key)
        return piece, piece.section(section)
    except PatternError:
        return None


def _hers(result: Result) -> Gauges:
    """From the gauge the counts stand in to the one she measured."""
    worked: Gauge = result.measured or result.after.gauge
    as_told = result.keeps_counts and result.swap is None
    stand_in = result.pattern.gauge if as_told else result.after.gauge
    return Gauges(result.pattern, stand_in, worked)


def _rows(result: Result, piece: Piece, section: Section, counted: int) -> Iterator[Finding]:
    gauges = _hers(result)
    cm = gauges.rows_cm(section)
    computed = section.rows if gauges.same else gauges.rows(section, cm)
    # Rounding moves a count by one row, or to the even number at either side.
    allowed = 2 if result.pattern.even_rows or section.folded else 1
    right = (computed, section.rows) if result.keeps_counts else (computed,)
    if min(abs(counted - one) for one in right) > allowed:
        made = replace(section, rows=counted).rows_seen / gauges.rows_per_cm(section.fabric)[1]
        yield Finding(
            "own rows",
            "warning",
            f"{piece.title}, {inside(section.title)}: {counted} rows were counted, {computed} are "
            f"computed at {gauges.worked} for {show_cm(cm, TENTH)} cm; {counted} rows measure "
            f"{show_cm(made, TENTH)} cm. Is the gauge, the count or the length another one?",
            f"{piece.key}.{section.key}",
        )


def _as_worked(piece: Piece, section: Section) -> list[Section]:
    """The section in the whole piece and in each of its panels: she may have counted either."""
    try:
        panels = panels_of(piece) if piece.panels > 1 else ()
    except ShapingError:
        panels = ()
    parted = [one for panel in panels for one in panel.sections if one.key == section.key]
    return [section, *parted]


def _stitches(result: Result, piece: Piece, section: Section, counted: int) -> Iterator[Finding]:
    gauges = _hers(result)
    each = [gauges.stitches(one, one.end, one.seams_at_end) for one in _as_worked(piece, section)]
    computed = min(each, key=lambda one: abs(one - counted))
    allowed = 1 if gauges.same else 2  # a count at another gauge is rounded to its parity
    right = [computed]
    if result.keeps_counts:
        right += [one.end for one in _as_worked(piece, section)]
    if min(abs(counted - one) for one in right) > allowed:
        per_cm = gauges.stitches_per_cm(section.fabric)[1]
        made = (counted - section.seams_at_end) / per_cm
        yield Finding(
            "own stitches",
            "warning",
            f"{piece.title}, {inside(section.title)}: {counted} stitches were counted, {computed} "
            f"are computed at {gauges.worked}; {counted} stitches measure "
            f"{show_cm(made, TENTH)} cm. Is the gauge, the count or the size another one?",
            f"{piece.key}.{section.key}",
        )
