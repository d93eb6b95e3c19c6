"""What gets into an album by rule, and what its slides say."""

import itertools

import pytest

from alterations.records import store
from gallery.album import arrange
from gallery.album.asking import as_allowed
from gallery.album.collect import collect
from gallery.album.gather import placed, plan_of
from gallery.album.models import Slide
from gallery.consent.purposes import FILM, NAME, NOTES, PUBLIC_PAGES
from gallery.contributions.models import Contribution

pytestmark = pytest.mark.django_db
COMBINATIONS = [
    chosen
    for count in range(5)
    for chosen in itertools.combinations((FILM, PUBLIC_PAGES, NOTES, NAME), count)
]


def kinds(album):
    return [slide.kind for slide in album.slides.all()]


def photos(album):
    return [slide.photo for slide in album.slides.all() if slide.photo]


@pytest.mark.parametrize("allowed", COMBINATIONS)
def test_only_the_permission_for_the_film_lets_a_photo_in(garment, album, allowed):
    photo = garment(allowed=allowed)
    assert photos(album()) == ([photo] if FILM in allowed else [])


def test_a_photo_that_is_not_approved_stays_out(garment, album):
    garment(approved=False)
    assert photos(album()) == []


def test_garments_stand_between_title_and_thanks_in_order_of_arrival(garment, album):
    first, second = garment(), garment()
    made = album()
    assert kinds(made) == ["title", "garment", "garment", "thanks"]
    assert photos(made) == [first, second]


def test_finished_garments_come_before_those_in_progress(garment, album):
    begun, finished = garment(stage=Contribution.Stage.IN_PROGRESS), garment()
    assert photos(album()) == [finished, begun]


def test_collecting_again_adds_the_new_ones_before_the_thanks_card(garment, album):
    first, second = garment(), garment()
    made = album()
    arrange.move(made.slides.get(photo=second), 2, made.version)
    third = garment()
    assert collect(made) == 1
    assert photos(made) == [second, first, third]
    assert kinds(made)[-1] == "thanks"


def test_collecting_again_keeps_the_words_and_what_was_taken_out(garment, album):
    photo = garment()
    made = album()
    slide = made.slides.get(photo=photo)
    arrange.write(slide, "", "A tunic for the garden", made.version)
    arrange.take_out(slide, made.version + 1)
    assert collect(made) == 0
    slide.refresh_from_db()
    assert (slide.words, slide.taken_out_at is None) == ("A tunic for the garden", False)


def test_the_title_card_names_series_pattern_and_teacher(garment, album):
    card = plan_of(album()).slides[0]
    assert card.title == "The closing film"
    assert card.lines == ("Ostrimane Tunic", "A series by Odalys Brimworth")


def test_with_notes_allowed_the_caption_is_made_from_the_record(garment, album):
    photo = garment(allowed=(FILM, NOTES))
    slide = plan_of(album()).slides[1]
    assert slide.caption == store.caption_of(photo.contribution.sheet)
    assert "3" in slide.caption


def test_without_notes_the_caption_is_the_patterns_name(garment, album):
    garment(allowed=(FILM, NAME))
    assert plan_of(album()).slides[1].caption == "Ostrimane Tunic"


def test_a_name_stands_in_the_credit_only_where_it_is_allowed(garment, album):
    garment("Wrenna Quist", (FILM, NAME))
    garment("Ilka Vandermoot", (FILM,))
    assert [slide.credit for slide in plan_of(album()).slides[1:3]] == ["Wrenna Quist", ""]


def test_neutral_words_stand_where_no_name_may(garment, album):
    garment(allowed=(FILM,))
    assert plan_of(album()).neutral_credit == "Knitted by a follower of the series"


def test_the_teachers_own_caption_comes_before_the_generated_one(garment, album):
    photo = garment()
    made = album()
    arrange.write(made.slides.get(photo=photo), "", "A tunic for the garden", made.version)
    assert plan_of(made).slides[1].caption == "A tunic for the garden"


def test_a_slide_taken_out_is_not_in_the_film_and_comes_back(garment, album):
    photo = garment()
    made = album()
    slide = made.slides.get(photo=photo)
    arrange.take_out(slide, made.version)
    assert len(plan_of(made).slides) == 2
    arrange.put_back(slide, made.version + 1)
    assert len(plan_of(made).slides) == 3


def test_a_withdrawn_photo_leaves_the_plan_and_is_marked(garment, album, take_back):
    photo = garment()
    made = album()
    take_back(photo, FILM)
    slide = next(one for one in placed(made) if one.row.photo == photo)
    assert (slide.sign, slide.drawn) == ("withdrawn", None)
    assert len(plan_of(made).slides) == 2


def test_a_photo_whose_film_size_is_not_made_yet_is_left_out(garment, album):
    garment(is_ready=False)
    made = album()
    assert [one.sign for one in placed(made)] == ["", "making", ""]


def test_a_slide_moves_to_the_place_asked_for_and_never_beyond_the_end(garment, album):
    one, two, three = garment(), garment(), garment()
    made = album()
    arrange.move(made.slides.get(photo=one), 4, made.version)
    assert photos(made) == [two, three, one]
    arrange.move(made.slides.get(photo=two), 99, made.version + 1)
    assert kinds(made) == ["title", "garment", "garment", "thanks", "garment"]
    assert [slide.position for slide in made.slides.all()] == [1, 2, 3, 4, 5]


def test_of_two_people_at_one_album_the_second_overwrites_nothing(garment, album):
    photo = garment()
    made = album()
    slide = made.slides.get(photo=photo)
    arrange.write(slide, "", "Hers", made.version)
    with pytest.raises(arrange.ConflictError):
        arrange.write(slide, "", "His", made.version)
    assert Slide.objects.get(pk=slide.pk).words == "Hers"


def test_numbers_that_were_not_approved_are_not_told_in_the_film(garment, album):
    garment(words_approved=False)
    [_, shown, _] = plan_of(album()).slides
    assert shown.caption == "Ostrimane Tunic"


def test_words_written_while_numbers_might_be_told_are_set_aside_when_they_may_no_longer(
    garment, album, take_back
):
    photo = garment()
    made = album()
    slide = made.slides.get(photo=photo)
    arrange.write(slide, "", "Size 3, lovely", made.version)
    asked_for = plan_of(made)
    take_back(photo, NOTES)
    assert plan_of(made).slides[1].caption == "Ostrimane Tunic"
    assert as_allowed(asked_for).slides[1].caption == "Ostrimane Tunic"


def test_words_written_without_numbers_stay(garment, album):
    photo = garment(allowed=[FILM])
    made = album()
    arrange.write(made.slides.get(photo=photo), "", "A tunic for the garden", made.version)
    assert plan_of(made).slides[1].caption == "A tunic for the garden"
    assert as_allowed(plan_of(made)) == plan_of(made)
