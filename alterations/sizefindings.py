"""What changes its size without being asked to, or by very much: measurements against the base."""

from collections.abc import Iterator
from fractions import Fraction
from functools import reduce

from alterations.changes import numbers_asked
from alterations.finding import Finding
from alterations.gauge import Gauge
from alterations.kinds import OtherEdge, OtherHeight
from alterations.measures import finished
from alterations.pattern import Piece
from alterations.places import led_place, stretch_above
from alterations.recalculate import Result
from alterations.rounding import nearest_even
from alterations.saying import gettext as _
from alterations.saying import gettext_noop, ngettext
from alterations.units import Length, show_cm
from alterations.wording import inside

# By whether the edge is deeper, and whether other pieces follow this one's rows.
_KEEPING = {
    (True, False): gettext_noop(
        "%(piece)s: with this %(edge)s the piece becomes %(cm)s cm longer; work %(rows)s fewer "
        "rows above it to keep the length."
    ),
    (True, True): gettext_noop(
        "%(piece)s: with this %(edge)s the piece becomes %(cm)s cm longer; work %(rows)s fewer "
        "rows above it and as many in %(others)s to keep the length."
    ),
    (False, False): gettext_noop(
        "%(piece)s: with this %(edge)s the piece becomes %(cm)s cm shorter; work %(rows)s more "
        "rows above it to keep the length."
    ),
    (False, True): gettext_noop(
        "%(piece)s: with this %(edge)s the piece becomes %(cm)s cm shorter; work %(rows)s more "
        "rows above it and as many in %(others)s to keep the length."
    ),
}
NOTICEABLE_CM = Fraction(2)
GREAT_CHANGE_CM = Fraction(30)
TENTH = Fraction(1, 10)


def size_findings(result: Result) -> Iterator[Finding]:
    """Kept counts, great changes, edges that lengthen the garment, proposals to be measured."""
    yield from _kept_counts(result)
    yield from _great(result)
    yield from _deeper_edges(result)
    yield from _rounded_rows(result)
    if any(isinstance(one, OtherHeight) for one in result.alterations):
        yield Finding(
            "height",
            "note",
            _(
                "Lengths for a taller or shorter wearer are a starting value from the proportions "
                "of the body; measuring the wearer beats it."
            ),
        )


def _kept_counts(result: Result) -> Iterator[Finding]:
    if not result.keeps_counts or not result.before.measures:
        return
    before, after = result.before.measures[0], result.after.measures[0]
    change = after.cm - before.cm
    if abs(change) < NOTICEABLE_CM:
        return
    sign = "+" if change > 0 else "−"
    kept = _(
        "%(measure)s: %(made)s cm instead of %(base)s cm (%(change)s cm), because the counts were "
        "kept at another gauge."
    ) % {
        "measure": before.title,
        "made": show_cm(after.cm, TENTH),
        "base": show_cm(before.cm, TENTH),
        "change": f"{sign}{show_cm(abs(change), TENTH)}",
    }
    said = filter(None, [kept, _ease(result, after.cm), _other_size(result, before.cm)])
    yield Finding("size", "warning", " ".join(said))


def _ease(result: Result, cm: Fraction) -> str:
    """The room over the body the size is meant for, where the pattern names it."""
    body = result.before.size.to_fit_cm
    if body is None:
        return ""
    ease = cm - body  # without the check of ease_of: absurd garments are told of too
    told = {"cm": show_cm(abs(ease), TENTH), "body": show_cm(body)}
    if ease >= 0:
        return (
            _("That is %(cm)s cm wider than the body of %(body)s cm this size is meant for.") % told
        )
    return (
        _("That is %(cm)s cm narrower than the body of %(body)s cm this size is meant for.") % told
    )


def _other_size(result: Result, wanted: Fraction) -> str:
    """Which size's counts give the wanted measurement at the gauge worked in."""
    gauge: Gauge = result.after.gauge
    sizes = result.pattern.sizes
    widths = [finished(result.pattern, size, gauge)[0].cm for size in sizes]
    at = min(range(len(sizes)), key=lambda i: abs(widths[i] - wanted))
    if sizes[at].name == result.before.size.name:
        return _("No other size of the pattern comes closer.")
    return _("The counts of size %(size)s would give %(cm)s cm at this gauge.") % {
        "size": sizes[at].name,
        "cm": show_cm(widths[at], TENTH),
    }


