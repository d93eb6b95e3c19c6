"""What a sender changes after sending: kept once, in its edition, by the rule of each thing."""

from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest

from alterations.kinds import BodyLength, FreeNote
from alterations.records import store
from alterations.records.models import Sheet
from alterations.units import parse_length
from gallery.contributions.editing import history, keep
from gallery.contributions.editing.keep import ChangedMeanwhileError
from gallery.contributions.erase import erase
from gallery.contributions.intake import Tools
from gallery.contributions.models import Change, Contribution, GuardianAnswer, Photo
from gallery.contributions.people import guardian
from gallery.contributions.people.cares import care_of, cares_of
from gallery.contributions.people.cleared import cleared_garments
from gallery.contributions.people.said import PeopleSaid
from gallery.contributions.takeaway import data_of
from tests.gallery.edits import as_it_is, said

pytestmark = pytest.mark.django_db
What = Change.What


def save(row: Contribution, **changed: Any) -> int:
    lines = keep.save(row, as_it_is(row, **changed), row.edition)
    row.refresh_from_db()
    return lines


def lines(row: Contribution) -> list[tuple[int, str]]:
    return list(row.history.values_list("edition", "what"))


def test_nothing_different_keeps_nothing(shown: Any) -> None:
    assert save(shown.row) == 0
    assert (shown.row.edition, lines(shown.row)) == (1, [])


def test_each_thing_changed_is_a_line_of_one_edition(shown: Any) -> None:
    save(shown.row, credit_name="Tamsin Q.", notes="Other words.", stage="in_progress")
    assert shown.row.edition == 2
    assert lines(shown.row) == [(2, What.NOTES), (2, What.STAGE), (2, What.NAME)]


def test_another_size_is_another_sheet_and_the_old_one_is_kept(shown: Any) -> None:
    old = shown.row.sheet
    save(shown.row, size_name="5")
    assert shown.row.sheet.size_name == "5"
    assert shown.row.history.get().sheet_before == old
    assert store.alterations_of(old) == store.alterations_of(shown.row.sheet)


def test_a_sheet_in_between_that_nobody_saw_is_not_kept(shown: Any) -> None:
    old = shown.row.sheet
    save(shown.row, size_name="5")
    save(shown.row, size_name="6")
    assert [line.sheet_before for line in shown.row.history.all()] == [old, None]
    assert Sheet.objects.count() == 2


def test_the_order_of_the_changes_is_no_change(shown: Any) -> None:
    told = store.alterations_of(shown.row.sheet)
    assert save(shown.row, alterations=tuple(reversed(told))) == 0


def test_another_change_is_one(shown: Any) -> None:
    save(shown.row, alterations=(BodyLength(parse_length("6 cm")), FreeNote("A pocket.")))
    assert shown.row.words_edition == 2


def test_another_swatch_is_a_change_of_the_numbers(shown: Any) -> None:
    tools = Tools("machine", swatch_stitches=Decimal("21"), swatch_rows=Decimal("28.5"))
    save(shown.row, tools=tools)
    assert str(store.gauge_of(shown.row.sheet)) == "21 stitches × 28.5 rows = 10 cm"
    assert save(shown.row, tools=tools) == 0


def test_what_stood_before_is_kept_with_the_first_line_only(shown: Any) -> None:
    save(shown.row, notes="Second.")
    save(shown.row, notes="Third.")
    before = shown.row.history.values_list("before", flat=True)
    assert list(before) == ["It wears like an old friend.", ""]


def test_once_it_was_looked_at_what_stood_before_is_forgotten(shown: Any) -> None:
    save(shown.row, notes="Second.", size_name="5")
    history.close(shown.row, history.OF_WORDS)
    assert set(shown.row.history.values_list("before", "sheet_before")) == {("", None)}
    assert Sheet.objects.get() == shown.row.sheet
    assert len(lines(shown.row)) == 2


def test_of_two_windows_the_second_is_told_and_overwrites_nothing(shown: Any) -> None:
    late = as_it_is(shown.row, credit_name="From the second window")
    save(shown.row, credit_name="From the first")
    with pytest.raises(ChangedMeanwhileError):
        keep.save(shown.row, late, seen=1)
    shown.row.refresh_from_db()
    assert shown.row.credit_name == "From the first"


def test_emptied_notes_leave_the_numbers_as_they_were_approved(shown: Any) -> None:
    save(shown.row, notes="")
    assert (shown.row.notes, shown.row.words_edition) == ("", 1)


def test_an_erased_garment_takes_the_old_sheet_with_it(shown: Any) -> None:
    save(shown.row, size_name="5")
    erase(shown.row)
    assert (Sheet.objects.count(), Change.objects.count()) == (0, 0)


def test_her_pack_holds_the_history(shown: Any) -> None:
    save(shown.row, credit_name="Tamsin Q.")
    [line] = data_of(shown.row)["history"]
    assert (line["what"], line["before"]) == ("name", "Tamsin Quillfeather")


# The people in a picture


