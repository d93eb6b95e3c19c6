"""What one alteration adds to statistics: its kind and by how much more than the pattern."""

from dataclasses import dataclass
from fractions import Fraction

from alterations import places
from alterations.errors import PatternError
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
    OwnFigure,
    PartLength,
    SleeveGirth,
    SleeveLength,
    SleeveWidth,
)
from alterations.lengthkinds import LongerOrShorter
from alterations.measures import height_cm, width_cm
from alterations.pattern import Section
from alterations.recalculate import Result
from alterations.units import Length
from alterations.wording import edge_in_words

_PLACE_OF: dict[type, str] = {
    BodyLength: places.BODY,
    SleeveLength: places.SLEEVE,
    ArmholeDepth: places.ARMHOLE,
    NeckDepth: places.NECK_DEPTH,
}
_ADDED_UP = LongerOrShorter | PartLength | BodyWidth | SleeveGirth | NeckWidth


@dataclass(frozen=True)
class Entry:
    """One kind of alteration in one garment.

    what narrows the kind by words of the pattern or of a fixed list ("hem, K1P1", "pocket added"),
    never by the knitter's; it is a key, shown as what_in_words gives it. The amount is by how much
    more than the pattern, in cm; rows only where she gave rows, stitches only where she counted
    them.
    """

    kind: str
    what: str = ""
    cm: Fraction | None = None
    rows: Fraction | None = None
    stitches: Fraction | None = None


def what_in_words(what: str) -> str:
    """What narrows a kind, as it is shown.

    >>> what_in_words("hem, K1P1"), what_in_words("pocket added")
    ('hem, K1P1', 'pocket added')
    """
    return ", ".join(edge_in_words(name) for name in what.split(", "))


def entries_of(result: Result) -> tuple[Entry, ...]:
    """The alterations of a garment, one entry for each kind and what narrows it: amounts that add
    up in the garment are added, what says how a part became counts once."""
    found: dict[tuple[str, str], Entry] = {}
    for one in result.alterations:
        entry = _entry(one, result)
        earlier = found.get((entry.kind, entry.what))
        if earlier is not None:
            entry = _joined(earlier, entry, adds=isinstance(one, _ADDED_UP))
        found[entry.kind, entry.what] = entry
    return tuple(found.values())


def _joined(one: Entry, other: Entry, *, adds: bool) -> Entry:
    join = _sum if adds else _either
    return Entry(
        one.kind,
        one.what,
        join(one.cm, other.cm),
        join(one.rows, other.rows),
        join(one.stitches, other.stitches),
    )


def _sum(one: Fraction | None, other: Fraction | None) -> Fraction | None:
    """The sum; nothing where only a part of it is known."""
    return None if one is None or other is None else one + other


def _either(one: Fraction | None, other: Fraction | None) -> Fraction | None:
    return other if one is None else one


def _entry(one: AnyAlteration, result: Result) -> Entry:
    entry = Entry(one.kind)
    match one:
        case PartLength():
            entry = _part_length(one, result)
        case LongerOrShorter():
            entry = _length(one.kind, "", one.change, _fabric(one, result), result)
        case BodyWidth() | SleeveGirth() | NeckWidth():
            entry = Entry(one.kind, cm=one.change.in_cm(1))
        case SleeveWidth(wrist=width) | BellSleeve(edge=width):
            entry = Entry(one.kind, cm=_wider_than_wrist(width, result))
        case OtherEdge():
            entry = _other_edge(one, result)
        case Extra():
            entry = Entry(one.kind, f"{one.part} {'added' if one.is_added else 'left out'}")
        case OwnFigure():
            entry = _own_figure(one, result)
    return entry


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
    address, _piece, section = found[0]
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
    section = _found(where, result)
    if section is None:
        return Entry(one.kind)
    rows = None if one.rows is None else Fraction(one.rows - section.rows)
    stitches = None if one.stitches is None else Fraction(one.stitches - section.end)
    return Entry(one.kind, where, rows=rows, stitches=stitches)


def _found(where: str, result: Result) -> Section | None:
    piece_key, _dot, section_key = where.partition(".")
    try:
        return result.after.size.piece(piece_key).section(section_key)
    except PatternError:
        return None
