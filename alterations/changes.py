"""Which numbers of a garment changed, each with why: as data, for statistics and other programs."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from alterations.kinds import BodyLength, SleeveLength, SleeveWidth
from alterations.pattern import Section
from alterations.recalculate import Result
from alterations.reshape import has_moved
from alterations.rounding import round_half_up
from alterations.wishes import BODY, SLEEVE, WRIST

Unit = Literal["stitches", "rows", "cm", "m", "balls", "g"]
# entered: somebody asked for it; follows: a rule of the pattern; gauge: counted at another gauge;
# edge: cast on to the edge's repeat; shaped: goes with other numbers of its piece; counted: worked
# out from all stitches, as measurements and yarn are.
Reason = Literal["entered", "follows", "gauge", "edge", "shaped", "counted"]

PARTS = {BodyLength: BODY, SleeveLength: SLEEVE, SleeveWidth: WRIST}


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
    counted = [change for change in _counts(result) if change.delta]
    order = _entered_parts(result)
    asked = [(order.index(part), change) for part, change in _asked(result, counted)]
    asked.sort(key=lambda pair: pair[0])
    rest = [change for change in counted if change.reason != "entered"]
    others = (change for change in (*_measures(result), *_yarn(result)) if change.delta)
    return (*(change for _, change in asked), *rest, *others)


def _entered_parts(result: Result) -> list[str]:
    """What a person calls the parts she changed, each once, in the order of her entries."""
    parts = [PARTS[type(one)] for one in result.alterations if type(one) in PARTS]
    return list(dict.fromkeys(parts))


def _asked(result: Result, counted: list[Change]) -> Iterator[tuple[str, Change]]:
    """What was entered, with the name of its part."""
    for change in counted:
        if change.reason == "entered":
            piece, _, section = change.part.partition(".")
            yield result.after.size.piece(piece).section(section).part, change


def _counts(result: Result) -> Iterator[Change]:
    before, after = result.before.size, result.after.size
    for old_piece, new_piece in zip(before.pieces, after.pieces, strict=True):
        pairs = zip(old_piece.sections, new_piece.sections, strict=True)
        for index, (old, new) in enumerate(pairs):
            part = f"{old_piece.key}.{old.key}"
            if index == 0:
                yield _count(result, old, part, "stitches", (old.start, new.start), is_edge=True)
            elif old.shape != "straight":
                yield _count(result, old, part, "stitches", (old.end, new.end))
            yield _count(result, old, part, "rows", (old.rows, new.rows))


def _count(
    result: Result,
    section: Section,
    part: str,
    unit: Literal["stitches", "rows"],
    numbers: tuple[int, int],
    *,
    is_edge: bool = False,
) -> Change:
    sources = _sources(result, f"{part}.{unit}")
    reason: Reason = "shaped"
    if sources:
        reason = "follows"
    elif _was_entered(result, section, unit):
        reason = "entered"
    elif not result.keeps_counts and not result.before.gauge.same_fabric(result.after.gauge):
        reason = "gauge"
    elif is_edge:
        reason = "edge"
    before, after = map(Fraction, numbers)
    return Change(part, section.title, unit, before, after, reason, sources)


def _sources(result: Result, address: str) -> tuple[str, ...]:
    """The changed numbers this one follows by a rule of the pattern."""
    before, after = result.before.size, result.after.size
    rule = next((one for one in result.pattern.follows if one.what == address), None)
    of = rule.of if rule else ()
    return tuple(source for source in of if has_moved(source, before, after))


def _was_entered(result: Result, section: Section, unit: str) -> bool:
    wanted = "stitches" if section.part == WRIST else "rows"
    return unit == wanted and section.part in _entered_parts(result)


def _measures(result: Result) -> Iterator[Change]:
    for old, new in zip(result.before.measures, result.after.measures, strict=True):
        yield Change(old.key, old.title, "cm", old.cm, new.cm, "counted")


def _yarn(result: Result) -> Iterator[Change]:
    old, new = result.before.amount, result.after.amount
    amounts: tuple[tuple[str, Unit, int, int], ...] = (
        ("Metres", "m", old.metres, new.metres),
        ("Balls", "balls", old.balls, new.balls),
        ("Weight", "g", round_half_up(old.grams), round_half_up(new.grams)),
    )
    for title, unit, before, after in amounts:
        yield Change("yarn", title, unit, Fraction(before), Fraction(after), "counted")
