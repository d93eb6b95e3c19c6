"""What was changed, worked out before it is sent; a refusal names the kind that caused it."""

from collections.abc import Sequence
from dataclasses import dataclass

from alterations.errors import AlterationsError
from alterations.findings import findings
from alterations.gauge import Gauge
from alterations.kinds import AnyAlteration, FreeNote
from alterations.lines import Line, lines
from alterations.pattern import Pattern
from alterations.records.store import recalculated


class RefusedError(Exception):
    """Changes the pattern cannot take; its text is the library's sentence."""

    def __init__(self, kind: str, sentence: str) -> None:
        super().__init__(sentence)
        self.kind = kind


@dataclass(frozen=True)
class WorkedOut:
    """Base and made, the notes in her own words, what deserves a second look."""

    size_name: str
    lines: tuple[Line, ...]
    notes: tuple[str, ...]
    findings: tuple[str, ...]


def work_out(
    pattern: Pattern, size_name: str, alterations: Sequence[AnyAlteration], gauge: Gauge | None
) -> WorkedOut:
    """Work the changes into the pattern; raises RefusedError where it cannot take them."""
    try:
        result = recalculated(pattern, size_name, alterations, gauge)
    except AlterationsError as error:
        kind = _culprit(pattern, size_name, alterations, gauge)
        raise RefusedError(kind, str(error)) from error
    return WorkedOut(
        size_name=size_name,
        lines=lines(result),
        notes=tuple(one.text for one in alterations if isinstance(one, FreeNote)),
        findings=tuple(finding.sentence for finding in findings(result)),
    )


def _culprit(
    pattern: Pattern, size_name: str, alterations: Sequence[AnyAlteration], gauge: Gauge | None
) -> str:
    """The kind that is refused even alone; where only all together are, the last one."""
    for one in alterations:
        try:
            recalculated(pattern, size_name, [one], gauge)
        except AlterationsError:
            return one.kind
    return alterations[-1].kind if alterations else ""
