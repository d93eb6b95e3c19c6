"""A garment in one line, for the film: size, what was changed, the yarn."""

from collections.abc import Iterator, Sequence
from typing import TypeVar

from alterations.kinds import (
    AnyAlteration,
    BodyLength,
    SleeveLength,
    SleeveWidth,
    WorkedInHalves,
)
from alterations.pattern import Size
from alterations.recalculate import Result
from alterations.reshape import parts_of
from alterations.units import Length, show_cm, spell
from alterations.wishes import BODY, SLEEVE

Kind = TypeVar("Kind")


def caption(result: Result) -> str:
    """For example "Size 4 · body 5 cm longer (+14 rows) · Kelvarrick Cotton".

    Lengths stand in the unit they were given in, centimetres to the half; free notes are left out.
    """
    parts = [f"Size {result.before.size.name}", *_changes(result)]
    if result.swap is not None:
        parts.append(result.swap.name)
    return " · ".join(parts)


def _changes(result: Result) -> Iterator[str]:
    body = _of(BodyLength, result.alterations)
    sleeve = _of(SleeveLength, result.alterations)
    yield from _lengths("body", [one.change for one in body], _rows(result, BODY))
    yield from _lengths("sleeves", [one.change for one in sleeve], _rows(result, SLEEVE))
    for one in _of(SleeveWidth, result.alterations)[:1]:
        yield f"wrist {_spelled(one.wrist)}"
    if _of(WorkedInHalves, result.alterations):
        yield "in two halves"


def _of(kind: type[Kind], alterations: Sequence[AnyAlteration]) -> list[Kind]:
    return [one for one in alterations if isinstance(one, kind)]


def _rows(result: Result, part: str) -> int:
    """Rows more (or fewer) in a part, at the gauge worked in."""
    return _rows_of(result.after.size, part) - _rows_of(result.regauged, part)


def _rows_of(size: Size, part: str) -> int:
    found = parts_of(size).get(part)
    return found[1].rows if found else 0


def _lengths(what: str, changes: list[Length], rows: int) -> Iterator[str]:
    for change in changes:
        if not change.amount:
            continue
        way = "longer" if change.amount > 0 else "shorter"
        words = f"{what} {_spelled(Length(abs(change.amount), change.unit))} {way}"
        # With several changes of one part, or in rows already, the rows would be said twice.
        says_rows = len(changes) == 1 and change.unit != "rows" and rows
        sign = "+" if rows > 0 else "−"
        yield f"{words} ({sign}{abs(rows)} rows)" if says_rows else words


def _spelled(length: Length) -> str:
    return f"{show_cm(length.amount)} cm" if length.unit == "cm" else spell(length)
