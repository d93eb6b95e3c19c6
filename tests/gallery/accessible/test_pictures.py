"""No picture goes without words, and none is called by its file's name (WCAG 2.2, 1.1.1)."""

import pytest

from tests.gallery.accessible.conftest import At
from tests.gallery.accessible.views import FULL

pytestmark = [pytest.mark.browser, pytest.mark.outside]

PAGES = sorted({(view.path, view.who) for view in FULL})
SILENT = """() => [...document.images]
  .filter((one) => !one.closest("template") && !one.alt.trim() && !one.closest("[aria-hidden]"))
  .map((one) => one.outerHTML.slice(0, 120))"""
# The cast's pictures all came as IMG_20260101_secret-place.jpg.
NAMED = """() => [...document.images].map((one) => one.alt)
  .filter((alt) => /\\.(jpe?g|png|webp|heic|avif)|IMG_|secret-place/i.test(alt))"""
DRAWN = """() => [...document.querySelectorAll("svg")].filter((one) =>
  one.getAttribute("aria-hidden") !== "true" && !one.closest("[aria-hidden=true]") &&
  !(one.getAttribute("role") === "img" && (one.querySelector("title") || one.ariaLabel ||
    one.getAttribute("aria-labelledby")))).map((one) => one.outerHTML.slice(0, 120))"""


def test_every_picture_and_drawing_has_words(at: At) -> None:
    for path, who in PAGES:
        page = at(path, who)
        assert (path, *map(page.evaluate, (SILENT, NAMED, DRAWN))) == (path, [], [], [])
        page.context.close()
