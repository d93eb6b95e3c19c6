"""What changes its size without being asked to, or by very much: measurements against the base."""

from collections.abc import Iterator
from fractions import Fraction

from alterations.changes import numbers_asked
from alterations.finding import Finding
from alterations.gauge import Gauge
from alterations.kinds import OtherEdge, OtherHeight
from alterations.measures import finished
from alterations.pattern import Piece
from alterations.places import led_place, stretch_above
from alterations.recalculate import Result
from alterations.rounding import nearest_even
from alterations.units import Length, show_cm
from alterations.wording import inside

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
            "Lengths for a taller or shorter wearer are a starting value from the proportions of "
            "the body; measuring the wearer beats it.",
        )


def _kept_counts(result: Result) -> Iterator[Finding]:
    if not result.keeps_counts or not result.before.measures:
        return
    before, after = result.before.measures[0], result.after.measures[0]
    change = after.cm - before.cm
    if abs(change) < NOTICEABLE_CM:
        return
    sign = "+" if change > 0 else "−"
    yield Finding(
        "size",
        "warning",
        f"{before.title}: {show_cm(after.cm, TENTH)} cm instead of {show_cm(before.cm, TENTH)} cm "
        f"({sign}{show_cm(abs(change), TENTH)} cm), because the counts were kept at another gauge. "
        f"{_ease(result, after.cm)}{_other_size(result, before.cm)}",
    )


def _ease(result: Result, cm: Fraction) -> str:
    """The room over the body the size is meant for, where the pattern names it."""
    body = result.before.size.to_fit_cm
    if body is None:
        return ""
    ease = cm - body  # without the check of ease_of: absurd garments are told of too
    way = "wider" if ease >= 0 else "narrower"
    return (
        f"That is {show_cm(abs(ease), TENTH)} cm {way} than the body of {show_cm(body)} cm this "
        "size is meant for. "
    )


def _other_size(result: Result, wanted: Fraction) -> str:
    """Which size's counts give the wanted measurement at the gauge worked in."""
    gauge: Gauge = result.after.gauge
    sizes = result.pattern.sizes
    widths = [finished(result.pattern, size, gauge)[0].cm for size in sizes]
    at = min(range(len(sizes)), key=lambda i: abs(widths[i] - wanted))
    if sizes[at].name == result.before.size.name:
        return "No other size of the pattern comes closer."
    return (
        f"The counts of size {sizes[at].name} would give {show_cm(widths[at], TENTH)} cm at this "
        "gauge."
    )


def _great(result: Result) -> Iterator[Finding]:
    for before, after in zip(result.before.measures, result.after.measures, strict=True):
        halved = before.cm > NOTICEABLE_CM and 2 * after.cm < before.cm
        if halved or abs(after.cm - before.cm) > GREAT_CHANGE_CM:
            yield Finding(
                "great",
                "warning",
                f"{before.title} changes from {show_cm(before.cm, TENTH)} cm to "
                f"{show_cm(after.cm, TENTH)} cm. "
                "Is the unit right?",
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
        key, section, _ = address.split(".")
        piece = result.after.size.piece(key)
        worked = sum(one.rows for one in piece.parted(section))
        base = sum(one.rows for one in result.regauged.piece(key).parted(section))
        if worked - base != rows and rows.denominator == 1 and int(rows) % 2:
            yield Finding(
                "rounded",
                "note",
                f"{piece.title}, {inside(piece.section(section).title)}: {abs(int(rows))} rows "
                f"were asked for, {abs(worked - base)} are worked, so that the count stays even.",
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
            way, deed = ("longer", "fewer") if deeper > 0 else ("shorter", "more")
            yield Finding(
                "length",
                "note",
                f"{piece.title}: with this {inside(base.sections[0].title)} the piece becomes "
                f"{show_cm(abs(deeper), TENTH)} cm {way}; work {rows} {deed} rows above it"
                f"{_alike(result, base)} to keep the length.",
                key,
            )


def _alike(result: Result, piece: Piece) -> str:
    """The pieces whose rows above the edge follow this one's, with the same edge."""
    others = [
        f"the {inside(one.title)}"
        for one in result.before.size.pieces
        if one.key != piece.key and one.key in result.wish.edges and _leads(result, one, piece)
    ]
    return f" and as many in {' and '.join(others)}" if others else ""


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
