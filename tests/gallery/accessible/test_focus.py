"""By Tab alone: everything is reached, nothing holds the focus, and it is always to be seen."""

import pytest
from playwright.sync_api import Page

from tests.gallery.accessible import measure
from tests.gallery.accessible.conftest import At
from tests.gallery.accessible.views import ONCE, View

pytestmark = [pytest.mark.browser, pytest.mark.outside]

LOW = (1280, 600)  # sticky bars take most of a low window
MOST = 220  # presses; only the pattern editor's table has more fields


def walked(page: Page, key: str) -> tuple[set[int], list[str]]:
    """Press the key until the page is left; the stops that were reached, what was wrong there."""
    reached: set[int] = set()
    wrong: list[str] = []
    last = -1
    for _ in range(MOST):
        page.keyboard.press(key)
        stop, trouble = page.evaluate(measure.FOCUS)
        if stop == -1 or (stop in reached and stop != last):
            break
        reached.add(stop)
        wrong += [trouble] if trouble else []
        last = stop
    return reached, wrong


@pytest.mark.parametrize("view", ONCE, ids=str)
def test_tab_reaches_everything_and_shows_where_it_is(at: At, view: View) -> None:
    page = at(view.path, view.who, LOW, reduced_motion="reduce")
    view.do(page)
    count = page.evaluate(measure.TAB_STOPS)
    page.evaluate("document.body.tabIndex = -1; document.body.focus()")  # before all others
    reached, wrong = walked(page, "Tab")
    assert wrong == []
    if len(reached) < MOST - 30:
        missed = sorted(set(range(count)) - reached)
        assert [page.evaluate(measure.NAME_OF_STOP, number) for number in missed] == []


@pytest.mark.parametrize("view", [view for view in ONCE if "change" in view.path], ids=str)
def test_going_back_the_focus_is_to_be_seen_too(at: At, view: View) -> None:
    page = at(view.path, view.who, LOW, reduced_motion="reduce")
    view.do(page)
    page.evaluate(measure.TAB_STOPS)
    page.locator(".site-foot a").last.focus()
    assert walked(page, "Shift+Tab")[1] == []


COVERED = """<style>b { position: fixed; inset: 0 }</style><a href=a>under</a><b></b>
<p style="position: relative; z-index: 1"><a href=c style="outline: 0">over</a>"""


def test_a_covered_thing_and_one_without_a_ring_would_be_found(blank: Page) -> None:
    blank.set_content(COVERED)
    blank.evaluate(measure.TAB_STOPS)
    assert walked(blank, "Tab")[1] == ["A  under: covered", "A  over: without a ring"]
