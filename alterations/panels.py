"""A piece as it comes off the needles: cast on to its edge, whole or in halves with a seam."""

from dataclasses import replace
from typing import Literal

from alterations.errors import ShapingError
from alterations.pattern import Piece, Section
from alterations.rounding import snap_down

Hand = Literal["left", "right"]


def panels_of(piece: Piece) -> tuple[Piece, ...]:
    """The piece itself, or its two halves, left one first; refuses other numbers of panels."""
    if piece.panels == 1:
        return (piece,)
    if piece.panels != 2:
        raise ShapingError(
            f"The {piece.title.lower()} can be worked in one piece or in two halves, "
            f"not in {piece.panels} panels."
        )
    return half_of(piece, "left"), half_of(piece, "right")


def half_of(piece: Piece, hand: Hand) -> Piece:
    """One half of a piece: the internal seam eats one stitch of each half, so n/2 + 1.

    Of an odd count the left half takes the larger part. Outer shaping keeps its numbers, at the
    outer edge only; rows do not change; the half is cast on to its own edge.
    """
    sections = tuple(_half_section(section, hand) for section in piece.sections)
    return snapped(replace(piece, sections=sections, panels=1))


def snapped(piece: Piece) -> Piece:
    """The piece cast on to its edge: the largest count of the edge's form not above the count that
    the row after the edge must have; that row adds the difference.
    """
    at = next((i for i, part in enumerate(piece.sections) if part.shape == "across"), None)
    target = piece.sections[0].start if at is None else piece.sections[at].end
    count = snap_down(target, piece.edge.multiple, piece.edge.remainder)
    if at is None:
        return replace(piece, sections=chained(count, piece.sections))
    lower = tuple(replace(part, start=count, end=count) for part in piece.sections[:at])
    correction = replace(piece.sections[at], start=count)
    return replace(piece, sections=(*lower, correction, *piece.sections[at + 1 :]))


def chained(count: int, sections: tuple[Section, ...]) -> tuple[Section, ...]:
    """Sections that each start with the count the one before ended with."""
    chain = []
    for section in sections:
        end = count if section.shape == "straight" else section.end
        chain.append(replace(section, start=count, end=end))
        count = end
    return tuple(chain)


def _half_section(section: Section, hand: Hand) -> Section:
    joined = section.sides == 1
    start = _half_count(section.start, hand, joined)
    end = _half_count(section.end, hand, joined and section.shape != "neck")
    inner = 1 if joined else 0
    return replace(
        section,
        start=start,
        end=end,
        where=hand,
        sides=1,
        centre=start - end - sum(section.steps) if section.shape == "neck" else 0,
        seam_left=section.seam_left if hand == "left" else inner,
        seam_right=section.seam_right if hand == "right" else inner,
    )


def _half_count(count: int, hand: Hand, joined: bool) -> int:
    if not joined:
        return count // 2
    return (count + 1) // 2 + 1 if hand == "left" else count // 2 + 1
