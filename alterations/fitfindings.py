"""What no longer fits: pieces on the bed, shapings in their rows, seams against each other."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from alterations.beds import fits, offers
from alterations.errors import AlterationsError, ShapingError
from alterations.finding import Finding
from alterations.follows import value_of
from alterations.gauges import fabric_gauge
from alterations.measures import height_cm
from alterations.panels import panels_of
from alterations.pattern import Follow, Piece, number_at, split_address
from alterations.recalculate import Result
from alterations.stitches import events_of, odd_stitch, schedule_of
from alterations.units import show_cm

SIDE_SEAM_ROWS = 2  # more than this does not ease in: common practice, no source


def fit_findings(result: Result) -> Iterator[Finding]:
    """Bed, shaping, and numbers that should agree and do not."""
    for piece in result.after.size.pieces:
        yield from _bed(result, piece)
        yield from _shaping(piece)
    yield from _following(result)
    yield from _gathers(result)
    yield from _side_seams(result)


def _bed(result: Result, piece: Piece) -> Iterator[Finding]:
    if result.needles is None:
        return
    widest = max(panel.widest for panel in panels_of(piece))
    if not fits(widest, result.needles):
        length = sum(
            height_cm(one, fabric_gauge(result.pattern, one.fabric, result.after.gauge))
            for one in piece.sections
        )
        ways = offers(
            widest, result.needles, result.after.gauge, length_cm=length, parted=_parted(piece)
        )
        first = ways[:2] if piece.panels == 1 else ways[1:2]
        yield Finding(
            "bed",
            "warning",
            f"{piece.title}: {widest} stitches do not fit on {result.needles} needles. "
            f"{' Or: '.join(first)}",
            piece.key,
            ways,
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


def _shaping(piece: Piece) -> Iterator[Finding]:
    for section in piece.sections:
        name = f"{piece.title}, {section.title.lower()}"
        where = f"{piece.key}.{section.key}"
        try:
            schedule_of(section)
            odd = section.shape == "spread" and events_of(section) and odd_stitch(section)
        except ShapingError as error:
            yield Finding("shaping", "problem", f"{name}: {error}", where)
            continue
        if odd:
            yield Finding(
                "odd stitch",
                "warning",
                f"{name}: from {section.start} to {section.end} stitches one stitch is left over; "
                "work it once, at one side, with the first shaping.",
                where,
            )


def _following(result: Result) -> Iterator[Finding]:
    """Numbers that no longer fit those they follow by more than one."""
    if result.keeps_counts:
        return  # at another gauge with the counts kept, everything stays in proportion as it was
    for follow in result.pattern.follows:
        key, section, what = split_address(follow.what)
        wanted = _wanted(result, follow)
        there = number_at(result.after.size, follow.what)
        if what == "rows":
            parted = result.after.size.piece(key).parted(section)
            there = sum(one.rows for one in parted)
        allowed = 2 if what == "rows" or follow.rule in ("neck edge", "picked up") else 1
        gathered = follow.rule == "sleeve top" and key in result.wish.gathers
        if wanted is not None and abs(wanted - there) > allowed and not gathered:
            piece = result.after.size.piece(key)
            yield Finding(
                "fit",
                "warning",
                f"{piece.title}, {piece.section(section).title.lower()}: {there} {what} no longer "
                f"fit the pieces they are joined to; {wanted} would.",
                f"{key}.{section}",
            )


def _wanted(result: Result, follow: Follow) -> int | None:
    try:
        return value_of(follow, result.after.size, result.after.gauge, result.pattern)
    except AlterationsError:
        return None


def _gathers(result: Result) -> Iterator[Finding]:
    for key, cm in result.wish.gathers.items():
        piece = result.after.size.piece(key)
        yield Finding(
            "gathers",
            "note",
            f"{piece.title}: its top is {show_cm(cm)} cm wider than the armhole; gather it in when "
            "you join it.",
            key,
        )


def _side_seams(result: Result) -> Iterator[Finding]:
    """Pieces whose rows follow each other lie side by side, so what is below must be alike too."""
    for follow in result.pattern.follows:
        key, section, what = split_address(follow.what)
        if follow.rule != "same" or what != "rows":
            continue
        other_key, other_section, _ = split_address(follow.of[0])
        mine, theirs = _height(result, key, section), _height(result, other_key, other_section)
        base = _height(result, key, section, before=True)
        base -= _height(result, other_key, other_section, before=True)
        per_cm = result.after.gauge.rows_per_cm
        if abs(mine - theirs - base) * per_cm > SIDE_SEAM_ROWS:
            pieces = [result.after.size.piece(one).title for one in (key, other_key)]
            yield Finding(
                "side seam",
                "warning",
                f"{pieces[0]} and {pieces[1].lower()} no longer match: from the lower edge "
                f"{show_cm(mine)} cm against {show_cm(theirs)} cm. Change both alike.",
                key,
            )


def _height(result: Result, key: str, section: str, *, before: bool = False) -> Fraction:
    """cm from the lower edge of a piece to the upper end of a section."""
    garment = result.before if before else result.after
    total = Fraction(0)
    for one in garment.size.piece(key).sections:
        total += height_cm(one, fabric_gauge(result.pattern, one.fabric, garment.gauge))
        if one.key == section:
            break
    return total
