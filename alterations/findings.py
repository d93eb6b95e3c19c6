"""What deserves a second look in a result: given as data, never raised."""

from alterations.finding import ORDER, Finding, Severity
from alterations.fitfindings import fit_findings
from alterations.ownfindings import own_findings
from alterations.recalculate import Result
from alterations.sizefindings import size_findings
from alterations.yarnfindings import yarn_findings

__all__ = ["Finding", "Severity", "findings"]


def findings(result: Result) -> tuple[Finding, ...]:
    """Everything in a result that deserves a second look, the grave ones first."""
    found = [
        *fit_findings(result),
        *size_findings(result),
        *yarn_findings(result),
        *own_findings(result),
    ]
    return tuple(sorted(dict.fromkeys(found), key=lambda one: ORDER[one.severity]))
