"""On every page: help in the same place (WCAG 2.2, 3.2.6), words for every picture (1.1.1)."""

from typing import Any

import pytest

from tests.gallery.accessible.conftest import Site, Windows
from tests.gallery.accessible.views import FULL

pytestmark = [pytest.mark.browser, pytest.mark.outside]

MEASURES = {
    "help": """() => [...document.querySelectorAll("a[href$='/help/'], a[href^='mailto:teacher@']")]
        .filter((one) => !one.closest("main") && !one.hasAttribute("hreflang"))
        .map((one) => [one.closest("nav, footer").tagName, one.getAttribute("href")])
        .map(([place, href]) => `${place}: ${href.replace(/^\\/de\\//, "/")}`)""",
    "after main": "() => document.querySelector('main').nextElementSibling.tagName",
    "silent": """() => [...document.images]
        .filter((one) => !one.alt.trim() && !one.closest("template, [aria-hidden]"))
        .map((one) => one.outerHTML.slice(0, 120))""",
    # The cast's pictures all came as IMG_20260101_secret-place.jpg.
    "named by file": """() => [...document.images].map((one) => one.alt)
        .filter((alt) => /\\.(jpe?g|png|webp|heic|avif)|IMG_|secret-place/i.test(alt))""",
    "undescribed": """() => [...document.querySelectorAll("svg")]
        .filter((one) => !one.closest("[aria-hidden=true]"))
        .filter((one) => one.getAttribute("role") !== "img" || !one.querySelector("title"))
        .filter((one) => one.getAttribute("role") !== "group" || !one.getAttribute("aria-label"))
        .map((one) => one.outerHTML.slice(0, 120))""",
}
Found = dict[str, dict[str, Any]]


@pytest.fixture(scope="module")
def found(windows: Windows, full: Site) -> Found:
    """What each measure gives on each page, by the page's address."""
    told: Found = {name: {} for name in MEASURES}
    for path, who in sorted({(view.path, view.who) for view in FULL}):
        page = windows(full, who).new_page()
        page.goto(full.address(path))
        for name, measure in MEASURES.items():
            told[name][path] = page.evaluate(measure)
        page.close()
    return told


def test_help_is_in_the_head_and_before_contact_in_the_foot(found: Found) -> None:
    ways = ["NAV: /help/", "FOOTER: /help/", "FOOTER: mailto:teacher@example.org"]
    assert {path: told for path, told in found["help"].items() if told != ways} == {}
    assert set(found["after main"].values()) == {"FOOTER"}


def test_every_picture_and_drawing_has_words(found: Found) -> None:
    assert {path: told for path, told in found["silent"].items() if told} == {}
    assert {path: told for path, told in found["undescribed"].items() if told} == {}


def test_no_picture_is_called_by_its_files_name(found: Found) -> None:
    assert {path: told for path, told in found["named by file"].items() if told} == {}
