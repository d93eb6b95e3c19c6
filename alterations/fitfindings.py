"""What no longer fits: pieces on the bed, shapings in their rows, seams against each other."""

from collections.abc import Iterator
from fractions import Fraction

from alterations.bedfindings import bed_findings
from alterations.errors import AlterationsError, ShapingError
from alterations.finding import Finding
from alterations.follows import value_of
from alterations.gauges import fabric_gauge
from alterations.measures import height_cm
from alterations.pattern import Follow, Piece, Section, number_at, split_address
from alterations.recalculate import Result
from alterations.saying import gettext as _
from alterations.saying import gettext_noop
from alterations.shaping import stitches_at_once
from alterations.stitches import events_of, odd_stitch, schedule_of
from alterations.units import show_cm
from alterations.wording import all_small, inside, listed

# By the edges that are shaped, and by every how many rows.
_AT_ONCE = {
    (2, 1): gettext_noop("At each edge, every row: %(times)s stitches at once."),
    (2, 2): gettext_noop("At each edge, every second row: %(times)s stitches at once."),
    (1, 1): gettext_noop("At the edge, every row: %(times)s stitches at once."),
    (1, 2): gettext_noop("At the edge, every second row: %(times)s stitches at once."),
}
SIDE_SEAM_ROWS = 2  # more than this does not ease in: common practice, no source


_NO_LONGER = {
    "rows": gettext_noop(
        "%(piece)s, %(section)s: %(count)s rows no longer fit the pieces they are joined to; "
        "%(wanted)s would."
    ),
    "stitches": gettext_noop(
        "%(piece)s, %(section)s: %(count)s stitches no longer fit the pieces they are joined to; "
        "%(wanted)s would."
    ),
}


def fit_findings(result: Result) -> Iterator[Finding]:
    """Bed, shaping, and numbers that should agree and do not."""
    for piece in result.after.size.pieces:
        yield from bed_findings(result, piece)
        yield from _shaping(piece)
    yield from _following(result)
    yield from _gathers(result)
    yield from _side_seams(result)


def _shaping(piece: Piece) -> Iterator[Finding]:
    for section in piece.sections:
        name = f"{piece.title}, {inside(section.title)}"
        where = f"{piece.key}.{section.key}"
        try:
            schedule_of(section)
            odd = section.shape == "spread" and events_of(section) and odd_stitch(section)
        except ShapingError as error:
            ways = _several_at_once(section)
            yield Finding("shaping", "problem", f"{name}: {error}", where, ways)
            continue
        if odd:
            yield Finding(
                "odd stitch",
                "warning",
                _(
                    "%(where)s: from %(start)s to %(end)s stitches one stitch is left over; work "
                    "it once, at one side, with the first shaping."
                )
                % {"where": name, "start": section.start, "end": section.end},
                where,
            )


def _several_at_once(section: Section) -> tuple[str, ...]:
    """How the shaping would fit with several stitches at once, where it has rows at all."""
    every = 1 if section.rhythm == "any row" else 2
    places, edges = section.rows // every, 2 if section.where == "both" else 1
    changes = abs(section.end - section.start) // edges
    if not places or not changes:
        return ()
    times = [
        _("%(count)s times %(stitches)s") % {"count": count, "stitches": each}
        for count, each in stitches_at_once(places, changes)
    ]
    return (_(_AT_ONCE[edges, every]) % {"times": listed(times)},)


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
                _(_NO_LONGER[what])
                % {
                    "piece": piece.title,
                    "section": inside(piece.section(section).title),
                    "count": there,
                    "wanted": wanted,
                },
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
            _(
                "%(piece)s: its top is %(cm)s cm wider than the armhole; gather it in when you "
                "join it."
            )
            % {"piece": piece.title, "cm": show_cm(cm)},
            key,
        )


def _side_seams(result: Result) -> Iterator[Finding]:
    """Pieces whose rows follow each other lie side by side, so what is below must be alike too."""
    for follow in result.pattern.follows:
        key, section, what = split_address(follow.what)
        if follow.rule != "same" or what != "rows":
            continue
        other_key, other_section, _what = split_address(follow.of[0])
        mine, theirs = _height(result, key, section), _height(result, other_key, other_section)
        base = _height(result, key, section, before=True)
        base -= _height(result, other_key, other_section, before=True)
        per_cm = result.after.gauge.rows_per_cm
        if abs(mine - theirs - base) * per_cm > SIDE_SEAM_ROWS:
            pieces = [result.after.size.piece(one).title for one in (key, other_key)]
            yield Finding(
                "side seam",
                "warning",
                _(
                    "%(piece)s and %(other)s no longer match: from the lower edge %(cm)s cm "
                    "against %(other_cm)s cm. Change both alike."
                )
                % {
                    "piece": pieces[0],
                    "other": all_small(pieces[1]),
                    "cm": show_cm(mine),
                    "other_cm": show_cm(theirs),
                },
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
