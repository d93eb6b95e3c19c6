"""What was changed, worked out before it is sent; a refusal names the alteration that caused it."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from django.utils.safestring import SafeString, mark_safe

from alterations.caption import caption
from alterations.cautions import Caution, closing
from alterations.drawing import drawing
from alterations.errors import AlterationsError
from alterations.finding import Finding
from alterations.findings import findings
from alterations.garmentcautions import cautions_of
from alterations.kinds import AnyAlteration
from alterations.lines import Line, lines, lines_of
from alterations.pattern import Pattern
from alterations.recalculate import Result
from alterations.records.store import Knitter, notes_of, recalculated
from alterations.units import ShownIn

MOST_DRAWINGS = 4


class RefusedError(Exception):
    """Changes the pattern cannot take; its text is the library's sentence."""

    def __init__(self, alteration: AnyAlteration | None, sentence: str) -> None:
        super().__init__(sentence)
        self.alteration = alteration


@dataclass(frozen=True)
class WorkedOut:
    """Base and made, the line for the film, the notes, what to look at twice, what to care for."""

    size_name: str
    caption: str
    lines: tuple[Line, ...]
    notes: tuple[str, ...]
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    drawings: tuple[SafeString, ...]
    of_each: tuple[tuple[AnyAlteration, tuple[Line, ...]], ...] = ()
    closing: str = field(default_factory=closing)


def work_out(
    pattern: Pattern,
    size_name: str,
    alterations: Sequence[AnyAlteration],
    knitter: Knitter,
    shown_in: ShownIn = "cm",
) -> WorkedOut:
    """Work the changes into the pattern; raises RefusedError where it cannot take them."""
    try:
        result = recalculated(pattern, size_name, alterations, knitter)
        found = findings(result)
    except AlterationsError as error:
        culprit = _culprit(pattern, size_name, alterations, knitter)
        raise RefusedError(culprit, str(error)) from error
    return WorkedOut(
        size_name=size_name,
        caption=caption(result),
        lines=lines(result, shown_in),
        notes=notes_of(alterations),
        findings=found,
        cautions=cautions_of(result),
        drawings=tuple(_drawings(result)),
        of_each=tuple((one, lines_of(result, one, shown_in)) for one in alterations),
    )


def _drawings(result: Result) -> list[SafeString]:
    """The pieces that look otherwise than in the pattern; the drawing escapes all it is given."""
    before, after = result.before.size.pieces, result.after.size.pieces
    changed = [new.key for old, new in zip(before, after, strict=True) if old != new]
    return [
        mark_safe(drawing(result, key))  # noqa: S308
        for key in changed[:MOST_DRAWINGS]
    ]


def _culprit(
    pattern: Pattern, size_name: str, alterations: Sequence[AnyAlteration], knitter: Knitter
) -> AnyAlteration | None:
    """The one that is refused even alone; where only all together are, the last one."""
    for one in alterations:
        try:
            recalculated(pattern, size_name, [one], knitter)
        except AlterationsError:
            return one
    return alterations[-1] if alterations else None
