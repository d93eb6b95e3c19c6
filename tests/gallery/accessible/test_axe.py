"""axe-core over every page and state: nothing wrong, and nothing left that nobody looked at."""

from typing import Any

import pytest
from playwright.sync_api import Page

from tests.gallery.accessible.axe import look
from tests.gallery.accessible.conftest import NARROW, WIDE, At, Site
from tests.gallery.accessible.views import EMPTY, FULL, ONCE, View

pytestmark = [pytest.mark.browser, pytest.mark.outside]

# How a page is looked at: window, what the person asks of her browser.
LOOKS: dict[str, tuple[tuple[int, int], dict[str, Any]]] = {
    "wide and light": (WIDE, {}),
    "320 px and dark": (NARROW, {"color_scheme": "dark"}),
}
USUAL = {"color_scheme": "light", "forced_colors": "none", "reduced_motion": "no-preference"}


def looked_at(at: At, view: View, site: Site) -> dict[str, list[Any]]:
    """The page as it comes and after a change of window and wishes."""
    page = at(view.path, view.who, site=site)
    view.do(page)
    found = {}
    for name, (size, wishes) in LOOKS.items():
        page.set_viewport_size({"width": size[0], "height": size[1]})
        page.emulate_media(**(USUAL | wishes))
        found[name] = look(page)
    return found


@pytest.mark.parametrize("view", FULL, ids=str)
def test_axe_finds_nothing(at: At, full: Site, view: View) -> None:
    assert looked_at(at, view, full) == {name: [] for name in LOOKS}


@pytest.mark.parametrize("view", EMPTY, ids=str)
def test_axe_finds_nothing_on_the_first_day(at: At, empty: Site, view: View) -> None:
    assert looked_at(at, view, empty) == {name: [] for name in LOOKS}


@pytest.mark.parametrize("view", ONCE, ids=str)
def test_axe_finds_nothing_with_forced_colours_and_less_motion(at: At, view: View) -> None:
    page = at(view.path, view.who)
    page.emulate_media(forced_colors="active", reduced_motion="reduce")
    view.do(page)
    # Every colour is the person's own then, and axe would read those that are not used.
    assert look(page, with_colours=False) == []


def test_axe_would_find_something(blank: Page) -> None:
    blank.set_content("<p style='color: #aaa'>pale</p><img src='a.png'><button></button>")
    # Each is wrong by its rule's own definition (dequeuniversity.com/rules/axe).
    wrong = {"button-name", "color-contrast", "document-title", "html-has-lang", "image-alt"}
    assert {found.rule for found in look(blank)} >= wrong