def change_people(row: Contribution, people: PeopleSaid) -> Photo:
    save(row, pictures=[said(row.photos.all()[0], people=people)])
    return row.photos.all()[0]


def test_another_answer_about_the_people_sends_the_picture_back(shown: Any) -> None:
    photo = change_people(shown.row, PeopleSaid(Photo.People.ME))
    assert (photo.people, photo.edition) == (Photo.People.ME, 2)


def test_the_first_answer_is_no_correction(garment: Callable[..., Any]) -> None:
    sent = garment()
    sent.row.photos.update(people="")
    assert change_people(sent.row, PeopleSaid(Photo.People.NOBODY)).edition == 1


def test_that_the_teacher_saw_others_agree_counts_for_that_answer_only(shown: Any) -> None:
    agreed = PeopleSaid(Photo.People.OTHERS, others_agree=True)
    photo = change_people(shown.row, agreed)
    Photo.objects.filter(pk=photo.pk).update(
        people_seen_at=photo.received_at, people_seen_by=shown.series.teacher
    )
    change_people(shown.row, PeopleSaid(Photo.People.ME))
    photo = change_people(shown.row, agreed)
    assert (photo.people_seen_at, photo.people_seen_by) == (None, None)


def test_a_child_s_guardian_is_asked(shown: Any) -> None:
    change_people(shown.row, PeopleSaid(Photo.People.CHILD, guardian_email="mum@example.org"))
    assert shown.row.links.filter(for_address="mum@example.org").exists()


def test_once_somebody_answered_for_a_child_the_answer_stays(shown: Any) -> None:
    photo = change_people(shown.row, PeopleSaid(Photo.People.CHILD, sender_is_guardian=True))
    assert GuardianAnswer.objects.filter(about=photo.public_id, is_yes=True).exists()
    with pytest.raises(ChangedMeanwhileError):
        change_people(shown.row, PeopleSaid(Photo.People.NOBODY))


# Pictures


def test_a_picture_taken_out_is_gone_and_the_others_close_up(garment: Callable[..., Any]) -> None:
    sent = garment(photos=3)
    first = sent.photo.public_id
    assert keep.take_out(sent.row, first)
    assert list(sent.row.photos.values_list("position", flat=True)) == [1, 2]
    assert lines(sent.row) == [(2, What.REMOVED)]
    assert not keep.take_out(sent.row, first)


def test_a_picture_moves_one_place_and_no_further(garment: Callable[..., Any]) -> None:
    sent = garment(photos=3)
    one, two, three = sent.row.photos.values_list("public_id", flat=True)
    assert keep.move(sent.row, one, 1)
    assert not keep.move(sent.row, two, -1)
    assert list(sent.row.photos.values_list("public_id", flat=True)) == [two, one, three]


# A young sender's guardian


@pytest.fixture
def young(garment: Callable[..., Any]) -> Any:
    """A garment of a young sender, whose guardian looked at it and said yes."""
    made = garment(
        allows=("film", "notes"), is_younger=True, guardian_email="mum@example.org"
    ).decide()
    answer_as_guardian(made.row, is_yes=True)
    return made


def answer_as_guardian(row: Contribution, *, is_yes: bool, edition: int | None = None) -> bool:
    row.refresh_from_db()
    link = guardian.ask(row, "mum@example.org")
    [care] = cares_of(link)
    said = {str(one.text.pk): is_yes for one in care.questions}
    return guardian.answer(link, row.public_id, said, edition or row.edition)


def is_cleared(row: Contribution) -> bool:
    return cleared_garments("film").filter(pk=row.pk).exists()


def test_a_guardians_yes_is_to_what_she_saw(young: Any) -> None:
    stood = [is_cleared(young.row)]
    save(young.row, notes="Something new.")
    stood.append(is_cleared(young.row))
    assert answer_as_guardian(young.row, is_yes=True)
    stood.append(is_cleared(young.row))
    assert stood == [True, False, True]


def test_what_a_young_sender_takes_away_needs_nobody(young: Any) -> None:
    keep.take_out(young.row, young.photo.public_id)
    assert is_cleared(young.row)


def test_the_guardian_is_asked_again_about_what_was_added(young: Any) -> None:
    save(young.row, notes="Something new.")
    [question, _] = care_of(young.row, None).questions
    assert (question.answer, care_of(young.row, None).is_open) == (None, True)
    line = young.row.history.get()
    assert question.since == line.at


def test_a_guardians_no_stands_whatever_is_changed(young: Any) -> None:
    answer_as_guardian(young.row, is_yes=False)
    save(young.row, notes="Something new.")
    assert care_of(young.row, None).is_refused and not is_cleared(young.row)


def test_a_guardian_who_looked_before_the_change_is_asked_to_look_again(young: Any) -> None:
    save(young.row, notes="Something new.")
    assert not answer_as_guardian(young.row, is_yes=True, edition=1)
    assert not is_cleared(young.row)


def test_a_grown_up_sender_waits_for_no_guardian(shown: Any) -> None:
    save(shown.row, notes="Something new.")
    assert is_cleared(shown.row) and shown.row.guardian_edition == 1
