"""Whole ways by Tab, Enter and Space alone; nothing has to be dragged."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from tests.gallery.accessible.conftest import At, Site
from tests.gallery.accessible.views import OPEN

pytestmark = [pytest.mark.browser, pytest.mark.outside]

MOST = 150  # presses of Tab
NAME = """() => {
  const one = document.activeElement;
  return (one.labels?.[0] ?? one).textContent.replace(/\\s+/g, " ").trim();
}"""
At_ = Callable[[str, str], Page]


@pytest.fixture
def keys(at: At, changing: Site) -> At_:
    """Open a page of a site that may be changed."""
    return lambda path, who: at(path, who, site=changing, reduced_motion="reduce")


def tab_to(page: Page, words: str) -> None:
    """Tab until what has the focus is called so."""
    for _ in range(MOST):
        page.keyboard.press("Tab")
        if words in page.evaluate(NAME):
            return
    pytest.fail(f"Tab does not reach “{words}”.")


def press(page: Page, words: str, key: str = "Enter") -> None:
    """Reach something by Tab and press it; the next page is there afterwards."""
    tab_to(page, words)
    with page.expect_navigation():
        page.keyboard.press(key)


def order(page: Page) -> list[str | None]:
    return [slide.get_attribute("id") for slide in page.locator(".storyboard > li").all()]


def test_a_slide_is_moved_by_one_press(keys: At_) -> None:
    page = keys("/desk/albums/{album}/", "teacher")
    before = order(page)
    press(page, "Later (slide 2)")
    assert order(page) == [before[0], before[2], before[1], *before[3:]]
    press(page, "Earlier (slide 3)", "Space")
    assert order(page) == before


def test_a_slide_is_moved_to_a_place_that_is_typed(keys: At_) -> None:
    page = keys("/desk/albums/{album}/", "teacher")
    before = order(page)
    tab_to(page, "Caption, place of slide 2")
    page.keyboard.press("Enter")
    tab_to(page, "Move to place")
    page.keyboard.press("Control+a")
    page.keyboard.type("4")
    with page.expect_navigation():
        page.keyboard.press("Enter")
    assert order(page) == [before[0], *before[2:4], before[1], *before[4:]]


def test_a_slide_is_taken_out_and_put_back(keys: At_) -> None:
    page = keys("/desk/albums/{album}/", "teacher")
    tab_to(page, "of slide 3")
    page.keyboard.press("Space")
    press(page, "Take out of the film")
    expect(page.locator(".slide-left-out")).to_have_count(1)
    press(page, "Put back", "Space")
    expect(page.locator(".slide-left-out")).to_have_count(0)


def test_the_film_is_asked_for(keys: At_) -> None:
    page = keys("/desk/albums/{album}/", "teacher")
    press(page, "Make the film", "Space")
    expect(page.locator("#film-progress")).to_contain_text("Waiting for its turn")


def test_a_garment_is_approved_from_the_desk(keys: At_, changing: Site) -> None:
    page = keys("/desk/garments/{waiting}/", "teacher")
    press(page, "Approve all that waits", "Space")
    expect(page.get_by_role("button", name="Approve all that waits")).to_have_count(0)
    expect(page.locator(".verdict .standing").first).to_contain_text("Approved")


def test_a_question_is_asked_with_its_words(keys: At_) -> None:
    page = keys("/desk/garments/{unnamed}/", "teacher")
    tab_to(page, "A note to its knitter")
    page.keyboard.type("Which yarn was it?")
    press(page, "Ask")
    expect(page.locator(".standing").first).to_contain_text("You asked its knitter")


def test_somebody_in_a_picture_has_it_hidden(keys: At_) -> None:
    page = keys("/garments/{shown}/", "")
    press(page, "This picture shows me")
    tab_to(page, "Anything the teacher should know")
    page.keyboard.type("Second from the left.")
    press(page, "Hide this picture", "Space")
    expect(page.get_by_role("heading", level=1)).to_contain_text("It is hidden now")


def test_a_guardian_says_yes(keys: At_) -> None:
    page = keys("/guardian/{young}/", "guardian")
    press(page, "Yes, I am the parent or guardian", "Space")
    expect(page.locator("main").get_by_role("status").first).to_contain_text("Kept")


def test_one_permission_and_then_everything_is_taken_back(keys: At_) -> None:
    page = keys("/mine/{hers}/", "sender")
    press(page, "No longer: ", "Space")
    expect(page.get_by_role("button", name="Yes, I allow this")).to_have_count(1)
    press(page, "Take everything back")
    press(page, "Yes, take everything back", "Space")
    expect(page.locator("main").get_by_role("status").first).to_contain_text("taken back")
    expect(page.get_by_role("button", name="Yes, I allow this")).to_have_count(4)


def test_pictures_are_chosen_by_a_button(keys: At_) -> None:
    page = keys(f"{OPEN}send/", "")
    page.on("filechooser", lambda chooser: None)  # known to the browser before the key is pressed
    for _ in range(MOST):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.type === 'file'"):
            break
    with page.expect_file_chooser() as choosing:
        page.keyboard.press("Space")
    assert choosing.value.is_multiple()
