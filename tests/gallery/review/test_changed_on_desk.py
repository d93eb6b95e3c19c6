"""What came back to the desk: its own group, the difference in words, gone once it is looked at."""

from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.core import mail
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from alterations.kinds import BodyLength
from alterations.records.models import Sheet
from alterations.units import parse_length
from gallery.contributions.editing import keep
from gallery.contributions.intake import Tools
from gallery.contributions.models import Change, Contribution
from gallery.review.differences import differences_of
from gallery.review.listing import group_of
from gallery.review.marked import marked
from gallery.review.models import Verdict
from gallery.review.state import Standing, State, standings_of
from tests.gallery.edits import edit, edit_photo

pytestmark = pytest.mark.django_db


@pytest.fixture
def desk(desk_of: Callable[[User], Client], teacher: User) -> Client:
    return desk_of(teacher)


def standing(made: Any) -> Standing:
    return standings_of(Contribution.objects.filter(pk=made.row.pk))[made.row.pk]


def table(desk: Client, made: Any) -> str:
    return desk.get(f"/desk/garments/{made.row.public_id}/").content.decode()


def press(
    desk: Client, made: Any, button: str = "approve", about: str = "all", **given: Any
) -> Any:
    """Press a button of the page as it stands now, unless another edition is given."""
    page = desk.get(f"/desk/garments/{made.row.public_id}/").context["table"]
    things = [*page.photos, page.words, *([page.name] if page.name else [])]
    thing = next((one for one in things if one.about == about), None)
    seen = thing.form.initial["seen"] if thing else page.last_verdict
    typed = {"about": about, "decision": button, "seen": seen, "edition": page.garment.edition}
    return desk.post(f"/desk/garments/{made.row.public_id}/decide/", {**typed, **given})


def test_a_changed_garment_has_a_group_of_its_own(desk: Client, shown: Any, garment: Any) -> None:
    waits = garment()
    edit(shown, notes="Other words.")
    answer = desk.get("/desk/")
    assert [one.garment for one in answer.context["changed"]] == [shown.row]
    assert [one.garment for one in answer.context["waiting"]] == [waits.row]
    assert "Changed since you looked" in answer.content.decode()


def test_the_series_page_sieves_them(desk: Client, shown: Any, garment: Any) -> None:
    garment().decide()
    edit(shown, notes="Other words.")
    answer = desk.get("/desk/series/ostrimane-evenings/?show=changed")
    assert [one.garment for one in answer.context["garments"]] == [shown.row]


def test_a_change_before_any_verdict_makes_no_group(garment: Callable[..., Any]) -> None:
    made = garment()
    edit(made, notes="Other words.", credit_name="Other name", size_name="5")
    edit_photo(made, description="Other")
    assert (standing(made).state, differences_of(made.row)) == (State.WAITING, [])


def test_what_was_not_decided_yet_is_no_difference(garment: Callable[..., Any]) -> None:
    made = garment()
    made.decide_on(made.photo)
    edit(made, notes="Other words.")
    assert differences_of(made.row) == []
    edit_photo(made, description="Other")
    assert [one.what for one in differences_of(made.row)] == ["description"]


def test_the_first_verdict_of_all_is_about_the_garment_as_it_is(
    desk: Client, garment: Callable[..., Any]
) -> None:
    made = garment(photos=2)
    edit(made, credit_name="Other name")
    press(desk, made, about=made.photo.public_id)
    edit_photo(made, description="Other")
    assert [one.what for one in differences_of(made.row)] == ["description"]


def test_another_order_of_the_pictures_is_only_a_line(garment: Callable[..., Any]) -> None:
    made = garment(photos=2).decide()
    keep.move(made.row, made.photo.public_id, 1)
    assert standing(made).state is State.APPROVED
    assert Change.objects.get().what == "order"


def test_a_garment_whose_permissions_are_all_gone_is_not_in_the_group(shown: Any) -> None:
    edit(shown, notes="Other words.")
    shown.take_back("film", "public_pages", "notes", "name")
    assert standing(shown).state is State.TAKEN_BACK


# The difference