def _great(result: Result) -> Iterator[Finding]:
    for before, after in zip(result.before.measures, result.after.measures, strict=True):
        halved = before.cm > NOTICEABLE_CM and 2 * after.cm < before.cm
        if halved or abs(after.cm - before.cm) > GREAT_CHANGE_CM:
            yield Finding(
                "great",
                "warning",
                _("%(measure)s changes from %(base)s cm to %(made)s cm. Is the unit right?")
                % {
                    "measure": before.title,
                    "base": show_cm(before.cm, TENTH),
                    "made": show_cm(after.cm, TENTH),
                },
            )


def _rounded_rows(result: Result) -> Iterator[Finding]:
    """Rows were asked for and another number is worked, because rows come in pairs."""
    asked: dict[str, Fraction] = {}
    for one in result.alterations:
        change = getattr(one, "change", None)
        if isinstance(change, Length) and change.unit == "rows":
            for address in numbers_asked(result, one):
                asked[address] = asked.get(address, Fraction(0)) + change.amount
    for address, rows in asked.items():
        key, section, _what = address.split(".")
        piece = result.after.size.piece(key)
        worked = sum(one.rows for one in piece.parted(section))
        base = sum(one.rows for one in result.regauged.piece(key).parted(section))
        if worked - base != rows and rows.denominator == 1 and int(rows) % 2:
            yield Finding(
                "rounded",
                "note",
                ngettext(
                    "%(piece)s, %(section)s: %(asked)s rows were asked for, %(worked)s are worked, "
                    "so that the count stays even.",
                    "%(piece)s, %(section)s: %(asked)s rows were asked for, %(worked)s are worked, "
                    "so that the count stays even.",
                    abs(int(rows)),
                )
                % {
                    "piece": piece.title,
                    "section": inside(piece.section(section).title),
                    "asked": abs(int(rows)),
                    "worked": abs(worked - base),
                },
                f"{key}.{section}",
            )


def _deeper_edges(result: Result) -> Iterator[Finding]:
    """Asks whether the rows above a deeper edge should shrink by as much."""
    for key, edge in result.wish.edges.items():
        piece, base = result.after.size.piece(key), result.before.size.piece(key)
        asked = [one for one in result.alterations if isinstance(one, OtherEdge)]
        keeps = any(one.keeps_length and one.where in (key, base.sections[0].part) for one in asked)
        per_cm = result.gauges.rows_per_cm(edge.fabric)[1]
        deeper = piece.sections[0].rows_seen / per_cm - result.gauges.rows_cm(base.sections[0])
        rows = nearest_even(abs(deeper) * result.after.gauge.rows_per_cm)
        if _has_rows_of_its_own(result, base) and not keeps and rows:
            yield Finding(
                "length",
                "note",
                _to_keep_the_length(result, base, deeper, rows),
                key,
            )


def _to_keep_the_length(result: Result, base: Piece, deeper: Fraction, rows: int) -> str:
    others = _alike(result, base)
    return _(_KEEPING[deeper > 0, bool(others)]) % {
        "piece": base.title,
        "edge": inside(base.sections[0].title),
        "cm": show_cm(abs(deeper), TENTH),
        "rows": rows,
        "others": others,
    }


def _alike(result: Result, piece: Piece) -> str:
    """The pieces whose rows above the edge follow this one's, with the same edge."""
    others = [
        _("the %(piece)s") % {"piece": inside(one.title)}
        for one in result.before.size.pieces
        if one.key != piece.key and one.key in result.wish.edges and _leads(result, one, piece)
    ]
    return reduce(_and, others) if others else ""


def _and(one: str, other: str) -> str:
    return _("%(before)s and %(last)s") % {"before": one, "last": other}


def _leads(result: Result, follower: Piece, leader: Piece) -> bool:
    above = stretch_above(follower)
    if above is None:
        return False
    return led_place(result.pattern, result.before.size, above)[1].key == leader.key


def _has_rows_of_its_own(result: Result, piece: Piece) -> bool:
    """Whether the rows above the edge are this piece's own and follow no other's."""
    above = stretch_above(piece)
    if above is None:
        return False
    return led_place(result.pattern, result.before.size, above)[1].key == piece.key
