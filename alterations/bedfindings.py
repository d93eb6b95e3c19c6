"""What does not fit on the needle bed, or fits again."""

from collections.abc import Iterator
from dataclasses import replace

from alterations.beds import fits, fits_as_double_rib, offers
from alterations.errors import ShapingError
from alterations.finding import Finding
from alterations.gauges import fabric_gauge
from alterations.measures import height_cm
from alterations.panels import panels_of
from alterations.pattern import Piece
from alterations.recalculate import Result
from alterations.saying import gettext as _


def bed_findings(result: Result, piece: Piece) -> Iterator[Finding]:
    """Whether a piece fits on the bed, with the ways out; nothing on hand needles."""
    if result.needles is None:
        return
    widest = max(panel.widest for panel in panels_of(piece))
    yield from _whole_again(result, piece, result.needles)
    yield from _double_rib(result, piece, result.needles)
    if not fits(widest, result.needles):
        length = sum(
            height_cm(one, fabric_gauge(result.pattern, one.fabric, result.after.gauge))
            for one in piece.sections
        )
        ways = offers(
            widest, result.needles, result.after.gauge, length_cm=length, parted=_parted(piece)
        )
        # The first two part the piece: only where it may be, and into more parts than now.
        ways = ways[piece.panels - 1 :] if piece.may_be_halved else ways[2:]
        first = ways[:2] if piece.panels == 1 else ways[:1]
        yield Finding(
            "bed",
            "warning",
            _does_not_fit(piece, widest, result.needles, first),
            piece.key,
            ways,
        )


def _does_not_fit(piece: Piece, widest: int, needles: int, ways: tuple[str, ...]) -> str:
    """The sentence with the first ways out; without any the sentence alone."""
    sentence = _("%(piece)s: %(stitches)s stitches do not fit on %(needles)s needles.") % {
        "piece": piece.title,
        "stitches": widest,
        "needles": needles,
    }
    if not ways:
        return f"{sentence} "
    told = ways[0]
    for way in ways[1:]:
        told = _("%(one)s Or: %(other)s") % {"one": told, "other": way}
    return f"{sentence} {told}"


def _whole_again(result: Result, piece: Piece, needles: int) -> Iterator[Finding]:
    """Says that a piece the pattern works in panels now fits on the bed in one piece."""
    base = result.before.size.piece(piece.key)
    whole = replace(piece, panels=1)
    if base.panels > 1 and piece.panels == base.panels and fits(whole.widest, needles):
        yield Finding(
            "whole",
            "note",
            _(
                "%(piece)s: its %(stitches)s stitches fit on %(needles)s needles in one piece, so "
                "it need not be parted."
            )
            % {"piece": piece.title, "stitches": whole.widest, "needles": needles},
            piece.key,
        )


def _double_rib(result: Result, piece: Piece, needles: int) -> Iterator[Finding]:
    """A rib on two beds takes one needle more; told where only that one is missing."""
    if not result.double_bed or piece.edge.multiple < 2:
        return
    positions = max(panel.cast_on for panel in panels_of(piece))
    if fits(positions, needles) and not fits_as_double_rib(positions, needles):
        yield Finding(
            "double rib",
            "warning",
            _(
                "%(piece)s: a rib of %(stitches)s stitches on two beds takes %(more)s needles with "
                "the end needle opposite, and there are %(needles)s."
            )
            % {
                "piece": piece.title,
                "stitches": positions,
                "more": positions + 1,
                "needles": needles,
            },
            piece.key,
        )


def _parted(piece: Piece) -> dict[int, tuple[int, ...]]:
    """The widest counts of the piece's panels, as far as it can be parted."""
    found = {}
    for panels in (2, 3):
        try:
            parts = panels_of(replace(piece, panels=panels))
        except ShapingError:
            continue
        found[panels] = tuple(part.widest for part in parts)
    return found
