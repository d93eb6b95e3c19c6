"""Any garment somebody may ask for: patterns, and strategies for alterations of every kind.

A refusal is an answer too, if it is a sentence; everything else that is raised is a bug.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, cached_property
from pathlib import Path

from hypothesis import strategies as st

from alterations.errors import AlterationsError
from alterations.gauge import Gauge
from alterations.kinds import (
    AnyAlteration,
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
from alterations.makingkinds import EXTRA_PARTS
from alterations.panels import panels_of
from alterations.pattern import EDGES, Pattern, Piece
from alterations.patternfile import read_pattern
from alterations.recalculate import Result, recalculate
from alterations.units import Length
from alterations.yarnkinds import MOST_STRANDS

ROOT = Path(__file__).parents[2]
TUNIC = read_pattern(ROOT / "gallery" / "demo" / "ostrimane_tunic.toml")
WAISTCOAT = read_pattern(Path(__file__).parent / "patterns" / "ostrimane_waistcoat.toml")
GILET = read_pattern(Path(__file__).parent / "patterns" / "ostrimane_gilet.toml")
PATTERNS = {one.name: one for one in (TUNIC, WAISTCOAT, GILET)}


@dataclass(frozen=True)
class Asked:
    """A garment as somebody may ask for it."""

    name: str
    size: str
    alterations: tuple[AnyAlteration, ...]
    gauge: Gauge | None = None
    needles: int | None = None

    @property
    def pattern(self) -> Pattern:
        return PATTERNS[self.name]

    @property
    def result(self) -> Result:
        """The result of what is not refused."""
        assert self.answer is not None
        return self.answer

    @cached_property
    def answer(self) -> Result | None:
        """The result, or None where it is refused in a sentence."""
        try:
            return recalculate(
                self.pattern, self.size, self.alterations, self.gauge, needles=self.needles
            )
        except AlterationsError as refusal:
            assert str(refusal).endswith(".")
            return None


def eighths(least: int, most: int) -> st.SearchStrategy[Fraction]:
    return st.integers(8 * least, 8 * most).map(lambda one: Fraction(one, 8))


# Mostly what a person would do; now and then what nobody would.
cms = st.builds(Length, eighths(-8, 12), st.just("cm"))
inches = st.builds(Length, eighths(-3, 5), st.just("in"))
rows = st.builds(Length, st.integers(-12, 40).map(Fraction), st.just("rows"))
absurd = st.builds(Length, st.fractions(-300, 300, max_denominator=9), st.just("cm"))
lengths = st.one_of(cms, cms, inches, rows, absurd)
widths = st.one_of(cms, cms, inches, absurd)
sizes_of_rib = st.one_of(
    st.builds(Length, eighths(1, 14), st.just("cm")),
    st.builds(Length, st.integers(1, 60).map(Fraction), st.just("rows")),
)
rounds = st.builds(Length, eighths(14, 60), st.just("cm"))


@st.composite
def plausible_gauges(draw: st.DrawFn) -> Gauge:
    stitches = Fraction(draw(st.integers(120, 360)), 10)
    ratio = Fraction(draw(st.integers(110, 160)), 100)
    return Gauge(stitches, stitches * ratio, draw(st.sampled_from(["10cm", "4in", "nominal"])))


gauges = st.none() | plausible_gauges()
swatches = st.builds(
    Swatch,
    st.integers(20, 60),
    eighths(12, 25),
    st.integers(30, 80),
    eighths(12, 25),
    st.none() | eighths(5, 60),
)
amounts = st.integers(10, 400).map(Fraction)
keeping = st.sampled_from(["measurements", "counts"])
strands = st.builds(
    Strand, st.sampled_from(["Fennimoor Plain", "Kelvarrick Cotton"]), amounts, amounts
)


def yarns() -> st.SearchStrategy[AnyAlteration]:
    name, ball = st.just("Kelvarrick Cotton"), st.none() | amounts
    return st.one_of(
        st.builds(YarnSwap, name, ball, ball, gauges, keeping),
        st.builds(YarnSwap, name, ball, ball, st.none(), keeping, swatches),
        st.builds(
            StrandsTogether,
            st.lists(strands, min_size=2, max_size=MOST_STRANDS).map(tuple),
            gauges,
            keeping,
        ),
    )


@cache
def kinds_for(name: str) -> st.SearchStrategy[AnyAlteration]:
    """Every kind, at the places the pattern has and at a few it has not."""
    pattern = PATTERNS[name]
    pieces = [piece.key for piece in pattern.sizes[0].pieces]
    places = [f"{p.key}.{s.key}" for p in pattern.sizes[0].pieces for s in p.sections]
    parts = [s.part for p in pattern.sizes[0].pieces for s in p.sections if s.part]
    edges = [p.sections[0].part or p.key for p in pattern.sizes[0].pieces]
    where = st.sampled_from([*places, *pieces, *parts, "collar"])
    named = st.lists(st.sampled_from(pieces), max_size=2, unique=True).map(tuple)
    counts = st.integers(0, 200)
    return st.one_of(
        st.builds(BodyLength, lengths),
        st.builds(SleeveLength, lengths),
        st.builds(ArmholeDepth, lengths),
        st.builds(NeckDepth, lengths),
        st.builds(OtherHeight, widths),
        st.builds(PartLength, where, lengths),
        st.builds(BodyWidth, widths, st.sampled_from(["underarm", "shoulders"])),
        st.builds(NeckWidth, widths),
        st.builds(SleeveWidth, rounds),
        st.builds(SleeveGirth, widths.filter(lambda one: one.amount >= 0), st.just("gathers")),
        st.builds(SleeveGirth, widths),
        st.builds(BellSleeve, rounds, sizes_of_rib),
        st.builds(
            OtherEdge,
            st.sampled_from([*edges, *pieces]),
            st.sampled_from([*EDGES]),
            st.none() | sizes_of_rib,
            st.booleans(),
        ),
        st.builds(OtherEdge, st.sampled_from(edges), st.just(""), sizes_of_rib, st.booleans()),
        st.builds(WorkedInHalves, st.just(()) | named),
        st.builds(WorkedInPanels, st.just(()) | named),
        yarns(),
        st.builds(Extra, st.sampled_from(EXTRA_PARTS), st.booleans(), st.just("in plain words")),
        st.builds(OwnFigure, st.sampled_from(places), counts, st.none() | counts),
        st.builds(FreeNote, st.just("a pocket on the left")),
    )


@st.composite
def asked_for(draw: st.DrawFn) -> Asked:
    name = draw(st.sampled_from([*PATTERNS]))
    return Asked(
        name,
        draw(st.sampled_from(PATTERNS[name].size_names)),
        tuple(draw(st.lists(kinds_for(name), max_size=5))),
        draw(gauges),
        draw(st.none() | st.integers(80, 200)),
    )


# Asked for, and not refused.
garments = asked_for().filter(lambda one: one.answer is not None)


def panels(result: Result) -> Iterator[tuple[Piece, Piece]]:
    """Each piece as made with each of its panels."""
    for piece in result.after.size.pieces:
        for panel in panels_of(piece):
            yield piece, panel


def has(piece: Piece, key: str) -> bool:
    """Whether the piece has a section of that key."""
    return any(one.key == key for one in piece.sections)
