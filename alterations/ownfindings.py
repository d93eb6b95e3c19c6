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
from alterations.saying import gettext as _
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
            _(
                "“%(where)s” is no part of this pattern, so its counts cannot be compared; the "
                "parts are %(known)s."
            )
            % {"where": own.where, "known": known},
        )
        return
    piece, section = place
    if own.rows is not None:
        yield from _rows(result, piece, section, own.rows)
    if own.stitches is not None:
        yield from _stitches(result, piece, section, own.stitches)


def _place(result: Result, where: str) -> tuple[Piece, Section] | None:
    key, _dot, section = where.strip().partition(".")
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
            _(
                "%(piece)s, %(section)s: %(counted)s rows were counted, %(computed)s are computed "
                "at %(gauge)s for %(cm)s cm; %(counted)s rows measure %(made)s cm. Is the gauge, "
                "the count or the length another one?"
            )
            % {
                "piece": piece.title,
                "section": inside(section.title),
                "counted": counted,
                "computed": computed,
                "gauge": gauges.worked,
                "cm": show_cm(cm, TENTH),
                "made": show_cm(made, TENTH),
            },
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
            _(
                "%(piece)s, %(section)s: %(counted)s stitches were counted, %(computed)s are "
                "computed at %(gauge)s; %(counted)s stitches measure %(made)s cm. Is the gauge, "
                "the count or the size another one?"
            )
            % {
                "piece": piece.title,
                "section": inside(section.title),
                "counted": counted,
                "computed": computed,
                "gauge": gauges.worked,
                "made": show_cm(made, TENTH),
            },
            f"{piece.key}.{section.key}",
        )