# At 28 rows in 10 cm, 5 cm are 14 rows; 6 cm are 16.8, and 16 is the nearest even number.
def test_numbers_stand_old_beside_new(desk: Client, garment: Callable[..., Any]) -> None:
    made = garment(changes=(BodyLength(parse_length("5 cm")),)).decide()
    edit(made, alterations=(BodyLength(parse_length("6 cm")),))
    [difference] = differences_of(made.row)
    body = next(row for row in difference.rows if "hem to armhole" in row.what)
    assert "104 rows → 118 rows, +14 rows" in body.before
    assert "104 rows → 120 rows, +16 rows" in body.now
    page = table(desk, made)
    assert "<del>104 rows → 118 rows, +14 rows<br>" in page
    assert "<ins>104 rows → 120 rows, +16 rows<br>" in page


def test_another_size_and_other_tools_stand_field_by_field(shown: Any) -> None:
    edit(shown, size_name="5", tools=Tools(tool="needles"))
    [difference] = differences_of(shown.row)
    rows = {row.what: (row.before, row.now) for row in difference.rows}
    assert rows["Size"] == ("4", "5")
    assert rows["Made with"] == ("knitting machine", "hand needles")


def test_words_are_marked_word_by_word_and_by_words(desk: Client, shown: Any) -> None:
    edit(shown, notes="It wears like a new friend.")
    page = table(desk, shown)
    assert "<del><small>taken out: </small>an old </del>" in page
    assert "<ins><small>new: </small>a new </ins>" in page


def test_markup_in_changed_words_is_only_ever_text(desk: Client, shown: Any) -> None:
    edit(shown, notes="<script>alert(1)</script>", credit_name="<b>Bo</b>")
    page = table(desk, shown)
    assert "<script>alert(1)" not in page and "<b>Bo" not in page


def test_a_picture_taken_out_and_one_added_are_told(
    desk: Client, garment: Callable[..., Any]
) -> None:
    made = garment(photos=2).decide()
    keep.take_out(made.row, made.photo.public_id)
    made._add_photo(3, "New", True)
    new = made.row.photos.last()
    made.row.refresh_from_db()
    turn = keep.Turn(made.row, made.row.edition + 1)
    turn.note(keep.What.ADDED, new)
    keep._finish(turn)
    page = table(desk, made)
    assert "Picture 1: taken out" in page and "Picture 3: new" in page


def test_a_picture_added_and_taken_out_again_is_no_difference(
    garment: Callable[..., Any],
) -> None:
    made = garment(photos=2).decide()
    turn = keep.Turn(made.row, 2)
    turn.note(keep.What.ADDED, made.photo)
    keep._finish(turn)
    keep.take_out(made.row, made.photo.public_id)
    assert differences_of(made.row) == []


def test_changed_and_changed_back_says_so(desk: Client, shown: Any) -> None:
    old = shown.row.credit_name
    edit(shown, credit_name="Other")
    edit(shown, credit_name=old)
    assert "Changed and changed back" in table(desk, shown)


def test_two_changes_in_a_row_are_one_difference_from_what_she_saw(shown: Any) -> None:
    edit(shown, credit_name="Second")
    edit(shown, credit_name="Third")
    [difference] = differences_of(shown.row)
    assert (difference.before, difference.now) == ("Tamsin Quillfeather", "Third")


@pytest.mark.parametrize(
    ("before", "after"),
    [("", "a b"), ("a b", ""), ("a\n\n b c", "a\n b  d"), ("x " * 300, "y " + "x " * 299)],
)
def test_the_marked_pieces_put_together_are_both_texts(before: str, after: str) -> None:
    pieces = marked(before, after)
    assert "".join(one.text for one in pieces if one.how != "in") == before
    assert "".join(one.text for one in pieces if one.how != "out") == after


# Deciding


@pytest.mark.parametrize("button", ["approve", "decline"])
def test_once_it_is_decided_the_difference_is_gone_and_the_history_stays(
    desk: Client, shown: Any, button: str
) -> None:
    edit(shown, notes="Other words.", size_name="5")
    press(desk, shown, button, "words")
    assert differences_of(shown.row) == []
    assert standing(shown).state is State.APPROVED  # the photo is
    assert "2 changes since it was sent" in table(desk, shown)
    assert Sheet.objects.get() == shown.row.sheet


