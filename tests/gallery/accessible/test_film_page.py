"""The film in its player, and in words for those who cannot see it (WCAG 2.2, 1.2 and 2.2.2)."""

import pytest
from playwright.sync_api import Page, expect

from tests.gallery.accessible.conftest import At
from tests.gallery.accessible.views import FULL

pytestmark = [pytest.mark.browser, pytest.mark.outside]

# Two cards, and two garments with two pictures each.
SLIDES = 6
CUES = """() => new Promise((done) => {
  const track = document.querySelector("track");
  track.addEventListener("load", () => done([...track.track.cues].map((cue) => cue.text)));
  track.track.mode = "hidden";
})"""


@pytest.fixture
def film(at: At) -> Page:
    return at("/desk/films/{film}/", "teacher")


def test_the_player_has_controls_a_name_and_waits_to_be_started(film: Page) -> None:
    player = film.get_by_label("The closing film").and_(film.locator("video"))
    expect(player).to_have_attribute("controls", "")
    assert player.evaluate("it => [it.autoplay, it.loop, it.paused]") == [False, False, True]


def test_the_player_carries_captions_for_every_slide(film: Page) -> None:
    expect(film.locator("track[kind=captions]")).to_have_attribute("label", "Captions")
    cues = film.evaluate(CUES)
    assert len(cues) == SLIDES
    assert sum("Tamsin Quillfeather" in cue for cue in cues) == 4


def test_the_film_is_told_in_words_with_what_each_picture_shows(film: Page) -> None:
    film.get_by_role("link", name="The film in words").click()
    told = film.locator("#words ~ ol > li").all_inner_texts()
    assert len(told) == SLIDES
    assert told[0].startswith("0:00 The closing film\nOstrimane Tunic A series by Odalys Brimworth")
    pictures = [words for words in told if "Front, worn over a shirt" in words]
    assert len(pictures) == 4
    assert all("Size 4" in words and "Tamsin Quillfeather" in words for words in pictures)


def test_of_what_was_taken_back_the_film_in_words_tells_nothing(at: At) -> None:
    page = at("/desk/films/{closed film}/", "teacher")
    gone = page.locator("#words ~ ol > li", has_text="taken back").all_inner_texts()
    assert len(gone) == 1
    assert not any(words in gone[0] for words in ("Size 4", "Front, worn", "Tamsin"))


def test_no_page_starts_anything_by_itself(at: At) -> None:
    for path, who in sorted({(view.path, view.who) for view in FULL if "film" in view.path}):
        page = at(path, who)
        assert page.locator("[autoplay], marquee, audio").count() == 0
