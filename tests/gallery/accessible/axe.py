"""axe-core in the page: its violations, and what it could not decide by itself.

The script is handed to the page by the browser's own debugger, which the site's security policy
does not concern: the policy stays as visitors have it.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
OPTIONS = {
    "runOnly": {"type": "tag", "values": TAGS},
    "resultTypes": ["violations", "incomplete"],
}


@dataclass(frozen=True, order=True)
class Finding:
    """One rule on one element, with axe's reason."""

    rule: str
    element: str
    reason: str


def look(page: Page) -> tuple[list[Finding], list[Finding]]:
    """Violations, and what axe leaves to a person."""
    # Changed colours glide for a moment; what is looked at is where they end.
    page.evaluate("document.getAnimations().forEach(one => one.finish())")
    told = Axe().run(page, options=OPTIONS).response
    return list(_findings(told["violations"])), list(_findings(told["incomplete"]))


def _findings(rules: list[dict[str, Any]]) -> Iterator[Finding]:
    for rule in rules:
        for node in rule["nodes"]:
            checks = node["any"] + node["all"] + node["none"]
            reason = " ".join(check["message"] for check in checks)
            yield Finding(rule["id"], " ".join(map(str, node["target"])), reason)
