"""Identities a base pattern should satisfy in every size: those that fail, each with its place.

What makes a file unusable is refused when it is read; these are doubts a designer should see beside
the number: edges, parity, seams that should match, the bed, the published yarn.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from alterations.amounts import model_metres
from alterations.errors import AlterationsError, ShapingError
from alterations.follows import value_of
from alterations.panels import panels_of
from alterations.pattern import Follow, Pattern, Piece, Section, Size, number_at
from alterations.rounding import snap_down
from alterations.saying import gettext as _
from alterations.stitches import odd_stitch
from alterations.wording import inside, name_in_words

# How far a number may be from what it follows: rounding to even rows or the parity of a count.
ALLOWED = {"same": 0, "rest": 0, "shoulders": 0, "one shoulder": 0, "neck edge": 2, "picked up": 2}


@dataclass(frozen=True)
class Identity:
    """One that fails: a short code, the size, the number it is about ("back.notch.stitches", or
    "yarn.metres"), a sentence."""

    code: str
    size: str
    address: str
    sentence: str


def identities(pattern: Pattern) -> tuple[Identity, ...]:
    """Everything that does not agree, size by size; nothing for a pattern that is in order."""
    return tuple(found for size in pattern.sizes for found in _in_size(pattern, size))


def _in_size(pattern: Pattern, size: Size) -> Iterator[Identity]:
    for piece in size.pieces:
        yield from _edge(size, piece)
        yield from _parity(pattern, size, piece)
        yield from _halves(size, piece)
        yield from _bed(pattern, size, piece)
    for follow in pattern.follows:
        yield from _follows(pattern, size, follow)
    yield from _yarn(pattern, size)


def _edge(size: Size, piece: Piece) -> Iterator[Identity]:
    """The cast-on is the largest count of the edge's form not above what it must become."""
    across = next((one for one in piece.sections if one.shape == "across"), None)
    if across is None or piece.panels > 1:
        return
    added, edge = across.end - across.start, piece.edge
    form = f"{name_in_words(edge.name)} ({edge.multiple}·n + {edge.remainder})"
    address = f"{piece.key}.{piece.sections[0].key}.stitches"
    try:
        wanted = snap_down(across.end, edge.multiple, edge.remainder)
    except ShapingError:
        yield Identity(
            "edge",
            size.name,
            address,
            _("%(stitches)s stitches are too few for one repeat of %(form)s.")
            % {"stitches": across.end, "form": form},
        )
        return
    if not 0 <= added < edge.multiple or piece.cast_on != wanted:
        yield Identity(
            "edge",
            size.name,
            address,
            _(
                "%(stitches)s stitches are cast on for %(above)s; with %(form)s it would be "
                "%(wanted)s."
            )
            % {
                "stitches": piece.cast_on,
                "above": across.end,
                "form": form,
                "wanted": wanted,
            },
        )


def _parity(pattern: Pattern, size: Size, piece: Piece) -> Iterator[Identity]:
    for section in piece.sections:
        address = f"{piece.key}.{section.key}"
        if pattern.even_rows and section.rows % 2:
            yield Identity(
                "even rows",
                size.name,
                f"{address}.rows",
                _("%(rows)s rows leave the carriage at the other side; make them even.")
                % {"rows": section.rows},
            )
        if section.shape == "spread" and _is_odd(section):
            yield Identity(
                "odd stitch",
                size.name,
                f"{address}.stitches",
                _(
                    "from %(start)s to %(end)s one stitch is left over; make the difference even, "
                    "so that both edges are shaped alike."
                )
                % {"start": section.start, "end": section.end},
            )


def _halves(size: Size, piece: Piece) -> Iterator[Identity]:
    """Two halves are alike, n/2 + 1 each, where the count above the edge is even."""
    if piece.panels != 2:
        return
    at = next((i for i, one in enumerate(piece.sections) if one.shape == "across"), 0)
    for section in piece.sections[at:]:
        shared = section.sides == 1 and section.shape != "neck"
        if shared and section.end % 2 and section.shape != "straight":
            yield Identity(
                "halves",
                size.name,
                f"{piece.key}.{section.key}.stitches",
                _("%(stitches)s stitches cannot be parted into two equal halves; make them even.")
                % {"stitches": section.end},
            )


def _is_odd(section: Section) -> bool:
    try:
        return odd_stitch(section) != 0
    except AlterationsError:
        return True


def _bed(pattern: Pattern, size: Size, piece: Piece) -> Iterator[Identity]:
    if pattern.machine is None:
        return
    try:
        widest = max(panel.widest for panel in panels_of(piece))
    except AlterationsError:
        return  # said when the file was read
    if widest > pattern.machine.needles:
        at = max(piece.sections, key=lambda section: section.most)
        yield Identity(
            "bed",
            size.name,
            f"{piece.key}.{at.key}.stitches",
            _(
                "%(stitches)s stitches do not fit on %(needles)s needles; work this size in two "
                "halves."
            )
            % {"stitches": widest, "needles": pattern.machine.needles},
        )


def _follows(pattern: Pattern, size: Size, follow: Follow) -> Iterator[Identity]:
    """Notch and shoulders, front and back, sleeve top and armhole, band and neck."""
    try:
        wanted = value_of(follow, size, pattern.gauge, pattern)
    except AlterationsError:
        return
    there = number_at(size, follow.what)
    # A sleeve's top and its straight rows are rounded to even: within one of the exact length.
    allowed = ALLOWED.get(follow.rule, 1)
    if abs(there - wanted) > allowed:
        sources = "; ".join(dict.fromkeys(_titled(size, one) for one in follow.of))
        yield Identity(
            "follows",
            size.name,
            follow.what,
            _("%(there)s here, but from %(sources)s it would be %(wanted)s.")
            % {"there": there, "sources": sources, "wanted": wanted},
        )


def _titled(size: Size, address: str) -> str:
    """A number's place in the pattern's own words."""
    piece = size.piece(address.split(".", maxsplit=1)[0])
    return f"{piece.title}, {inside(piece.section(address.split('.')[1]).title)}"


def _yarn(pattern: Pattern, size: Size) -> Iterator[Identity]:
    """The published metres hold the net metres with the allowance, and not far more."""
    allowed = 1 + pattern.yarn.allowance_percent / 100
    net = model_metres(pattern, size)
    if size.metres < allowed * net:
        yield Identity(
            "yarn",
            size.name,
            "yarn.metres",
            _("%(metres)s m are less than the stitches take with the allowance (%(needed)s m).")
            % {"metres": size.metres, "needed": _whole(allowed * net)},
        )
    high = Fraction(13, 10)
    if net and size.metres > high * net:
        yield Identity(
            "yarn",
            size.name,
            "yarn.metres",
            _(
                "%(metres)s m are more than 1.3 times what the stitches take (%(needed)s m); look "
                "at the amount or at the counts again."
            )
            % {"metres": size.metres, "needed": _whole(net)},
        )


def _whole(metres: Fraction) -> int:
    return -(-metres.numerator // metres.denominator)
