"""What one garment adds to statistics: a small row of numbers that names nobody."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from alterations import places
from alterations.categories import categories_of
from alterations.errors import PatternError
from alterations.gauge import Gauge
from alterations.kinds import (
    AnyAlteration,
    ArmholeDepth,
    BellSleeve,
    BodyLength,
    BodyWidth,
    Extra,
    NeckDepth,
    NeckWidth,
    OtherEdge,
    OtherHeight,
    OwnFigure,
    PartLength,
    SleeveGirth,
    SleeveLength,
    SleeveWidth,
    StrandsTogether,
    YarnSwap,
)
from alterations.measures import height_cm, width_cm
from alterations.pattern import Piece, Section
from alterations.recalculate import Result
from alterations.units import Length

_PLACE_OF: dict[type, str] = {
    BodyLength: places.BODY,
    SleeveLength: places.SLEEVE,
    ArmholeDepth: places.ARMHOLE,
    NeckDepth: places.NECK_DEPTH,
}
_IN_NO_NUMBER = YarnSwap | StrandsTogether | Extra  # changes that may leave every number alone


@dataclass(frozen=True)
class Entry:
    """One kind of alteration in one garment.

    what narrows the kind by words of the pattern or of a fixed list ("hem, K1P1", "pocket added"),
    never by the knitter's. The amount is by how much more than the pattern, in cm; rows only where
    she gave rows, stitches only where she counted them.
    """

    kind: str
    what: str = ""
    cm: Fraction | None = None
    rows: Fraction | None = None
    stitches: Fraction | None = None


@dataclass(frozen=True)
class Outcome:
    """One garment: its size and its place among the pattern's sizes, what was changed, its yarn in
    metres, its gauge per 10 cm. It holds no name, no note, no number by which to find the garment.

    With strands held together the metres are those of one strand; the weight is that of all.
    """

    size: str
    size_at: int
    entries: tuple[Entry, ...]
    published_metres: int
    metres: int
    weight_percent: Fraction
    stitches_per_10cm: Fraction
    rows_per_10cm: Fraction
    categories: frozenset[int]
    is_unchanged: bool


def outcome_of(result: Result) -> Outcome:
    """The row of one result; what a garment has several times of one kind is added up.

    weight_percent is how much heavier (below zero: lighter) than the pattern's garment.
    """
    before, after = result.before, result.after
    stitches, rows, categories = _gauge_figures(after.gauge)
    return Outcome(
        size=before.size.name,
        size_at=result.pattern.size_names.index(before.size.name),
        entries=_added_up(_entry(one, result) for one in dict.fromkeys(result.alterations)),
        published_metres=before.amount.metres,
        metres=after.amount.metres,
        weight_percent=_percent(before.amount.grams, after.amount.grams),
        stitches_per_10cm=stitches,
        rows_per_10cm=rows,
        categories=categories,
        is_unchanged=_is_unchanged(result),
    )


@lru_cache(maxsize=1024)
def _gauge_figures(gauge: Gauge) -> tuple[Fraction, Fraction, frozenset[int]]:
    return 10 * gauge.stitches_per_cm, 10 * gauge.rows_per_cm, categories_of(gauge)


@lru_cache(maxsize=4096)
def _percent(before: Fraction, after: Fraction) -> Fraction:
    return 100 * (after - before) / before if before else Fraction(0)


def _is_unchanged(result: Result) -> bool:
    """Whether the garment is the pattern's, with nothing but words or counts told about it."""
    before, after = result.before, result.after
    same = before.size == after.size and before.gauge.same_fabric(after.gauge)
    return same and not any(isinstance(one, _IN_NO_NUMBER) for one in result.alterations)


def _added_up(entries: Iterator[Entry]) -> tuple[Entry, ...]:
    found: dict[tuple[str, str], Entry] = {}
    for entry in entries:
        key = (entry.kind, entry.what)
        found[key] = _sum(found[key], entry) if key in found else entry
    return tuple(found.values())


def _sum(one: Entry, other: Entry) -> Entry:
    return Entry(
        one.kind,
        one.what,
        _plus(one.cm, other.cm),
        _plus(one.rows, other.rows),
        _plus(one.stitches, other.stitches),
    )


