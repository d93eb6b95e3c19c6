"""The library from a terminal: a pattern file, a size and changes in; the numbers out.

Exit code 0, or 2 with one sentence on bad input.
"""

import argparse
import json
import re
import sys
from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path

from alterations.caption import caption
from alterations.errors import AlterationsError
from alterations.fileform import FORM
from alterations.findings import findings
from alterations.kinds import (
    AnyAlteration,
    BodyLength,
    FreeNote,
    SleeveLength,
    SleeveWidth,
    WorkedInHalves,
    YarnSwap,
)
from alterations.lines import lines
from alterations.patternfile import read_pattern
from alterations.recalculate import Result, recalculate
from alterations.tables import Table, size_table
from alterations.units import parse_length

LENGTHS = ("--body-length", "--sleeve-length", "--wrist")
CHANGES = ("body_length", "sleeve_length", "wrist", "yarn", "halves", "note")
OF_YARN = ("ball", "swatch", "keep_counts")


def main(arguments: list[str] | None = None) -> int:
    """Answer one question; the exit code."""
    given = sys.argv[1:] if arguments is None else arguments
    asked = _parser().parse_args(list(_joined(given)))
    if asked.format:
        print(FORM)
        return 0
    try:
        print(_answer(asked))
    except (AlterationsError, OSError) as error:
        print(str(error), file=sys.stderr)
        return 2
    return 0


def _joined(given: list[str]) -> Iterator[str]:
    """ "--body-length -2in" as "--body-length=-2in": argparse takes "-2in" for an option."""
    rest = iter(given)
    for one in rest:
        following = next(rest, None) if one in LENGTHS else None
        if following is None:
            yield one
        elif re.match(r"-\s*[\d.,]", following):
            yield f"{one}={following}"
        else:
            yield from (one, following)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python -m alterations", description="Recalculate a garment of a base pattern."
    )
    parser.add_argument("file", type=Path, nargs="?", help="the pattern file (TOML)")
    parser.add_argument("--size", help="the size's name; without it the table of all sizes")
    parser.add_argument("--body-length", metavar="LENGTH", help="longer or shorter, as +5cm")
    parser.add_argument("--sleeve-length", metavar="LENGTH", help="longer or shorter, as -1.5in")
    parser.add_argument("--wrist", metavar="WIDTH", help="new width round the wrist, as 20cm")
    parser.add_argument("--yarn", metavar="NAME", help="another yarn")
    parser.add_argument("--ball", metavar="G/M", help="its ball: grams/metres, as 50/95")
    parser.add_argument("--swatch", metavar="S/R", help="its stitches/rows in 10 cm, as 19/26")
    parser.add_argument("--keep-counts", action="store_true", help="keep the counts, not the size")
    parser.add_argument("--halves", action="store_true", help="work back and front in halves")
    parser.add_argument("--note", help="anything else, in words")
    parser.add_argument("--json", action="store_true", help="JSON instead of lines")
    parser.add_argument("--format", action="store_true", help="explain the pattern file")
    return parser


def _answer(asked: argparse.Namespace) -> str:
    if asked.file is None:
        raise AlterationsError("Name a pattern file, or ask for --format.")
    _refuse_lonely(asked)
    pattern = read_pattern(asked.file)
    if asked.size is None:
        tables = size_table(pattern)
        if asked.json:
            return json.dumps([asdict(table) for table in tables], ensure_ascii=False, indent=1)
        return "\n\n".join(_table(table) for table in tables)
    result = recalculate(pattern, asked.size, list(_alterations(asked)))
    return _as_json(result) if asked.json else _in_words(result)


def _refuse_lonely(asked: argparse.Namespace) -> None:
    """Refuses what would be passed over: a change without a size, a ball without its yarn."""
    if asked.size is None and _given(asked, (*CHANGES, *OF_YARN)):
        raise AlterationsError("Say with --size which size was changed.")
    if asked.yarn is None and _given(asked, OF_YARN):
        raise AlterationsError("Name the other yarn with --yarn.")


def _given(asked: argparse.Namespace, names: tuple[str, ...]) -> bool:
    return any(getattr(asked, name) not in (None, False) for name in names)


def _alterations(asked: argparse.Namespace) -> Iterator[AnyAlteration]:
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
    if asked.note is not None:
        yield FreeNote(asked.note)


def _swap(asked: argparse.Namespace) -> dict[str, str]:
    grams, _, metres = (asked.ball or "").partition("/")
    stitches, _, rows = (asked.swatch or "").partition("/")
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
        "lines": [asdict(line) for line in lines(result)],
        "findings": [asdict(found) for found in findings(result)],
    }
    return json.dumps(told, ensure_ascii=False, indent=1)


def _table(table: Table) -> str:
    rows = [(table.corner, "", *table.columns)]
    rows += [(row.name, row.unit, *row.cells) for row in table.rows]
    widths = [max(len(row[at]) for row in rows if len(row) > at) for at in range(len(rows[0]))]
    shown = (
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=False)).rstrip()
        for row in rows
    )
    return "\n".join([table.caption, *shown])


if __name__ == "__main__":
    sys.exit(main())
