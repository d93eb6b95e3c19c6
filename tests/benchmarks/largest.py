"""The largest pattern we can think of: 40 sizes, 12 pieces of 15 sections, most of them shaped."""

from collections.abc import Iterator
from fractions import Fraction

from alterations.gauge import Gauge
from alterations.kinds import (
    AnyAlteration,
    BodyLength,
    OtherEdge,
    SleeveLength,
    SleeveWidth,
    YarnSwap,
)
from alterations.pattern import (
    EDGES,
    Fabric,
    Follow,
    Machine,
    MeasureRule,
    Pattern,
    Piece,
    Section,
    Size,
    Yarn,
)
from alterations.units import parse_length

SIZES, PIECES, SECTIONS = 40, 12, 15
COARSER = Gauge(Fraction(19), Fraction(26))
# Another yarn at another gauge: every number of the garment is worked out anew.
FIVE: tuple[AnyAlteration, ...] = (
    BodyLength(parse_length("5 cm")),
    SleeveLength(parse_length("-4 cm")),
    SleeveWidth(parse_length("30 cm")),
    OtherEdge("hem", "K1P1", parse_length("8 cm")),
    YarnSwap("Kelvarrick Cotton", Fraction(50), Fraction(95), COARSER),
)


def largest_pattern() -> Pattern:
    """Every second piece follows the one before it; a measurement for each piece."""
    return Pattern(
        name="Quorrimond Coat",
        designer="Tansel Overbrook",
        fabrics=(
            Fabric("plain", "plain knitting", Gauge(Fraction(21), Fraction(28))),
            Fabric("rib", "K2P1 rib", Gauge(Fraction(21), Fraction(30)), Fraction(9, 10)),
        ),
        yarn=Yarn("Fennimoor Plain", Fraction(50), Fraction(120)),
        sizes=tuple(_size(at) for at in range(SIZES)),
        machine=Machine(200),
        follows=tuple(_follows()),
        measures=tuple(
            MeasureRule(f"length_{at}", f"Length {at}", "height", (f"p{at}.s2", f"p{at}.s3"))
            for at in range(PIECES)
        ),
    )


def _size(at: int) -> Size:
    return Size(str(at + 1), tuple(_piece(piece, at) for piece in range(PIECES)), 3000 + 50 * at)


def _piece(piece: int, size: int) -> Piece:
    return Piece(f"p{piece}", f"Piece {piece}", tuple(_sections(piece, size)), edge=EDGES["K2P1"])


def _sections(piece: int, size: int) -> Iterator[Section]:
    """A hem, the row above it, a straight stretch; then tapers outwards and inwards by turns."""
    hem = 80 + 3 * size
    count = hem + hem % 2
    part = {0: "hem"}.get(piece, "")
    yield Section("s0", "Hem", "rib", hem, hem, 18, part=part)
    part = {1: "wrist"}.get(piece, "")
    yield Section("s1", "Above the hem", "plain", hem, count, 0, "across", part=part)
    part = {0: "body length", 1: "sleeve length"}.get(piece, "")
    yield Section("s2", "Straight", "plain", count, count, 60, part=part)
    for at in range(3, SECTIONS):
        end = count + (8 if at % 2 else -8)
        yield Section(f"s{at}", f"Taper {at}", "plain", count, end, 40, "spread")
        count = end


def _follows() -> Iterator[Follow]:
    for at in range(2, PIECES, 2):
        for number in ("s1.stitches", "s2.rows", "s3.stitches", "s4.stitches"):
            yield Follow(f"p{at + 1}.{number}", "same", (f"p{at}.{number}",))
