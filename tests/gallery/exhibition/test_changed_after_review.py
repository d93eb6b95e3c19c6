"""After review: what was taken away is gone at once, what is new waits, the rest stays."""

from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client

from gallery.contributions.models import Photo
from gallery.exhibition import showing
from gallery.review.decide import Ruling, approve_waiting, decide, last_verdict
from gallery.review.models import Verdict
from tests.gallery.edits import edit, edit_photo

pytestmark = pytest.mark.django_db


def page_of(made: Any) -> str:
    answer = Client().get(made.address)
    return answer.content.decode() if answer.status_code == 200 else ""


def approve_all(made: Any, teacher: User) -> None:
    made.row.refresh_from_db()
    approve_waiting(made.row, last_verdict(made.row), teacher, made.row.edition)


def test_before_a_verdict_a_change_simply_stands(
    garment: Callable[..., Any], teacher: User
) -> None:
    made = garment(allows=("film", "public_pages", "notes", "name"))
    edit(made, credit_name="Tamsin Q.", notes="Other words.")
    edit_photo(made, description="Another one")
    approve_all(made, teacher)
    shown = page_of(made)
    assert all(words in shown for words in ("Tamsin Q.", "Other words.", "Another one"))


# The name


def test_a_corrected_name_is_gone_at_once_and_the_new_one_waits(shown: Any) -> None:
    edit(shown, credit_name="Tamsin Q.")
    page = page_of(shown)
    assert "Tamsin" not in page and "By a knitter of this series" in page
    assert "It wears like an old friend." in page  # the rest stays


def test_a_new_name_is_shown_once_it_is_approved(shown: Any, teacher: User) -> None:
    edit(shown, credit_name="Tamsin Q.")
    decide(shown.row, Ruling(None, Verdict.Decision.APPROVE, edition=2, of_name=True), teacher)
    assert "Knitted by <bdi>Tamsin Q.</bdi>" in page_of(shown)


def test_a_new_name_that_was_declined_is_not_shown(shown: Any, teacher: User) -> None:
    edit(shown, credit_name="Buy my yarn")
    decide(shown.row, Ruling(None, Verdict.Decision.DECLINE, edition=2, of_name=True), teacher)
    assert "Buy my yarn" not in page_of(shown)


def test_approving_a_photo_approves_no_name(shown: Any, teacher: User) -> None:
    edit(shown, credit_name="Tamsin Q.")
    ruling = Ruling(shown.photo, Verdict.Decision.APPROVE, "", verdict(shown), 2)
    decide(shown.row, ruling, teacher)
    assert "Tamsin Q." not in page_of(shown)


def test_a_name_changed_again_waits_again(shown: Any, teacher: User) -> None:
    edit(shown, credit_name="Tamsin Q.")
    approve_all(shown, teacher)
    edit(shown, credit_name="Tamsin R.")
    assert "Tamsin" not in page_of(shown)


# Words and numbers


def test_changed_numbers_are_gone_at_once_with_the_old_ones(shown: Any) -> None:
    edit(shown, size_name="5", notes="Corrected.")
    page = page_of(shown)
    assert "Its knitter shares the pictures, not the numbers." in page
    assert "Corrected." not in page and "old friend" not in page
    assert shown.photo.public_id in page  # the picture stays
    assert Client().get(f"{shown.address}worksheet/").status_code == 404


def test_changed_numbers_are_shown_once_they_are_approved(shown: Any, teacher: User) -> None:
    edit(shown, size_name="5", notes="Corrected.")
    approve_all(shown, teacher)
    page = page_of(shown)
    assert "<dd>5</dd>" in page and "Corrected." in page


def test_words_that_were_only_taken_away_leave_the_numbers(shown: Any) -> None:
    edit(shown, notes="")
    page = page_of(shown)
    assert "old friend" not in page and "<dd>4</dd>" in page


def test_words_taken_away_and_written_anew_wait(shown: Any) -> None:
    edit(shown, notes="")
    edit(shown, notes="Something new.")
    assert "Something new." not in page_of(shown)


# Pictures


def test_a_changed_description_is_gone_and_the_picture_stays(shown: Any) -> None:
    edit_photo(shown, description="Buy my yarn")
    page = page_of(shown)
    assert shown.photo.public_id in page
    assert "Buy my yarn" not in page and "worn over a shirt" not in page


def test_a_changed_description_is_told_once_it_is_approved(shown: Any, teacher: User) -> None:
    edit_photo(shown, description="The left cuff")
    ruling = Ruling(shown.photo, Verdict.Decision.APPROVE, "", verdict(shown), 2)
    decide(shown.row, ruling, teacher)
    assert "The left cuff" in page_of(shown)


def verdict(made: Any) -> int:
    return int(Verdict.objects.filter(photo=made.photo).latest("pk").pk)


def test_the_objection_page_tells_no_new_description_either(shown: Any) -> None:
    edit_photo(shown, description="Buy my yarn")
    page = Client().get(f"/pictures/{shown.photo.public_id}/objection/")
    assert page.status_code == 200 and "Buy my yarn" not in page.content.decode()


def test_another_answer_about_the_people_hides_the_picture_until_it_is_approved(
    shown: Any, teacher: User
) -> None:
    edit_photo(shown, people=Photo.People.ME)
    assert not showing.may_show_photo(shown.photo)
    approve_all(shown, teacher)
    assert showing.may_show_photo(shown.photo)


def test_a_verdict_on_what_is_not_there_any_more_counts_for_nothing(
    shown: Any, teacher: User
) -> None:
    edit(shown, size_name="5")
    Verdict.objects.create(contribution=shown.row, decision="approve", by=teacher, edition=1)
    assert not showing.may_show_words(shown.row)
