"""Which numbers of a garment changed, each with why: as data, for statistics and other programs."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from alterations.bells import BELL
from alterations.kinds import AnyAlteration
from alterations.pairing import paired
from alterations.pattern import Section
from alterations.recalculate import Result
from alterations.reshape import has_moved
from alterations.rounding import round_half_up
from alterations.saying import gettext as _
from alterations.wish import Wish
from alterations.wishes import wish_of

Unit = Literal["stitches", "rows", "cm", "m", "balls", "g", "panels"]
# entered: somebody asked for it; follows: a rule of the pattern; gauge: counted at another gauge;
# edge: cast on to the edge's repeat; shaped: goes with other numbers of its piece; counted: worked
# out from all stitches, as measurements and yarn are.
Reason = Literal["entered", "follows", "gauge", "edge", "shaped", "counted"]


@dataclass(frozen=True)
class Change:
    """One number before and after: where it stands (part), what it is called (measure), its unit.

    part is an address like "back.body", the key of a measurement, or "yarn"; follows_from holds the
    addresses of the changed numbers it was worked out from.
    """

    part: str
    measure: str
    unit: Unit
    before: Fraction
    after: Fraction
    reason: Reason
    follows_from: tuple[str, ...] = ()

    @property
    def delta(self) -> Fraction:
        """How much more; below zero, how much less."""
        return self.after - self.before


def changes(result: Result) -> tuple[Change, ...]:
    """Every changed number: what was entered, in the order it was entered; then stitches and rows
    piece by piece, measurements in cm, yarn in metres, balls and grams (both to the whole)."""
    entered = entered_numbers(result)
    counted = [change for change in _counts(result, entered) if change.delta]
    asked = [change for change in counted if change.reason == "entered"]
    asked.sort(key=lambda change: entered.index(f"{change.part}.{change.unit}"))
    rest = [change for change in counted if change.reason != "entered"]
    others = (change for change in (*_measures(result), *_yarn(result)) if change.delta)
    return (*asked, *rest, *others)


def entered_numbers(result: Result) -> list[str]:
    """The addresses of the numbers somebody asked for ("back.body.rows"), each once, in the order
    of the alterations."""
    found: list[str] = []
    for one in result.alterations:
        found += numbers_asked(result, one)
    return list(dict.fromkeys(found))


def numbers_asked(result: Result, alteration: AnyAlteration) -> tuple[str, ...]:
    """The addresses of the numbers one alteration asks for."""
    wish = wish_of(result.pattern, result.before.size, [alteration], result.gauges)
    return tuple(_numbers_of(wish, result))


def _numbers_of(wish: Wish, result: Result) -> Iterator[str]:
    yield from (f"{address}.rows" for address in wish.longer)
    yield from (f"{address}.stitches" for address in (*wish.widths, *wish.wider))
    for key in wish.edges:
        yield f"{key}.{result.before.size.piece(key).sections[0].key}.rows"
    yield from (f"{address.split('.')[0]}.{BELL}.rows" for address in wish.bells)
    yield from (f"{key}.panels" for key in wish.panels)


def _counts(result: Result, entered: list[str]) -> Iterator[Change]:
    before, after = result.before.size, result.after.size
    for old_piece, new_piece in zip(before.pieces, after.pieces, strict=True):
        key = new_piece.key
        if old_piece.panels != new_piece.panels:
            panels = (Fraction(old_piece.panels), Fraction(new_piece.panels))
            yield Change(key, new_piece.title, "panels", *panels, "entered")
        for index, (old, new) in enumerate(paired(old_piece, new_piece)):
            for change in _numbers(f"{key}.{new.key}", old, new, is_first=index == 0):
                yield _with_reason(result, change, entered, is_edge=index == 0)


def _numbers(part: str, old: Section, new: Section, *, is_first: bool) -> Iterator[Change]:
    """The stitches a piece is cast on with or a section ends with, and its rows."""
    if is_first:
        yield _count(part, new, "stitches", old.start, new.start)
    elif new.shape != "straight":
        yield _count(part, new, "stitches", old.end, new.end)
    yield _count(part, new, "rows", old.rows, new.rows)


def _count(
    part: str, section: Section, unit: Literal["stitches", "rows"], before: int, after: int
) -> Change:
    return Change(part, section.title, unit, Fraction(before), Fraction(after), "shaped")


def _with_reason(result: Result, change: Change, entered: list[str], *, is_edge: bool) -> Change:
    address = f"{change.part}.{change.unit}"
    sources = _sources(result, address)
    reason: Reason = "shaped"
    if address in entered:
        reason = "entered"
    elif sources:
        reason = "follows"
    elif not result.keeps_counts and not result.before.gauge.same_fabric(result.after.gauge):
        reason = "gauge"
    elif is_edge and change.unit == "stitches":
        reason = "edge"
    return replace(change, reason=reason, follows_from=sources)


def _sources(result: Result, address: str) -> tuple[str, ...]:
    """The changed numbers this one follows by a rule of the pattern."""
    before, after = result.before.size, result.after.size
    rule = next((one for one in result.pattern.follows if one.what == address), None)
    of = rule.of if rule else ()
    return tuple(source for source in of if has_moved(source, before, after))


def _measures(result: Result) -> Iterator[Change]:
    for old, new in zip(result.before.measures, result.after.measures, strict=True):
        yield Change(old.key, old.title, "cm", old.cm, new.cm, "counted")


def _yarn(result: Result) -> Iterator[Change]:
    old, new = result.before.amount, result.after.amount
    amounts: tuple[tuple[str, Unit, int, int], ...] = (
        (_("Metres"), "m", old.metres, new.metres),
        (_("Balls"), "balls", old.balls, new.balls),
        (_("Weight"), "g", round_half_up(old.grams), round_half_up(new.grams)),
    )
    told = amounts if new.is_ball_known else amounts[:1]
    for title, unit, before, after in told:
        yield Change("yarn", title, unit, Fraction(before), Fraction(after), "counted")
