"""On a phone, turned, at 400 %, with wide text: nothing lost, everything large enough to press."""

import pytest
from playwright.sync_api import Page

from tests.gallery.accessible import measure
from tests.gallery.accessible.conftest import PHONE, At
from tests.gallery.accessible.views import FULL, View

pytestmark = [pytest.mark.browser, pytest.mark.outside]

THUMB = 44  # CSS pixels (WCAG 2.2, 2.5.5); 2.5.8's 24 is asked by axe as well
# 320 px is 1280 px at 400 %; a phone upright and turned; a low window.
WINDOWS = {"320 px": (320, 640), "turned": (640, 320), "low": (1280, 400)}


@pytest.mark.parametrize("view", FULL, ids=str)
def test_nothing_is_too_small_or_lost(at: At, view: View) -> None:
    # Our security policy would refuse the style sheet of 1.4.12, so it is off for this window.
    page = at(view.path, view.who, PHONE, bypass_csp=True, has_touch=True)
    view.do(page)
    found = {"too small for a thumb": page.evaluate(measure.SMALL_TARGETS, THUMB)}
    found["moving for long"] = page.evaluate(measure.LONG_MOTION)
    for name, (width, height) in WINDOWS.items():
        page.set_viewport_size({"width": width, "height": height})
        found[name] = page.evaluate(measure.SIDEWAYS)
    page.set_viewport_size({"width": 320, "height": 640})
    page.add_style_tag(content=measure.TEXT_SPACING)
    found["with wide text"] = page.evaluate(measure.SIDEWAYS)
    page.emulate_media(reduced_motion="reduce")
    found["moving where less is asked for"] = page.evaluate(measure.MOTION)
    assert found == {name: [] for name in found}


SMALL = """<main tabindex=-1><p>Read <a href=a>this</a> first.</p><p><a href=b>alone</a></p>
<button style='height:30px'>low</button><input type=hidden><p style='width:200px; height:1em;
overflow:hidden'>More words than there is room for in this box</p>
<div style='width:900px; transition: color 1s'>wide</div></main>"""


def test_the_measures_would_find_something(blank: Page) -> None:
    blank.set_content(SMALL)
    small = blank.evaluate(measure.SMALL_TARGETS, THUMB)
    assert [one.split(":")[0] for one in small] == ["A alone", "BUTTON low"]
    page, box = blank.evaluate(measure.SIDEWAYS)
    assert (page.split(":")[0], box) == ("the page", "P.: cut off")
    assert blank.evaluate(measure.LONG_MOTION) == ["DIV.: 1s"]
