"""Help and contact stand in the same place and order on every page (WCAG 2.2, 3.2.6)."""

import pytest

from tests.gallery.accessible.conftest import At
from tests.gallery.accessible.views import FULL

pytestmark = [pytest.mark.browser, pytest.mark.outside]

PAGES = sorted({(view.path, view.who) for view in FULL})
WAYS = """() => [...document.querySelectorAll("a[href$='/help/'], a[href^='mailto:teacher@']")]
  .filter((one) => !one.closest("main"))
  .map((one) => `${one.closest("nav, footer").tagName}: ${one.getAttribute("href")}`)"""
LAST = "() => document.querySelector('main').nextElementSibling.tagName"


def test_help_is_in_the_head_and_help_before_contact_in_the_foot(at: At) -> None:
    for path, who in PAGES:
        page = at(path, who)
        ways = ["NAV: /help/", "FOOTER: /help/", "FOOTER: mailto:teacher@example.org"]
        assert (path, page.evaluate(WAYS), page.evaluate(LAST)) == (path, ways, "FOOTER")
        page.context.close()
