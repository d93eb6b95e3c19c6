"""What deserves a second look in a result: given as data, never raised."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from alterations.errors import AlterationsError, ShapingError
from alterations.follows import value_of
from alterations.measures import Measure
from alterations.panels import panels_of
from alterations.pattern import number_at, split_address
from alterations.recalculate import Result
from alterations.rounding import round_half_up
from alterations.stitches import schedule_of
from alterations.units import show_cm
from alterations.yarn import TIGHTNESS_BAND, loop_length_cm, tightness

Severity = Literal["note", "warning", "problem"]
MUCH_HEAVIER = Fraction(6, 5)  # 20 % more: common practice, no source
NOTICEABLE_CM = Fraction(2)
GREAT_CHANGE_CM = Fraction(30)


@dataclass(frozen=True)
class Finding:
    """One thing to look at: a short code, how grave it is, and a sentence."""

    code: str
    severity: Severity
    sentence: str


def findings(result: Result) -> tuple[Finding, ...]:
    """Everything in a result that deserves a second look, the grave ones first."""
    order = {"problem": 0, "warning": 1, "note": 2}
    found = [
        *_bed(result),
        *_shaping(result),
        *_following(result),
        *_kept_counts(result),
        *_weight(result),
        *_fabric(result),
        *_great(result),
        *_ball(result),
    ]
    return tuple(sorted(found, key=lambda one: order[one.severity]))


def _bed(result: Result) -> Iterator[Finding]:
    machine = result.pattern.machine
    if machine is None:
        return
    for piece in result.after.size.pieces:
        widest = max(panel.widest for panel in panels_of(piece))
        if widest > machine.needles:
            yield Finding(
                "bed",
                "warning",
                f"{piece.title}: {widest} stitches do not fit on {machine.needles} needles. Work "
                "it in two halves with a seam, on a longer bed, or by hand.",
            )


def _shaping(result: Result) -> Iterator[Finding]:
    for piece in result.after.size.pieces:
        for section in piece.sections:
            try:
                schedule_of(section)
            except ShapingError as error:
                yield Finding(
                    "shaping", "problem", f"{piece.title}, {section.title.lower()}: {error}"
                )


def _following(result: Result) -> Iterator[Finding]:
    """Numbers that no longer fit those they follow by more than one."""
    size, gauge = result.after.size, result.after.gauge
    for follow in result.pattern.follows:
        try:
            wanted = value_of(follow, size, gauge)
        except AlterationsError:
            continue
        there = number_at(size, follow.what)
        allowed = 2 if follow.what.endswith("rows") or follow.rule == "neck edge" else 1
        # At another gauge with the counts kept, everything stays in proportion as it was.
        if abs(wanted - there) > allowed and not result.keeps_counts:
            key, section, what = split_address(follow.what)
            piece = size.piece(key)
            yield Finding(
                "fit",
                "warning",
                f"{piece.title}, {piece.section(section).title.lower()}: {there} {what} no longer "
                f"fit the pieces they are joined to; {wanted} would.",
            )


def _kept_counts(result: Result) -> Iterator[Finding]:
    if not result.keeps_counts:
        return
    for before, after in zip(result.before.measures, result.after.measures, strict=True):
        change = after.cm - before.cm
        if abs(change) >= NOTICEABLE_CM and _is_first(result, before):
            sign = "+" if change > 0 else "−"
            tenth = Fraction(1, 10)
            yield Finding(
                "size",
                "warning",
                f"{before.title}: {show_cm(after.cm, tenth)} cm instead of "
                f"{show_cm(before.cm, tenth)} cm ({sign}{show_cm(abs(change), tenth)} cm), because "
                "the counts were kept at another gauge. Another size may give the wanted width.",
            )


def _is_first(result: Result, measure: Measure) -> bool:
    """The first measurement a pattern names is the one it is chosen by."""
    return measure.key == result.before.measures[0].key


def _weight(result: Result) -> Iterator[Finding]:
    before, after = result.before.amount.grams, result.after.amount.grams
    if before and after > MUCH_HEAVIER * before:
        more = round_half_up((after / before - 1) * 100)
        yield Finding(
            "heavy",
            "warning",
            f"The garment becomes {more} % heavier ({round_half_up(after)} g instead of "
            f"{round_half_up(before)} g) and may grow in length when worn.",
        )


def _fabric(result: Result) -> Iterator[Finding]:
    gauge = result.after.gauge
    if not gauge.looks_relaxed:
        yield Finding(
            "swatch",
            "note",
            f"{gauge}: rows and stitches are far from the usual ratio of plain knitting (1.2 to "
            "1.5). Was the swatch washed and rested?",
        )
    if result.swap is None or result.swap.tex is None:
        return
    k = tightness(result.swap.tex, loop_length_cm(gauge))
    low, high = TIGHTNESS_BAND
    if not low <= k <= high:
        loose = "net-like" if k < low else "very firm and hard to knit"
        yield Finding(
            "tightness", "warning", f"This yarn at this gauge gives a fabric that is {loose}."
        )


def _great(result: Result) -> Iterator[Finding]:
    for before, after in zip(result.before.measures, result.after.measures, strict=True):
        if abs(after.cm - before.cm) > GREAT_CHANGE_CM:
            yield Finding(
                "great",
                "warning",
                f"{before.title} changes from {show_cm(before.cm)} cm to {show_cm(after.cm)} cm. "
                "Is the unit right?",
            )


def _ball(result: Result) -> Iterator[Finding]:
    swap = result.swap
    if swap is None or (swap.ball_grams is None) == (swap.ball_metres is None):
        return
    missing = "grams" if swap.ball_grams is None else "metres"
    yield Finding(
        "ball",
        "note",
        f"A ball of {swap.name} needs its {missing} too; until then balls and weight are "
        f"worked out with a ball of {result.pattern.yarn.name}.",
    )
