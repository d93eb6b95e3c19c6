"""What a plan refuses, in a sentence, and that it survives being written down."""

from dataclasses import replace
from pathlib import Path

import pytest

from gallery.album.film import planfile
from gallery.album.film.check import doubts, problems
from gallery.album.film.errors import FilmError
from gallery.album.film.plan import Card, FilmPlan, Music, PhotoSlide


def test_a_plan_without_slides_is_refused_in_a_sentence():
    assert problems(FilmPlan()) == [
        "The film has no slides: put at least one photo into the album."
    ]


def test_a_missing_photo_is_refused_and_its_slide_is_named(plan):
    plan.slides[1].photo.unlink()
    assert problems(plan) == ["Slide 2: A photo of the film is gone: take its slide out."]


def test_a_file_that_is_no_jpeg_is_refused(plan):
    plan.slides[1].photo.write_bytes(b"ffconcat version 1.0\n")
    assert "not a JPEG picture" in problems(plan)[0]


def test_a_caption_of_two_thousand_characters_is_refused_never_clipped(plan, slide):
    long = replace(plan, slides=(slide(1, caption="long sleeves " * 154),))
    assert "shorten it" in problems(long)[0]


def test_a_name_of_a_hundred_letters_fits(plan, slide):
    assert problems(replace(plan, slides=(slide(1, credit="Wrenna Ødvarsdottir " * 5),))) == []


def test_a_name_of_a_thousand_letters_is_refused(plan, slide):
    assert "shorten it" in problems(replace(plan, slides=(slide(1, credit="W" * 1000),)))[0]


def test_a_card_with_more_lines_than_fit_is_refused(plan):
    full = replace(plan, slides=(Card("Thanks", ("Wrenna Quist",) * 80, "thanks"),))
    assert "two cards" in problems(full)[0]


def test_a_thanks_card_for_thirty_names_fits(plan):
    card = Card("With thanks", tuple(f"Wrenna Quist {n}" for n in range(30)), "thanks")
    assert problems(replace(plan, slides=(card,))) == []


def test_a_caption_of_three_lines_fits(plan, slide):
    three = "Size 4, body five centimetres longer, sleeves as written, and " * 3
    assert problems(replace(plan, slides=(slide(1, caption=three[:170]),))) == []


@pytest.mark.parametrize("text", ["שלום", "مرحبا", "tunic 🧶 done"])
def test_letters_the_typeface_lacks_are_reported_not_refused(plan, slide, text):
    odd = replace(plan, slides=(slide(1, caption=text),))
    assert problems(odd) == []
    assert "Slide 1: the film's typeface has no sign for" in doubts(odd)[0]


def test_western_and_eastern_european_letters_are_all_there(plan, slide):
    name = "Ødvar Łęczyń, Ğülşen Čapková, Ελένη, Жанна – × ½ “” ’ … −"
    assert doubts(replace(plan, slides=(slide(1, credit=name),))) == []


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"fade_seconds": 0.2}, "flashes"),
        ({"fps": 31}, "frames a second"),
        ({"width": 321}, "even"),
        ({"look": "neon"}, "looks"),
        ({"fade_seconds": 0.8}, "two fades"),
    ],
)
def test_a_plan_with_an_impossible_value_is_refused_in_a_sentence(plan, change, word):
    with pytest.raises(FilmError, match=word):
        replace(plan, **change)


def test_a_shot_shorter_than_a_second_is_refused(slide):
    with pytest.raises(FilmError, match="Change its length"):
        slide(1, seconds=0.9)


def test_a_focus_outside_the_photo_is_refused():
    with pytest.raises(FilmError, match="inside it"):
        PhotoSlide(Path("a.jpg"), "0", "Size 1", focus=(1.2, 0.5))


def test_a_plan_read_from_its_text_is_the_same_plan(four):
    whole = replace(four, music=Music(Path("evening.wav"), "played by the teacher"))
    assert planfile.from_text(planfile.to_text(whole)) == whole


@pytest.mark.parametrize("text", ["", "{}", '{"version": 99, "film": {}}', "[1]"])
def test_a_text_that_is_no_plan_is_refused(text):
    with pytest.raises(FilmError, match="anew from the album"):
        planfile.from_text(text)