def test_one_button_approves_everything_that_came_back(desk: Client, shown: Any) -> None:
    edit(shown, notes="Other words.", credit_name="Tamsin Q.")
    edit_photo(shown, description="Other")
    assert "3 things wait" in table(desk, shown)
    press(desk, shown)
    assert standing(shown).state is State.APPROVED
    assert Verdict.objects.filter(edition=shown.row.edition).count() == 3


def test_what_was_only_taken_away_is_looked_at_with_the_same_button(
    desk: Client, shown: Any
) -> None:
    edit(shown, notes="", credit_name="")
    assert "I have looked at the changes" in table(desk, shown)
    press(desk, shown)
    assert standing(shown).state is State.APPROVED
    assert Verdict.objects.filter(edition=2).count() == 0


def test_what_was_declined_is_not_approved_with_the_rest(desk: Client, garment: Any) -> None:
    made = garment(photos=2).decide()
    made.decide_on(made.photo, "decline")
    edit_photo(made, description="Other")
    press(desk, made)
    newest = Verdict.objects.filter(photo=made.photo).latest("pk")
    assert newest.decision == "decline"


def test_an_answer_to_a_question_waits_for_her_again(desk: Client, garment: Any) -> None:
    made = garment()
    made.decide()
    made.decide_on(made.photo, "ask", "Which side is it?")
    edit_photo(made, description="The left side")
    press(desk, made)
    assert Verdict.objects.filter(photo=made.photo).latest("pk").decision == "approve"


@pytest.mark.parametrize("about", ["all", "words", "name"])
def test_a_page_opened_before_the_change_decides_nothing(
    desk: Client, shown: Any, about: str
) -> None:
    edit(shown, credit_name="Second")
    edit(shown, notes="Came meanwhile.")
    answer = press(desk, shown, about=about, note="Lovely", edition=2)
    assert answer.status_code == 409
    page = answer.content.decode()
    assert "Its knitter changed something meanwhile" in page
    assert about == "all" or "Lovely" in page
    assert Verdict.objects.filter(edition__gt=1).count() == 0


@pytest.mark.parametrize("edition", ["x", "-1", "0", "99"])
def test_a_damaged_edition_decides_nothing(desk: Client, shown: Any, edition: str) -> None:
    edit(shown, notes="Other.")
    answer = press(desk, shown, about="words", edition=edition)
    assert answer.status_code in (200, 409)
    assert Verdict.objects.filter(edition__gt=1).count() == 0


def test_a_page_without_an_edition_decides_nothing_on_a_changed_garment(
    desk: Client, shown: Any
) -> None:
    edit(shown, notes="Other.")
    assert press(desk, shown, about="words", edition="").status_code == 409


def test_pressed_twice_one_verdict_is_kept(desk: Client, shown: Any) -> None:
    edit(shown, notes="Other.")
    given = {"about": "words", "seen": Verdict.objects.filter(photo=None).latest("pk").pk}
    for _ in range(2):
        press(desk, shown, **given)
    assert Verdict.objects.filter(edition=2).count() == 1


def test_a_list_of_changed_garments_takes_no_more_queries_for_many(
    desk: Client, garment: Any
) -> None:
    for made in [garment().decide() for _ in range(2)]:
        edit(made, notes="Other.")
    desk.get("/desk/")
    with CaptureQueriesContext(connection) as two:
        desk.get("/desk/")
    for made in [garment().decide() for _ in range(4)]:
        edit(made, notes="Other.")
    with CaptureQueriesContext(connection) as six:
        desk.get("/desk/")
    assert len(group_of(standings_of(Contribution.objects.all()), "changed")) == 6
    assert len(six) == len(two)


def test_the_answer_on_a_name_reaches_its_knitter_by_letter_and_on_her_page(
    desk: Client, garment: Any, django_capture_on_commit_callbacks: Any
) -> None:
    made = garment(allows=("name",), email="tamsin@example.org").decide()
    edit(made, credit_name="Buy my yarn")
    with django_capture_on_commit_callbacks(execute=True):
        press(desk, made, "decline", "name", note="A name, please.")
    [letter] = mail.outbox
    assert "will not show it. Everything else stays" in letter.body
    page = made.sender().get(f"/mine/{made.row.public_id}/").content.decode()
    assert "Not taken" in page and "A name, please." in page
