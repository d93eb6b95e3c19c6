"""axe-core over every page and state: nothing wrong, and nothing left that nobody looked at."""

from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from tests.gallery.accessible.axe import look
from tests.gallery.accessible.conftest import NARROW, WIDE, Site, window_of
from tests.gallery.accessible.views import EMPTY, FULL, View

pytestmark = [pytest.mark.browser, pytest.mark.outside]

# How a page is looked at: window, what the person asks of her browser, whether axe judges colours.
# With forced colours every colour is the person's own and axe reads the ones that are not used.
LOOKS: dict[str, tuple[tuple[int, int], dict[str, Any], bool]] = {
    "wide and light": (WIDE, {}, True),
    "320 px and dark": (NARROW, {"color_scheme": "dark"}, True),
    "forced colours, less motion": (
        WIDE,
        {"forced_colors": "active", "reduced_motion": "reduce"},
        False,
    ),
}
USUAL = {"color_scheme": "light", "forced_colors": "none", "reduced_motion": "no-preference"}


def looked_at(browser: Browser, site: Site, view: View) -> dict[str, list[Any]]:
    """The page as it comes and after each change of window and wishes."""
    found = {}
    with window_of(browser, site, view.who) as window:
        page = window.new_page()
        page.goto(site.address(view.path))
        view.do(page)
        for name, (size, wishes, with_colours) in LOOKS.items():
            page.set_viewport_size({"width": size[0], "height": size[1]})
            page.emulate_media(**(USUAL | wishes))
            found[name] = look(page, with_colours=with_colours)
    return found


@pytest.mark.parametrize("view", FULL, ids=str)
def test_axe_finds_nothing(browser: Browser, full: Site, view: View) -> None:
    assert looked_at(browser, full, view) == {name: [] for name in LOOKS}


@pytest.mark.parametrize("view", EMPTY, ids=str)
def test_axe_finds_nothing_on_the_first_day(browser: Browser, empty: Site, view: View) -> None:
    assert looked_at(browser, empty, view) == {name: [] for name in LOOKS}


def test_axe_would_find_something(blank: Page) -> None:
    blank.set_content("<p style='color: #aaa'>pale</p><img src='a.png'><button></button>")
    # Each is wrong by its rule's own definition (dequeuniversity.com/rules/axe).
    wrong = {"button-name", "color-contrast", "document-title", "html-has-lang", "image-alt"}
    assert {found.rule for found in look(blank)} >= wrong
