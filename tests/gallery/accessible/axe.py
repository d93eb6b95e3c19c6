"""axe-core in the page: its violations, and what it could not decide by itself.

The script is handed to the page by the browser's own debugger, which the site's security policy
does not concern: the policy stays as visitors have it.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from axe_playwright_python.base import AXE_SCRIPT
from playwright.sync_api import Page

TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
COLOURS = "color-contrast"


@dataclass(frozen=True)
class LookedAt:
    """What axe leaves to a person, looked at by one: on which elements, and why it is right."""

    rule: str
    reason: str
    elements: str
    why: str


LOOKED_AT = [
    LookedAt(
        COLOURS,
        "background gradient",
        "select.form-select",
        "the gradient is the arrow, 1 rem from the edge; the words stand on the plain ground "
        "whose contrast tests/gallery/test_face.py works out (13.6 in the light, 14.5 in the dark)",
    ),
    LookedAt(
        COLOURS,
        "background gradient",
        "fieldset.section > legend",
        "the gradient is the rib stripe, 6 px at the bottom edge, below 0.9 rem of plain ground "
        "(walnut on card: 9.6 in the light, 10.2 in the dark)",
    ),
    LookedAt(
        COLOURS,
        "image node",
        "figure svg text.label",
        "ink on the card behind the drawing; test_words_in_a_drawing works out what its opacity "
        "leaves of the contrast",
    ),
    LookedAt(
        COLOURS,
        "overlapped by another element",
        "figure svg text.label",
        "overlapped by the unfilled outline of the piece, which is a line",
    ),
    LookedAt(
        COLOURS,
        "image node",
        ".part-picker text, .size-drawing text",
        "slate on the label's own ground (7.7 in the light, 10.4 in the dark), ink on the card",
    ),
    LookedAt(
        COLOURS,
        "overlapped by another element",
        ".part-picker text, .size-drawing text",
        "overlapped by a line of the drawing, or by the drawing's box, which is not filled",
    ),
    LookedAt(
        COLOURS,
        "partially obscured",
        "pre.scroll",
        "obscured by nothing: it is longer than its box and scrolls; ink on card",
    ),
    LookedAt(
        COLOURS,
        "only non-text characters",
        "[aria-hidden=true], td.tick",
        "arrows and boxes to tick, in text colours whose contrast test_face.py works out",
    ),
    LookedAt(
        "th-has-data-cells",
        "missing or empty",
        "table.numbers",
        "the headings of its groups (scope=rowgroup) have no cells beside them; each heads a "
        "table body of its own",
    ),
]


@dataclass(frozen=True, order=True)
class Finding:
    """One rule on one element, with axe's reason."""

    rule: str
    element: str
    reason: str


def look(page: Page, *, with_colours: bool = True) -> list[Finding]:
    """Violations, and whatever is left to a person that nobody has looked at."""
    options = {
        "runOnly": {"type": "tag", "values": TAGS},
        "resultTypes": ["violations", "incomplete"],
        "rules": {COLOURS: {"enabled": with_colours}},
    }
    # Changed colours glide for a moment; what is looked at is where they end.
    page.evaluate("document.getAnimations().forEach(one => one.finish())")
    if not page.evaluate("'axe' in window"):
        page.evaluate(AXE_SCRIPT)
    told = page.evaluate("options => axe.run(options)", options)
    left = [one for one in _findings(told["incomplete"]) if not _is_known(page, one)]
    return [*_findings(told["violations"]), *left]


def _findings(rules: list[dict[str, Any]]) -> Iterator[Finding]:
    for rule in rules:
        for node in rule["nodes"]:
            checks = node["any"] + node["all"] + node["none"]
            reason = " ".join(check["message"] for check in checks)
            yield Finding(rule["id"], " ".join(map(str, node["target"])), reason)


def _is_known(page: Page, found: Finding) -> bool:
    element = page.query_selector(found.element)
    return element is not None and any(
        element.evaluate("(it, known) => it.matches(known)", one.elements)
        for one in LOOKED_AT
        if one.rule == found.rule and one.reason in found.reason
    )
