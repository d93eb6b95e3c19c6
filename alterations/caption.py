"""A garment in one line, for the film: size, what was changed, the yarn."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import TypeVar

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
    PartLength,
    SleeveGirth,
    SleeveLength,
    SleeveWidth,
    WorkedInHalves,
    WorkedInPanels,
)
from alterations.pattern import HUNG_HEM, Size
from alterations.places import BODY, SLEEVE, parts_of
from alterations.recalculate import Result
from alterations.units import Length, Unit, show_cm, spell
from alterations.wording import edge_in_words, inside

Kind = TypeVar("Kind")
WIDER, DEEPER = ("wider", "narrower"), ("deeper", "shallower")


def caption(result: Result) -> str:
    """For example "Size 4 · body 5 cm longer (+14 rows) · Kelvarrick Cotton".

    Lengths stand in the unit they were given in, centimetres to the half; free notes are left out.
    """
    parts = [f"Size {result.before.size.name}", *_changes(result)]
    if result.swap is not None:
        parts.append(result.swap.name)
    return " · ".join(parts)


def _changes(result: Result) -> Iterator[str]:
    given = result.alterations
    body = [one.change for one in _of(BodyLength, given)]
    sleeve = [one.change for one in _of(SleeveLength, given)]
    yield from _lengths("body", body, _rows(result, BODY), "longer", "shorter")
    yield from _lengths("body", [one.change for one in _of(BodyWidth, given)], 0, *WIDER)
    yield from _lengths("armhole", [one.change for one in _of(ArmholeDepth, given)], 0, *DEEPER)
    yield from _lengths("sleeves", sleeve, _rows(result, SLEEVE), "longer", "shorter")
    yield from _lengths("sleeves", [one.change for one in _of(SleeveGirth, given)], 0, *WIDER)
    for wrist in _of(SleeveWidth, given)[:1]:
        yield f"wrist {_spelled(wrist.wrist)}"
    if _of(BellSleeve, given):
        yield "bell sleeves"
    yield from _lengths("neck", [one.change for one in _of(NeckDepth, given)], 0, *DEEPER)
    yield from _lengths("neck", [one.change for one in _of(NeckWidth, given)], 0, *WIDER)
    for part in _of(PartLength, given):
        yield from _lengths(_named(result, part.where), [part.change], 0, "longer", "shorter")
    yield from (_edge(result, one) for one in _of(OtherEdge, given))
    for one in _of(OtherHeight, given):
        yield from _lengths("for a wearer", [one.change], 0, "taller", "shorter")
    yield from _making(given)


def _making(given: Sequence[AnyAlteration]) -> Iterator[str]:
    if _of(WorkedInHalves, given):
        yield "in two halves"
    if _of(WorkedInPanels, given):
        yield "in three panels"
    for extra in _of(Extra, given):
        if extra.part != "other part":  # that part is named in the knitter's own words only
            yield f"{extra.part} {'added' if extra.is_added else 'left out'}"


def _edge(result: Result, one: OtherEdge) -> str:
    """ "hem in K1P1", "hem 10 cm deep", or both."""
    name = _named(result, one.where)
    deep = f" {_spelled(one.depth)} deep" if one.depth else ""
    before = {"none": "rolled ", HUNG_HEM: "hung "}.get(one.edge, "")
    after = "" if before or not one.edge else f" in {edge_in_words(one.edge)}"
    return f"{before}{name}{deep}{after}"


def _named(result: Result, where: str) -> str:
    """A place in the pattern's own words: "back hem" for "back.hem"; a part's name as it is."""
    key, _, section = where.strip().partition(".")
    for piece in result.after.size.pieces:
        if piece.key == key:
            named = [one.title for one in piece.sections if one.key == section]
            return " ".join([inside(piece.title), *map(inside, named)])
    return where.strip()


def _of(kind: type[Kind], alterations: Sequence[AnyAlteration]) -> list[Kind]:
    return [one for one in alterations if isinstance(one, kind)]


def _rows(result: Result, part: str) -> int:
    """Rows more (or fewer) in a part, at the gauge worked in; 0 where something else may have moved
    it as well, so that they would not be this change's."""
    if any(_moves_too(one) for one in result.alterations):
        return 0
    return _rows_of(result.after.size, part) - _rows_of(result.regauged, part)


def _moves_too(one: AnyAlteration) -> bool:
    keeps = isinstance(one, OtherEdge) and one.keeps_length
    return keeps or isinstance(one, OtherHeight | PartLength)


def _rows_of(size: Size, part: str) -> int:
    found = parts_of(size).get(part)
    if found is None:
        return 0
    piece, section = found
    return sum(one.rows for one in piece.parted(section.key))


def _lengths(what: str, changes: list[Length], rows: int, more: str, less: str) -> Iterator[str]:
    sums = _summed(changes)
    for change in sums:
        way = more if change.amount > 0 else less
        words = f"{what} {_spelled(Length(abs(change.amount), change.unit))} {way}"
        # With several units for one part, or said already, the rows would be said twice.
        is_said = change.unit == "rows" and change.amount == rows
        says_rows = len(sums) == 1 and rows and not is_said
        sign = "+" if rows > 0 else "−"
        yield f"{words} ({sign}{abs(rows)} rows)" if says_rows else words


def _summed(changes: list[Length]) -> list[Length]:
    """What was given in one unit together, in the order it was first given; nothing for nothing."""
    sums: dict[Unit, Fraction] = {}
    for change in changes:
        sums[change.unit] = sums.get(change.unit, Fraction(0)) + change.amount
    return [Length(amount, unit) for unit, amount in sums.items() if amount]


def _spelled(length: Length) -> str:
    return f"{show_cm(length.amount)} cm" if length.unit == "cm" else spell(length)
