"""Sheets to and from the library's plain values, and what a sheet says in numbers and words."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from typing import TypedDict, Unpack, cast

from django.db import transaction

from alterations import patternfile
from alterations.caption import caption, of_size
from alterations.cautions import Caution, closing
from alterations.errors import AlterationsError
from alterations.finding import Finding
from alterations.findings import findings
from alterations.garmentcautions import cautions_of
from alterations.gauge import Gauge
from alterations.kinds import (
    AnyAlteration,
    Extra,
    FreeNote,
    StrandsTogether,
    YarnSwap,
    from_plain,
    to_plain,
)
from alterations.lines import Line, lines
from alterations.pattern import Pattern
from alterations.recalculate import Result, recalculate
from alterations.records.models import PatternVersion, Sheet
from alterations.saying import gettext as _
from alterations.tables import Table, size_table
from alterations.units import ShownIn, parse_length, show_number
from alterations.wear import Measured, Wear
from alterations.wording import name_in_words
from alterations.yarnkinds import Keep

KEPT_PATTERNS = 64


@dataclass(frozen=True)
class Summary:
    """What pages show of a sheet: base → made, own notes, what to look at twice, how it wore."""

    size_name: str
    lines: tuple[Line, ...]
    notes: tuple[str, ...]
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    yarn: str
    tool: str
    trouble: str = ""
    closing: str = field(default_factory=closing)
    wear: Wear = field(default_factory=Wear)


@dataclass(frozen=True)
class Knitter:
    """What a knitter works with: her own swatch and what she kept at it, the needles on her bed, or
    hand needles."""

    swatch: Gauge | None = None
    keep: Keep = "counts"
    needles: int | None = None
    by_hand: bool = False
    bed: str = Sheet.Bed.EVERY


def pattern_of(version: PatternVersion) -> Pattern:
    """The numbers of a pattern version; the text of a version never changes, so it is read once."""
    return _read(version.sha256, version.text)


@lru_cache(maxsize=KEPT_PATTERNS)
def _read(sha256: str, text: str) -> Pattern:
    return patternfile.load_pattern(text)


def tables_of(pattern: Pattern) -> tuple[Table, ...]:
    """The pattern's numbers as tables of sizes."""
    return size_table(pattern)


def alterations_of(sheet: Sheet) -> tuple[AnyAlteration, ...]:
    """What was changed, as it was entered."""
    return tuple(from_plain(line.kind, line.entered) for line in sheet.lines.all())


def gauge_of(sheet: Sheet) -> Gauge | None:
    """Her own swatch, or None where she knitted to the pattern's gauge."""
    if sheet.swatch_stitches is None or sheet.swatch_rows is None:
        return None
    return Gauge(Fraction(sheet.swatch_stitches), Fraction(sheet.swatch_rows))


def knitter_of(sheet: Sheet) -> Knitter:
    """Her swatch and her bed, as far as the sheet tells them."""
    by_hand = sheet.tool == Sheet.Tool.NEEDLES
    keep: Keep = "measurements" if sheet.keeps == Sheet.Keeps.MEASUREMENTS else "counts"
    needles = None if by_hand else sheet.machine_needles
    return Knitter(gauge_of(sheet), keep, needles, by_hand, sheet.bed)


def result_of(sheet: Sheet) -> Result:
    """The recalculated garment; raises AlterationsError where it cannot be changed so."""
    return recalculated(
        pattern_of(sheet.version), sheet.size_name, alterations_of(sheet), knitter_of(sheet)
    )


def recalculated(
    pattern: Pattern,
    size_name: str,
    alterations: Sequence[AnyAlteration],
    knitter: Knitter,
) -> Result:
    """A knitter's garment; raises AlterationsError where the pattern cannot be changed so.

    Her own swatch is the gauge worked in, unless she used another yarn with a gauge of its own.
    With the pattern's yarn she says what she kept: the pattern's counts (the garment then has the
    size her gauge gives it) or its measurements; another yarn says so itself.
    """
    return recalculate(
        pattern,
        size_name,
        alterations,
        gauge=knitter.swatch,
        keep=knitter.keep,
        needles=knitter.needles,
        every_second=knitter.bed == Sheet.Bed.SECOND,
        double_bed=knitter.bed == Sheet.Bed.DOUBLE,
        by_hand=knitter.by_hand,
        measured=knitter.swatch,
    )


