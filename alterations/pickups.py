"""Where the stitches of a band are picked up: how many along which edge, in words."""

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction

from alterations.carriage import counted
from alterations.follows import bound_off, section_at
from alterations.gauges import fabric_gauge
from alterations.pattern import Follow, Piece, number_at, split_address
from alterations.recalculate import Result
from alterations.rounding import round_half_up
from alterations.saying import gettext as _
from alterations.wording import inside

PICKED_UP = ("neck edge", "picked up")
MOST_ROWS_IN_A_RATE = 8  # "8 stitches for every 11 rows" is more than one can count by


def pick_up_rule(result: Result, piece: Piece) -> Follow | None:
    """The rule by which the first stitches of a piece are picked up; None where it is cast on."""
    first = f"{piece.key}.{piece.sections[0].key}.stitches"
    rules = (rule for rule in result.pattern.follows if rule.what == first)
    return next((rule for rule in rules if rule.rule in PICKED_UP), None)


def picked_up_along(result: Result, piece: Piece) -> tuple[str, ...]:
    """Sentences that say along which edges the stitches of a band lie; none where it is cast on.

    Along rows the share is the gauge's stitches to rows, along bound-off stitches one for one
    (common practice); what the band's own edge leaves over goes into the whole.
    """
    rule = pick_up_rule(result, piece)
    if rule is None:
        return ()
    if rule.rule == "neck edge":
        return (_round_the_neck(result, rule, piece.cast_on),)
    return tuple(_along_edges(result, rule, piece.cast_on))


def _round_the_neck(result: Result, rule: Follow, all_stitches: int) -> str:
    size = result.after.size
    back, front, _shoulders = (split_address(address)[0] for address in rule.of)
    behind = section_at(size, rule.of[0]).end
    names = {key: inside(size.piece(key).title) for key in (back, front)}
    return _(
        "Of these, %(behind)s along the neck of the %(back)s, one for each, and %(before)s along "
        "the neck of the %(front)s, as many on one side of its middle as on the other."
    ) % {
        "behind": counted(behind, "stitch"),
        "back": names[back],
        "before": all_stitches - behind,
        "front": names[front],
    }


def _along_edges(result: Result, rule: Follow, all_stitches: int) -> Iterator[str]:
    gauge = result.after.gauge
    share = (gauge.stitches_per_cm / gauge.rows_per_cm).limit_denominator(MOST_ROWS_IN_A_RATE)
    if any(address.endswith(".rows") for address in rule.of):
        yield _(
            "Along rows pick up about %(stitches)s for every %(rows)s, along other stitches one "
            "for each."
        ) % {
            "stitches": counted(share.numerator, "stitch"),
            "rows": counted(share.denominator, "row"),
        }
    places: dict[str, list[str]] = {}
    for address, times in Counter(rule.of).items():
        piece, section, _what = split_address(address)
        title = inside(result.after.size.piece(piece).section(section).title)
        often = f"{times} × " if times > 1 else ""
        count = round_half_up(_stitches(result, address))
        places.setdefault(piece, []).append(f"{title} {often}{count}")
    told = (
        f"{result.after.size.piece(piece).title}: {', '.join(found)}"
        for piece, found in places.items()
    )
    yield _("That is about, edge by edge: %(edges)s; %(stitches)s in all.") % {
        "edges": "; ".join(told),
        "stitches": all_stitches,
    }


def _stitches(result: Result, address: str) -> Fraction:
    """Stitches along one edge, before they are rounded."""
    section = section_at(result.after.size, address)
    if address.endswith(".rows"):
        main = result.after.gauge
        fabric = fabric_gauge(result.pattern, section.fabric, main)
        rows = number_at(result.after.size, address)
        return rows * main.stitches_per_cm / fabric.rows_per_cm
    return Fraction(section.end if section.shape == "held" else abs(bound_off(section)))
