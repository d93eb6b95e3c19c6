"""A form that came back says what is wrong, where and how to mend it; good news is said too."""

import pytest
from playwright.sync_api import Page, expect

from tests.gallery.accessible import measure
from tests.gallery.accessible.conftest import PHONE, At
from tests.gallery.accessible.views import FULL, View, after, fill, press, unfold

pytestmark = [pytest.mark.browser, pytest.mark.outside]

WRONG = ("filled", "too many words", "no size", "no title", "no file", "without a question")
CAME_BACK = [view for view in FULL if view.state.endswith(WRONG)]
NO_LENGTH = after(unfold, fill("#id_body_length_amount", "a bit"), press("Keep my changes"))
FOLDED = View("/mine/{hers}/change/", "sender", NO_LENGTH, "in a fold")


def came_back(at: At, view: View) -> Page:
    page = at(view.path, view.who, PHONE)
    view.do(page)
    expect(page.locator("[data-focus-first]")).to_be_focused()
    return page


@pytest.mark.parametrize("view", [*CAME_BACK, FOLDED], ids=str)
def test_each_mistake_is_listed_and_leads_to_its_field(at: At, view: View) -> None:
    page = came_back(at, view)
    # Of the steps one is shown; a line of the list opens its own (tests/test_front_door.py).
    page.evaluate("document.querySelectorAll('[data-step]').forEach((one) => one.hidden = false)")
    assert page.evaluate(measure.MISTAKES) == []


def test_a_wrong_password_is_told_at_once_and_not_which_half_was_wrong(at: At) -> None:
    [wrong] = [view for view in FULL if view.state == "wrong password"]
    told = came_back(at, wrong).get_by_role("alert")
    expect(told).to_have_text(
        "Name and password do not fit together. Check both; capital letters count."
    )


def test_what_was_done_is_said_as_a_status(at: At) -> None:
    page = at("/desk/films/{film under way}/", "teacher")
    expect(page.locator(".going").get_by_role("status")).to_contain_text("Part 4 of 9")
    page.goto(page.url.split("/desk")[0] + "/help/")
    # Every page has the place before anything is said in it, so that it is read out.
    expect(page.locator("main").get_by_role("status")).to_have_count(1)


LIST = """<div class="errors-on-top"><ul><li><a href="#a">Yarn <span>Say which.</span></a>
<li><a href="#b">Size <span>Choose one.</span></a></ul></div><input id=a>
<details><input id=b aria-invalid=true aria-describedby=c><p id=c>Choose one.</p></details>"""


def test_the_measure_would_find_something(blank: Page) -> None:
    blank.set_content(LIST)
    found = " ".join(blank.evaluate(measure.MISTAKES))
    wrong = ("has not the focus", "not announced", "#a", "not marked", "not described", "folded")
    assert [words for words in wrong if words not in found] == []
