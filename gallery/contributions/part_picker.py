"""The garment drawn with its parts as labels that lead to the fields of their changes."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from textwrap import shorten as shortened
from typing import Any

from django.utils.translation import gettext_lazy

from alterations.outline import Band, Point, bands, neckline, outline
from alterations.pattern import Pattern, Piece, Size
from alterations.places import (
    ARMHOLE,
    BODY,
    BODY_WIDTH,
    NECK_DEPTH,
    NECK_WIDTH,
    SLEEVE,
    WRIST,
    parts_of,
)
from gallery.contributions.change_groups import Group
from gallery.contributions.making_groups import edges_named

# All in the drawing's own units. On the narrowest page (320 pixels) it is drawn at four fifths, and
# a label is still as high as a finger needs (44 CSS pixels).
PIECE_WIDTH, LABEL_LEFT, LABEL_WIDTH, LABEL_HEIGHT, GAP, MARGIN = 92, 108, 184, 58, 10, 4
WIDTH = LABEL_LEFT + LABEL_WIDTH + MARGIN
PARTS = (BODY, BODY_WIDTH, ARMHOLE, NECK_DEPTH, NECK_WIDTH, SLEEVE, WRIST)
STEMS = {
    BODY: ("body_length", gettext_lazy("Body length")),
    BODY_WIDTH: ("body_width", gettext_lazy("Body width")),
    ARMHOLE: ("armhole", gettext_lazy("Armhole depth")),
    NECK_DEPTH: ("neck_depth", gettext_lazy("Neck depth")),
    NECK_WIDTH: ("neck_width", gettext_lazy("Neck width")),
    SLEEVE: ("sleeve_length", gettext_lazy("Sleeve length")),
    WRIST: ("sleeve_width", gettext_lazy("Width at the wrist")),
}
LONGEST_LABEL = 19  # letters that fit into a label

_At = Callable[[Point], tuple[int, int]]


@dataclass(frozen=True)
class Mark:
    """One label, the line from it to its place, and the id of the field it leads to."""

    words: str
    leads_to: str
    line: str
    y: int
    x: int = LABEL_LEFT
    width: int = LABEL_WIDTH
    height: int = LABEL_HEIGHT
    text_x: int = LABEL_LEFT + 12

    @property
    def text_y(self) -> int:
        """Where the words stand in the label."""
        return self.y + LABEL_HEIGHT // 2 + 6


@dataclass(frozen=True)
class PickedPiece:
    """One piece with its labels."""

    title: str
    points: str
    neck: str
    marks: tuple[Mark, ...]
    height: int
    width: int = WIDTH


@dataclass(frozen=True)
class _Place:
    """A part's place in its piece: how far up, in cm, and half the width there."""

    group: Group
    words: str
    up: Fraction
    aside: Fraction


def pieces_to_pick(pattern: Pattern, groups: Sequence[Group]) -> tuple[PickedPiece, ...]:
    """Each piece that has parts to change, drawn in the middle size."""
    size = pattern.sizes[len(pattern.sizes) // 2]
    found: dict[str, list[_Place]] = {}
    for key, place in _places(pattern, size, groups):
        found.setdefault(key, []).append(place)
    return tuple(_drawn(pattern, size.piece(key), places) for key, places in found.items())


def _places(pattern: Pattern, size: Size, groups: Sequence[Group]) -> Iterator[tuple[str, _Place]]:
    known = parts_of(size)
    by_stem = {group.stem: group for group in groups}
    wanted: dict[str, tuple[str, Any]] = {part: STEMS[part] for part in PARTS}
    edges = edges_named(pattern).items()
    wanted |= {part: (f"edge_{at}_", title) for at, (part, title) in enumerate(edges)}
    for part, (stem, words) in wanted.items():
        if part in known and stem in by_stem:
            piece, section = known[part]
            found = bands(pattern, piece, pattern.gauge)
            yield piece.key, _place_of(by_stem[stem], str(words), found, piece, section.key)


def _place_of(group: Group, words: str, found: Sequence[Band], piece: Piece, key: str) -> _Place:
    """The middle of the section's band; of one worked within a row, the line on which it lies."""
    by_key = {band.section.key: band for band in found}
    up, aside = Fraction(0), found[0].below / 2
    for section in piece.sections:
        band = by_key.get(section.key)
        if section.key == key:
            return _middle(group, words, up, band) if band else _Place(group, words, up, aside)
        if band is not None:
            up, aside = up + band.height, band.above / 2
    return _Place(group, words, up, aside)


def _middle(group: Group, words: str, up: Fraction, band: Band) -> _Place:
    return _Place(group, words, up + band.height / 2, (band.below + band.above) / 4)


def _drawn(pattern: Pattern, piece: Piece, places: Sequence[_Place]) -> PickedPiece:
    corners = outline(bands(pattern, piece, pattern.gauge))
    half = max(x for x, _ in corners)
    tall = max(y for _, y in corners)
    needed = len(places) * (LABEL_HEIGHT + GAP)
    scale = min(Fraction(PIECE_WIDTH) / (2 * half), Fraction(max(needed, 200)) / tall)
    high = max(needed, round(tall * scale))

    def at(point: Point) -> tuple[int, int]:
        x, y = point
        return round(MARGIN + (half + x) * scale), round(MARGIN + (tall - y) * scale)

    neck = neckline(pattern, piece, pattern.gauge)
    return PickedPiece(
        title=piece.title,
        points=_joined(map(at, corners)),
        neck=_joined(map(at, neck)),
        marks=tuple(_marks(places, at)),
        height=high + 2 * MARGIN,
    )


def _marks(places: Sequence[_Place], at: _At) -> Iterator[Mark]:
    """The labels from the top down, none on another."""
    y = MARGIN
    for place in sorted(places, key=lambda one: -one.up):
        start = at((place.aside, place.up))
        end = (LABEL_LEFT, y + LABEL_HEIGHT // 2)
        yield Mark(
            words=shortened(place.words, LONGEST_LABEL, placeholder="…"),
            leads_to=f"id_{place.group.error_field}",
            line=_joined((start, end)),
            y=y,
        )
        y += LABEL_HEIGHT + GAP


def _joined(points: Iterable[tuple[int, int]]) -> str:
    return " ".join(f"{x},{y}" for x, y in points)
