"""Answers what a changed garment's numbers are: a base pattern and alterations in, a result out.

Plain Python, standard library only; exact inside, rounded once at the end.
"""

from alterations.caption import caption
from alterations.changes import changes
from alterations.errors import AlterationsError, PatternFileError
from alterations.findings import findings
from alterations.gauge import Gauge
from alterations.kinds import (
    ArmholeDepth,
    BellSleeve,
    BodyLength,
    BodyWidth,
    Extra,
    FreeNote,
    NeckDepth,
    NeckWidth,
    OtherEdge,
    OtherHeight,
    OwnFigure,
    PartLength,
    SleeveGirth,
    SleeveLength,
    SleeveWidth,
    Strand,
    StrandsTogether,
    Swatch,
    WorkedInHalves,
    WorkedInPanels,
    YarnSwap,
)
from alterations.lines import lines
from alterations.pattern import Pattern
from alterations.patternfile import load_pattern, read_pattern
from alterations.recalculate import Result, recalculate
from alterations.tables import size_table
from alterations.units import Length, parse_length

__all__ = [
    "AlterationsError",
    "ArmholeDepth",
    "BellSleeve",
    "BodyLength",
    "BodyWidth",
    "Extra",
    "FreeNote",
    "Gauge",
    "Length",
    "NeckDepth",
    "NeckWidth",
    "OtherEdge",
    "OtherHeight",
    "OwnFigure",
    "PartLength",
    "Pattern",
    "PatternFileError",
    "Result",
    "SleeveGirth",
    "SleeveLength",
    "SleeveWidth",
    "Strand",
    "StrandsTogether",
    "Swatch",
    "WorkedInHalves",
    "WorkedInPanels",
    "YarnSwap",
    "caption",
    "changes",
    "findings",
    "lines",
    "load_pattern",
    "parse_length",
    "read_pattern",
    "recalculate",
    "size_table",
]
