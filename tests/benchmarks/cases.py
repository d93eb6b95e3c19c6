"""What is measured: one recalculation, statistics over many garments, a file, a worksheet."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from random import Random

from alterations.changes import changes
from alterations.gauge import Gauge
from alterations.kinds import (
    AnyAlteration,
    BodyLength,
    FreeNote,
    NeckDepth,
    SleeveLength,
    SleeveWidth,
    YarnSwap,
)
from alterations.pattern import Pattern
from alterations.patternfile import load_pattern
from alterations.patterntext import write_pattern
from alterations.recalculate import Result, recalculate
from alterations.statistics import outcome_of, summarise
from alterations.units import Length
from alterations.worksheet import worksheet
from tests.benchmarks.largest import FIVE, SIZES, largest_pattern

TUNIC = Path(__file__).parents[2] / "gallery" / "demo" / "ostrimane_tunic.toml"
ONE_RECALCULATION_MS = 2.0
ONE_GARMENT_COUNTED_MS = 0.1  # 10,000 garments in a second
DISTINCT = 1000  # garments made for the statistics; each is counted several times


@dataclass(frozen=True)
class Case:
    """One thing to measure; target_ms is what it may take, None where nothing is promised."""

    name: str
    work: Callable[[], object]
    target_ms: float | None = None


def cases(garments: int) -> list[Case]:
    """All cases; everything that is not measured is made here, before."""
    text = TUNIC.read_text(encoding="utf-8")
    tunic, largest = load_pattern(text), largest_pattern()
    longest = write_pattern(largest)
    return [
        *_recalculating(tunic, largest),
        *_counting(many(tunic, garments)),
        *_telling(recalculate(tunic, "8", five()), recalculate(largest, str(SIZES), FIVE)),
        Case("read the tunic's file", lambda: load_pattern(text)),
        Case("read the largest pattern's file", lambda: load_pattern(longest)),
    ]


def _recalculating(tunic: Pattern, largest: Pattern) -> Iterator[Case]:
    changed = five()
    yield Case(
        "recalculate: tunic, size 8, 5 alterations",
        lambda: recalculate(tunic, "8", changed),
        ONE_RECALCULATION_MS,
    )
    yield Case(
        f"recalculate: largest, size {SIZES}, 5 alterations",
        lambda: recalculate(largest, str(SIZES), FIVE),
        ONE_RECALCULATION_MS,
    )
    yield Case(
        "recalculate: tunic, size 3, 1 alteration", lambda: recalculate(tunic, "3", changed[:1])
    )


def _counting(results: list[Result]) -> Iterator[Case]:
    garments = f"{len(results)} garments"
    outcomes = [outcome_of(result) for result in results]
    yield Case(
        f"statistics: {garments}, results to summary",
        lambda: summarise(map(outcome_of, results)).shown(),
        ONE_GARMENT_COUNTED_MS * len(results),
    )
    yield Case(f"statistics: {garments}, outcomes to summary", lambda: summarise(outcomes).shown())


def _telling(tunic: Result, largest: Result) -> Iterator[Case]:
    yield Case("changes: tunic, size 8", lambda: changes(tunic))
    yield Case("worksheet: tunic, size 8", lambda: worksheet(tunic))
    yield Case(f"worksheet: largest, size {SIZES}", lambda: worksheet(largest))


def five() -> list[AnyAlteration]:
    """Five alterations of the tunic, one of them another gauge."""
    return [
        BodyLength(Length(Fraction(5))),
        SleeveLength(Length(Fraction(-4))),
        SleeveWidth(Length(Fraction(26))),
        NeckDepth(Length(Fraction(2))),
        YarnSwap(
            "Kelvarrick Cotton", Fraction(50), Fraction(95), Gauge(Fraction(19), Fraction(26))
        ),
    ]


def many(pattern: Pattern, garments: int) -> list[Result]:
    """So many garments of all sizes, the same each time; beyond DISTINCT they come again."""
    dice = Random(11)  # noqa: S311 - not a secret
    made = [_one(pattern, dice) for _ in range(min(garments, DISTINCT))]
    return [made[at % len(made)] for at in range(garments)]


def _one(pattern: Pattern, dice: Random) -> Result:
    return recalculate(pattern, dice.choice(pattern.size_names), list(_alterations(dice)))


def _alterations(dice: Random) -> Iterator[AnyAlteration]:
    """None to four of the usual ones, lengths to the half centimetre or in rows."""
    halves = Fraction(dice.randint(-8, 20), 2)
    chosen = dice.random
    if chosen() < 0.6:
        yield BodyLength(Length(halves))
    if chosen() < 0.5:
        yield SleeveLength(Length(Fraction(2 * dice.randint(-6, 12)), "rows"))
    if chosen() < 0.3:
        gauge = Gauge(Fraction(dice.randint(170, 250), 10), Fraction(dice.randint(240, 320), 10))
        yield YarnSwap("Kelvarrick Cotton", Fraction(50), Fraction(dice.randint(80, 140)), gauge)
    if chosen() < 0.2:
        yield FreeNote("worked in the evenings")