def notes_of(alterations: Sequence[AnyAlteration]) -> tuple[str, ...]:
    """What no number says, in the knitter's own words: parts added or left out, free notes."""
    return tuple(_note(one) for one in alterations if isinstance(one, Extra | FreeNote))


def _note(one: Extra | FreeNote) -> str:
    if isinstance(one, FreeNote):
        return one.text
    told = name_in_words(f"{one.part} {'added' if one.is_added else 'left out'}")
    named = f"{told[:1].upper()}{told[1:]}"
    return f"{named}: {one.words}" if one.words else f"{named}."


def caption_of(sheet: Sheet) -> str:
    """One line for the film; the size alone where the change cannot be worked out."""
    try:
        return caption(result_of(sheet))
    except AlterationsError:
        return of_size(sheet.size_name)


def summary_of(sheet: Sheet, shown_in: ShownIn = "both") -> Summary:
    """Everything a page says about a sheet; trouble is a sentence, never an exception."""
    alterations = alterations_of(sheet)
    shown: tuple[Line, ...] = ()
    looked_at: tuple[Finding, ...] = ()
    careful: tuple[Caution, ...] = ()
    trouble = ""
    try:
        result = result_of(sheet)
        shown, looked_at = lines(result, shown_in), findings(result)
        careful = cautions_of(result)
    except AlterationsError as error:
        trouble = str(error)
    return Summary(
        size_name=sheet.size_name,
        lines=shown,
        notes=notes_of(alterations),
        findings=looked_at,
        cautions=careful,
        yarn=_yarn(sheet, alterations),
        tool=_tool(sheet),
        trouble=trouble,
        wear=wear_of(sheet),
    )


def wear_of(sheet: Sheet) -> Wear:
    """How the garment behaved in washing, wearing and knitting, as far as it was told."""
    return Wear(
        _measured(sheet.chest_before, sheet.chest_after),
        _measured(sheet.length_before, sheet.length_after),
        sheet.pilled,
        sheet.split,
        sheet.behaved_words,
    )


def _measured(before: str, after: str) -> Measured | None:
    return Measured(parse_length(before), parse_length(after)) if before and after else None


def _yarn(sheet: Sheet, alterations: Sequence[AnyAlteration]) -> str:
    other = [one.name for one in alterations if isinstance(one, YarnSwap | StrandsTogether)]
    return other[0] if other else pattern_of(sheet.version).yarn.name


def _tool(sheet: Sheet) -> str:
    words = [str(sheet.get_tool_display())] if sheet.tool else []
    if sheet.machine_pitch_mm:
        words.append(_("%(mm)s mm pitch") % {"mm": _shown(sheet.machine_pitch_mm)})
    if sheet.machine_needles:
        words.append(_("%(count)s needles") % {"count": sheet.machine_needles})
    if sheet.bed:
        words.append(str(sheet.get_bed_display()))
    if sheet.needle_mm:
        words.append(f"{_shown(sheet.needle_mm)} mm")
    return ", ".join(words)


def _shown(number: Decimal) -> str:
    return show_number(Fraction(number))


class Told(TypedDict, total=False):
    """What may be told besides the size and the changes, by the names of the sheet's columns."""

    tool: str
    machine_pitch_mm: Decimal | None
    machine_needles: Decimal | int | None
    bed: str
    needle_mm: Decimal | None
    swatch_stitches: Decimal | None
    swatch_rows: Decimal | None
    swatch_counted_stitches: Decimal | None
    swatch_counted_over: str
    swatch_counted_rows: Decimal | None
    swatch_counted_high: str
    keeps: str
    chest_before: str
    chest_after: str
    length_before: str
    length_after: str
    pilled: str
    split: str
    behaved_words: str


TOLD: tuple[str, ...] = tuple(Told.__annotations__)


@transaction.atomic
def keep_sheet(
    version: PatternVersion,
    size_name: str,
    alterations: Sequence[AnyAlteration],
    **told: Unpack[Told],
) -> Sheet:
    """Keep what was made, what was told of it and what was changed, each line as it was entered."""
    sheet = Sheet(version=version, size_name=size_name)
    for name, value in told.items():
        is_count = name == "machine_needles" and value is not None
        setattr(sheet, name, int(cast(Decimal, value)) if is_count else value)
    sheet.save()
    for position, alteration in enumerate(alterations, start=1):
        kind, entered = to_plain(alteration)
        sheet.lines.create(position=position, kind=kind, entered=entered)
    return sheet