def _plus(one: Fraction | None, other: Fraction | None) -> Fraction | None:
    """The sum; nothing where only a part of it is known."""
    return None if one is None or other is None else one + other


def _entry(one: AnyAlteration, result: Result) -> Entry:
    match one:
        case PartLength():
            return _part_length(one, result)
        case BodyLength() | SleeveLength() | ArmholeDepth() | NeckDepth() | OtherHeight():
            return _length(one.kind, "", one.change, _fabric(one, result), result)
        case BodyWidth() | SleeveGirth() | NeckWidth():
            return Entry(one.kind, cm=one.change.in_cm(1))
        case SleeveWidth():
            return Entry(one.kind, cm=_wider_than_wrist(one.wrist, result))
        case BellSleeve():
            return Entry(one.kind, cm=_wider_than_wrist(one.edge, result))
        case OtherEdge():
            return _other_edge(one, result)
        case Extra():
            return Entry(one.kind, f"{one.part} {'added' if one.is_added else 'left out'}")
        case OwnFigure():
            return _own_figure(one, result)
        case _:
            return Entry(one.kind)


def _length(kind: str, what: str, change: Length, fabric: str, result: Result) -> Entry:
    """A length in cm; rows at the gauge of their fabric as worked."""
    if change.unit != "rows":
        return Entry(kind, what, change.in_cm(1))
    return Entry(kind, what, change.in_cm(result.gauges.rows_per_cm(fabric)[1]), change.amount)


def _fabric(one: AnyAlteration, result: Result) -> str:
    part = places.parts_of(result.before.size).get(_PLACE_OF.get(type(one), ""))
    return part[1].fabric if part else result.pattern.fabrics[0].key


def _part_length(one: PartLength, result: Result) -> Entry:
    """A stretch by the pattern's word for it, or by its address."""
    found = places.length_places(result.pattern, result.before.size, one.where)
    address, _, section = found[0]
    return _length(one.kind, section.part or address, one.change, section.fabric, result)


def _wider_than_wrist(width: Length, result: Result) -> Fraction | None:
    """By how many cm a sleeve's width is more than the pattern has round the wrist."""
    wrist = places.parts_of(result.before.size).get(places.WRIST)
    if wrist is None:
        return None
    return width.in_cm(1) - width_cm(wrist[1], result.pattern.fabric(wrist[1].fabric).gauge)


def _other_edge(one: OtherEdge, result: Result) -> Entry:
    """An edge, and by how much deeper it is than the pattern's."""
    where = one.where.strip()
    piece = next(
        piece for piece in result.before.size.pieces if where in (piece.key, piece.sections[0].part)
    )
    edge = piece.sections[0]
    what = ", ".join(filter(None, (edge.part or piece.key, one.edge)))
    if one.depth is None:
        return Entry(one.kind, what)
    own_cm = height_cm(edge, result.pattern.fabric(edge.fabric).gauge)
    if one.depth.unit != "rows":
        return Entry(one.kind, what, one.depth.in_cm(1) - own_cm)
    made = result.after.size.piece(piece.key).sections[0]
    made_cm = made.rows_seen / result.gauges.rows_per_cm(made.fabric)[1]
    return Entry(one.kind, what, made_cm - own_cm, one.depth.amount - edge.rows)


def _own_figure(one: OwnFigure, result: Result) -> Entry:
    """Her counts less the computed ones; a place the pattern does not have is not passed on."""
    where = one.where.strip()
    place = _found(where, result)
    if place is None:
        return Entry(one.kind)
    _, section = place
    rows = None if one.rows is None else Fraction(one.rows - section.rows)
    stitches = None if one.stitches is None else Fraction(one.stitches - section.end)
    return Entry(one.kind, where, rows=rows, stitches=stitches)


def _found(where: str, result: Result) -> tuple[Piece, Section] | None:
    piece_key, _, section_key = where.partition(".")
    try:
        piece = result.after.size.piece(piece_key)
        return piece, piece.section(section_key)
    except PatternError:
        return None
