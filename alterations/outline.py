"""What shape a piece has: its sections as trapezia and its corners, in cm."""

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from alterations.gauge import Gauge
from alterations.gauges import fabric_gauge
from alterations.measures import height_cm
from alterations.pattern import Pattern, Piece, Section

Point = tuple[Fraction, Fraction]


@dataclass(frozen=True)
class Band:
    """One section as a trapezium: visible width below and above, height, all in cm."""

    section: Section
    below: Fraction
    above: Fraction
    height: Fraction

    @property
    def area(self) -> Fraction:
        """Square centimetres."""
        return (self.below + self.above) / 2 * self.height


def bands(pattern: Pattern, piece: Piece, gauge: Gauge) -> tuple[Band, ...]:
    """A piece's sections as trapezia at a main gauge, bottom to top; steps within a row left out.

    An edge that is only corrected to its repeat is drawn as wide as the fabric above it: washed, it
    lies so (common practice). A front is drawn to its outer edges; neckline() is what is cut out.
    """
    edge = _edge_sections(piece)
    opening = 0
    found = []
    for section in piece.sections:
        start, end = edge.get(section.key, (section.start, section.end))
        if section.shape == "neck" and section.where == "both":
            opening, end = start - end, start
        elif opening:
            start, end = start + opening, end + opening
        if section.rows:
            found.append(_band(section, (start, end), fabric_gauge(pattern, section.fabric, gauge)))
    return tuple(found)


def _edge_sections(piece: Piece) -> dict[str, tuple[int, int]]:
    """The counts at which the sections below a small correction are drawn."""
    for at, section in enumerate(piece.sections):
        if section.shape == "across" and 0 <= section.end - section.start < piece.edge.multiple:
            return {below.key: (section.end, section.end) for below in piece.sections[:at]}
    return {}


def _band(section: Section, counts: tuple[int, int], gauge: Gauge) -> Band:
    below, above = counts
    return Band(
        section,
        max(Fraction(0), (below - section.seams) / gauge.stitches_per_cm),
        max(Fraction(0), (above - section.seams_at_end) / gauge.stitches_per_cm),
        height_cm(section, gauge),
    )


def outline(found: tuple[Band, ...]) -> tuple[Point, ...]:
    """The corners in cm round a piece set up about its middle: up the right side, down the left."""
    right: list[Point] = []
    height = Fraction(0)
    for band in found:
        right.append((band.below / 2, height))
        height += band.height
        right.append((band.above / 2, height))
    corners = list(dict.fromkeys(right))
    return (*corners, *((-x, y) for x, y in reversed(corners)))


def neckline(pattern: Pattern, piece: Piece, gauge: Gauge) -> tuple[Point, ...]:
    """The line of a neck cut out of a front, from its right point down and up to its left one;
    nothing where the piece has none."""
    height = Fraction(0)
    for at, section in enumerate(piece.sections):
        worked = fabric_gauge(pattern, section.fabric, gauge)
        if section.shape == "neck" and section.where == "both":
            top = sum((_height(one, pattern, gauge) for one in piece.sections[at:]), height)
            right = _neck_points(section, height, worked)
            right.append((right[-1][0], top))
            return (*reversed(right), *((-x, y) for x, y in right))
        height += height_cm(section, worked)
    return ()


def _height(section: Section, pattern: Pattern, gauge: Gauge) -> Fraction:
    return height_cm(section, fabric_gauge(pattern, section.fabric, gauge))


def _neck_points(section: Section, height: Fraction, gauge: Gauge) -> list[Point]:
    """Right half of a neck's bottom: the centre, then each bind-off two rows higher."""
    half = Fraction(section.centre, 2)
    points = [(half / gauge.stitches_per_cm, height)]
    for step in section.steps:
        half += step
        height += 2 / gauge.rows_per_cm
        points.append((half / gauge.stitches_per_cm, height))
    return points


def area(corners: tuple[Point, ...]) -> Fraction:
    """Square centimetres inside an outline (the surveyor's formula)."""
    closed = (*corners, corners[0])
    return abs(sum((a[0] * b[1] - b[0] * a[1] for a, b in pairwise(closed)), Fraction(0))) / 2
