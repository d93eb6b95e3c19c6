"""What the terminal is told: alterations from its options, results as lines or JSON."""

import json
import shlex
from argparse import Namespace
from collections.abc import Iterator
from dataclasses import asdict
from fractions import Fraction
from typing import Any

from alterations.caption import caption
from alterations.changes import Change, changes
from alterations.drawing import drawing
from alterations.errors import KindError
from alterations.findings import findings
from alterations.garmentcautions import care_of
from alterations.gauge import Gauge
from alterations.kinds import (
    KINDS,
    AnyAlteration,
    BodyLength,
    FreeNote,
    SleeveLength,
    SleeveWidth,
    WorkedInHalves,
    YarnSwap,
    from_plain,
)
from alterations.lines import lines
from alterations.patternfile import read_pattern
from alterations.recalculate import Result, recalculate
from alterations.saying import gettext as _
from alterations.tables import Table, size_table
from alterations.units import parse_length, parse_number
from alterations.worksheet import as_text, worksheet


def kinds_in_words() -> str:
    """Each kind with the fields it reads."""
    said = []
    for name, kind in KINDS.items():
        first = (kind.__doc__ or "").strip().splitlines()[0]
        fields = (kind.from_plain.__doc__ or "").strip().splitlines()[0]
        said.append(f"{name}\n  {first}\n  {fields}")
    return "\n".join(said)


def sizes_of(asked: Namespace) -> str:
    """The tables of all sizes, as lines or JSON."""
    tables = size_table(read_pattern(asked.file))
    if asked.json:
        return json.dumps([asdict(table) for table in tables], ensure_ascii=False, indent=1)
    return "\n\n".join(_table(table) for table in tables)


def garment_of(asked: Namespace) -> str:
    """One garment: what changed, its worksheet or the drawing of a piece."""
    pattern = read_pattern(asked.file)
    result = recalculate(
        pattern,
        asked.size,
        list(_alterations(asked)),
        _gauge(asked.gauge),
        keep="counts" if asked.keep_counts else "measurements",
        needles=asked.needles,
        every_second=asked.every_second,
        double_bed=asked.double_bed,
        by_hand=asked.by_hand,
    )
    if asked.drawing:
        return drawing(result, asked.drawing)
    if asked.worksheet:
        return as_text(worksheet(result), care_of(result))
    return _as_json(result) if asked.json else _in_words(result)


def _gauge(text: str | None) -> Gauge | None:
    if text is None:
        return None
    parts = text.split("/")
    if len(parts) != 2:
        raise KindError(
            _("“%(text)s” is no gauge; write its stitches and rows, as 21/28.")
            % {"text": text[:40]}
        )
    return Gauge(
        parse_number(parts[0], _("stitches of the gauge, as 21/28")),
        parse_number(parts[1], _("rows of the gauge, as 21/28")),
    )


def _alterations(asked: Namespace) -> Iterator[AnyAlteration]:
    if asked.body_length is not None:
        yield BodyLength(parse_length(asked.body_length))
    if asked.sleeve_length is not None:
        yield SleeveLength(parse_length(asked.sleeve_length))
    if asked.wrist is not None:
        yield SleeveWidth(parse_length(asked.wrist))
    if asked.yarn is not None:
        yield YarnSwap.from_plain(_swap(asked))
    if asked.halves:
        yield WorkedInHalves()
    yield from (_altered(text) for text in asked.alter or ())
    if asked.note is not None:
        yield FreeNote(asked.note)


class _Asked(dict[str, str]):
    """Fields that remember which of them were read."""

    def __init__(self, fields: dict[str, str]) -> None:
        super().__init__(fields)
        self.read: set[str] = set()

    def get(self, name: str, default: Any = None) -> Any:
        self.read.add(name)
        return super().get(name, default)

    def __getitem__(self, name: str) -> str:
        self.read.add(name)
        return super().__getitem__(name)


def _altered(text: str) -> AnyAlteration:
    """ "other_edge where=hem depth=10cm" as an alteration; a field nobody reads is refused."""
    try:
        kind, *pairs = shlex.split(text)
    except ValueError as trouble:
        raise KindError(
            _("“%(text)s” cannot be read; write KIND field=value.") % {"text": text[:60]}
        ) from trouble
    fields: dict[str, str] = {}
    for pair in pairs:
        name, equals, value = pair.partition("=")
        if not equals:
            raise KindError(
                _("“%(text)s” is no field; write it as field=value.") % {"text": pair[:60]}
            )
        if name in fields:
            raise KindError(
                _("“%(field)s” is given twice; keep one of them.") % {"field": name[:40]}
            )
        fields[name] = value
    if kind not in KINDS:
        return from_plain(kind, fields)
    asked = _Asked(fields)
    found = KINDS[kind].from_plain(asked)
    unread = [name for name in fields if name not in asked.read]
    if unread:
        raise KindError(
            _("%(kind)s has no field “%(field)s”; --kinds names its fields.")
            % {"kind": kind, "field": unread[0][:40]}
        )
    return found


def _swap(asked: Namespace) -> dict[str, str]:
    grams, _slash, metres = (asked.ball or "").partition("/")
    stitches, _slash, rows = (asked.swatch or "").partition("/")
    keep = "counts" if asked.keep_counts else "measurements"
    return {
        "name": asked.yarn,
        "ball_grams": grams,
        "ball_metres": metres,
        "stitches": stitches,
        "rows": rows,
        "keep": keep,
    }


def _in_words(result: Result) -> str:
    said = [caption(result)]
    for line in lines(result):
        numbers = "; ".join(_number(one.base, one.made, one.change) for one in line.numbers)
        said.append(f"  {line.what}: {', '.join(filter(None, (numbers, line.note)))}")
    said += [f"  ! {found.sentence}" for found in findings(result)]
    return "\n".join(said)


def _number(base: str, made: str, change: str) -> str:
    return f"{base} → {made}" + (f" ({change})" if change else "")


def _as_json(result: Result) -> str:
    told = {
        "caption": caption(result),
        "changes": [_plain(change) for change in changes(result)],
        "lines": [asdict(line) for line in lines(result)],
        "findings": [asdict(found) for found in findings(result)],
    }
    return json.dumps(told, ensure_ascii=False, indent=1)


def _plain(change: Change) -> dict[str, object]:
    """A change with its numbers exact: whole, or as a fraction in a text ("700/11")."""
    told = asdict(change)
    for name in ("before", "after"):
        value: Fraction = told[name]
        told[name] = int(value) if value.denominator == 1 else str(value)
    return told


def _table(table: Table) -> str:
    rows = [(table.corner, "", *table.columns)]
    rows += [(row.name, row.unit, *row.cells) for row in table.rows]
    widths = [max(len(row[at]) for row in rows if len(row) > at) for at in range(len(rows[0]))]
    shown = (
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=False)).rstrip()
        for row in rows
    )
    return "\n".join([table.caption, *shown])
