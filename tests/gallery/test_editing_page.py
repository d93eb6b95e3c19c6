"""The page on which a sender changes what she sent: filled in, checked, nothing typed is lost."""

import re
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from alterations.kinds import BodyLength, Extra
from alterations.records import store
from alterations.records.load import load_pattern
from gallery.album.collect import begin
from gallery.album.models import Slide
from gallery.contributions import limits
from gallery.contributions.keeping import make_sizes
from gallery.contributions.models import Change, Contribution, Photo
from gallery.contributions.pictures import originals, safe_pictures
from gallery.exhibition.showing import may_show_photo
from gallery.review.models import Verdict

from .conftest import EVERYTHING, jpeg

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def room_on_the_disk(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(limits, "has_room", lambda _: True)


class Page:
    """A sender on the page, with everything in its fields as the page shows it."""

    def __init__(self, garment: Any) -> None:
        self.row: Contribution = garment.row
        self.browser: Client = garment.sender()
        self.address = f"/mine/{self.row.public_id}/change/"
        self.fields = self.fields_of(self.browser.get(self.address))

    def fields_of(self, answer: Any) -> dict[str, str]:
        """What a browser would post: every field of the page with its value."""
        found = {"edition": str(answer.context["edition"])}
        for form in answer.context["sending"]:
            for bound in form:
                value = bound.value()
                if value is True:
                    found[bound.html_name] = "on"
                elif value not in (None, False, "") and bound.name != "pictures":
                    found[bound.html_name] = str(value)
                elif value == "":
                    found[bound.html_name] = ""
        return found

    def post(self, button: str = "save", value: str = "yes", **typed: Any) -> Any:
        answer = self.browser.post(self.address, {**self.fields, button: value, **typed})
        self.row.refresh_from_db()
        return answer

    def of_photo(self, photo: Photo, **typed: str) -> dict[str, str]:
        return {f"picture-{photo.public_id}-{name}": value for name, value in typed.items()}


@pytest.fixture
def page(garment: Callable[..., Any]) -> Iterator[Page]:
    yield Page(garment(allows=EVERYTHING, photos=2).decide())


def picture(name: str = "new.jpg") -> SimpleUploadedFile:
    return SimpleUploadedFile(name, jpeg((64, 48)), "image/jpeg")


def test_the_page_holds_everything_that_is_kept(page: Page) -> None:
    fields = page.fields
    assert (fields["size"], fields["tool"]) == ("4", "machine")
    assert (fields["body_length_amount"], fields["yarn_name"]) == ("5", "Kelvarrick Cotton")
    assert fields["free_note"] == "A pocket on the left."
    assert fields["credit_name"] == "Tamsin Quillfeather"
    first = page.row.photos.all()[0]
    assert fields[f"picture-{first.public_id}-description"] == "Front, worn over a shirt"


def test_posting_the_page_as_it_is_changes_nothing(page: Page) -> None:
    answer = page.post()
    assert (answer.status_code, answer["Location"]) == (303, f"/mine/{page.row.public_id}/")
    assert (page.row.edition, page.row.history.count()) == (1, 0)


def test_changes_are_kept_with_one_button(page: Page) -> None:
    photo = page.row.photos.all()[1]
    told = page.of_photo(photo, description="The back", stage="detail", people="me")
    page.post(credit_name=" Tamsin Q. ", notes="New words.", body_length_amount="6", **told)
    photo.refresh_from_db()
    assert (page.row.credit_name, page.row.notes) == (" Tamsin Q. ", "New words.")
    assert (photo.description, photo.stage, photo.people) == ("The back", "detail", "me")
    assert page.row.sheet is not None
    [body] = [one for one in store.alterations_of(page.row.sheet) if isinstance(one, BodyLength)]
    assert body.change.amount == 6


@pytest.mark.parametrize(
    ("field", "typed", "words"),
    [
        ("body_length_amount", "a bit", "cannot be read as a length"),
        ("size", "", "Please choose the size"),
        ("credit_name", "   ", "nothing but spaces"),
        ("notes", "x" * 4001, "keep your words to 4000"),
        ("swatch_counted_rows", "28", "needs both numbers"),
        ("neck_width_amount", "60", "cannot become"),
    ],
)
def test_a_mistake_stands_beside_its_field_and_everything_typed_stays(
    page: Page, field: str, typed: str, words: str
) -> None:
    answer = page.post(**{"yarn_fibre": "half wool", field: typed})
    shown = answer.content.decode()
    assert answer.status_code == 200 and words in shown and "half wool" in shown
    assert page.fields_of(answer)[field] == typed
    assert page.row.edition == 1


def test_where_pictures_may_be_shown_the_people_must_be_said(page: Page) -> None:
    photo = page.row.photos.all()[0]
    answer = page.post(**page.of_photo(photo, people="others"))
    assert "Please ask them and tick this" in answer.content.decode()
    assert page.row.edition == 1


def test_numbers_are_worked_out_while_she_types(page: Page) -> None:
    address = f"/mine/{page.row.public_id}/numbers/"
    answer = page.browser.post(address, {"size": "3", "body_length_amount": "5"})
    assert "118 rows" in answer.content.decode()


def test_a_picture_taken_out_is_gone_at_once_whatever_else_is_wrong(page: Page) -> None:
    photo = page.row.photos.all()[0]
    sizes = list(photo.renditions.values_list("sha256", flat=True))
    answer = page.post("take_out", photo.public_id, body_length_amount="a bit")
    assert page.fields_of(answer)["body_length_amount"] == "a bit"
    assert not Photo.objects.filter(pk=photo.pk).exists()
    assert not originals().path(photo.original_sha256).exists()
    assert not any(safe_pictures().path(sha256).exists() for sha256 in sizes)
    assert Client().get(f"/pictures/{photo.public_id}/medium.jpg").status_code == 404


def test_a_picture_taken_out_leaves_the_album_at_once(page: Page) -> None:
    album = begin(page.row.series, "The film")
    page.post("take_out", page.row.photos.all()[0].public_id)
    album.refresh_from_db()
    slides = list(album.slides.values_list("kind", "position"))
    assert slides == [("title", 1), ("garment", 2), ("thanks", 3)]
    assert album.version > 1
    assert Slide.objects.filter(kind="garment").count() == 1


def test_the_original_another_garment_also_sent_stays(
    page: Page, garment: Callable[..., Any]
) -> None:
    photo = page.row.photos.all()[0]
    other = garment().photo
    Photo.objects.filter(pk=other.pk).update(original_sha256=photo.original_sha256)
    page.post("take_out", photo.public_id)
    assert originals().path(photo.original_sha256).exists()


def test_a_picture_added_is_kept_at_once_and_can_be_described(page: Page) -> None:
    answer = page.post("add", pictures=picture(), new_description="Cuff", new_stage="detail")
    new = page.row.photos.last()
    assert new is not None and page.row.photos.count() == 3
    fields = page.fields_of(answer)
    assert fields[f"picture-{new.public_id}-description"] == "Cuff"
    page.fields = fields
    page.post(**page.of_photo(new, people="nobody"))
    new.refresh_from_db()
    assert (new.description, new.stage, new.people) == ("Cuff", "detail", "nobody")


def test_a_file_that_is_no_picture_is_refused_in_words(page: Page) -> None:
    broken = SimpleUploadedFile("letter.jpg", b"no picture", "image/jpeg")
    answer = page.post(pictures=broken, credit_name="Typed meanwhile")
    assert "letter.jpg" in answer.content.decode()
    assert page.fields_of(answer)["credit_name"] == "Typed meanwhile"
    assert page.row.photos.count() == 2


def test_pictures_change_their_order(page: Page) -> None:
    one, two = page.row.photos.values_list("public_id", flat=True)
    page.post("later", one)
    assert list(page.row.photos.values_list("public_id", flat=True)) == [two, one]


def test_a_second_window_gets_a_page_in_words_with_what_was_typed(page: Page) -> None:
    second = {**page.fields}
    page.post(credit_name="From the first")
    page.fields = second
    answer = page.post(credit_name="From the second", notes="Mine.")
    shown = answer.content.decode()
    assert answer.status_code == 409 and "Changed meanwhile" in shown
    assert "From the first" in shown and page.fields_of(answer)["notes"] == "Mine."
    assert page.row.credit_name == "From the first"


def test_after_the_conflict_page_the_same_button_keeps_it(page: Page) -> None:
    second = {**page.fields}
    page.post(credit_name="From the first")
    page.fields = second
    page.fields = page.fields_of(page.post(credit_name="From the second"))
    page.post()
    assert page.row.credit_name == "From the second"


@pytest.mark.parametrize("edition", ["", "x", "-1", "999999999999999999999", "0"])
def test_a_damaged_edition_overwrites_nothing(page: Page, edition: str) -> None:
    answer = page.post(credit_name="Other", edition=edition)
    assert (answer.status_code, page.row.credit_name) == (409, "Tamsin Quillfeather")


def test_a_damaged_picture_id_does_nothing(page: Page) -> None:
    for button in ("take_out", "earlier", "later"):
        assert page.post(button, "missing").status_code == 200
    assert (page.row.photos.count(), page.row.edition) == (2, 1)


def test_changes_that_have_no_field_stay(garment: Callable[..., Any]) -> None:
    three = (Extra("pocket"), Extra("hood"), Extra("cord"))
    page = Page(garment(changes=three))
    assert page.post().status_code == 303 and page.row.edition == 1
    page.post(size="5")
    assert page.row.sheet is not None
    assert set(store.alterations_of(page.row.sheet)) == set(three)


def test_the_pattern_it_was_made_from_counts_not_the_newest(page: Page) -> None:
    made_from = page.row.sheet.version if page.row.sheet else None
    page.row.series.pattern_version = newer(page.row)
    page.row.series.save()
    page.post(size="5")
    assert page.row.sheet is not None and page.row.sheet.version == made_from


def newer(row: Contribution) -> Any:
    text = row.series.pattern_version.text
    return load_pattern(text + "\n# another version\n")


def test_her_page_leads_here_and_lists_what_was_changed(page: Page) -> None:
    page.post(credit_name="Tamsin Q.")
    shown = page.browser.get(f"/mine/{page.row.public_id}/").content.decode()
    assert page.address in shown
    assert re.search(r"Name\s+<span[^>]*>– not looked at yet", shown)


def test_the_page_names_no_referrer_rule_that_would_break_its_form(page: Page) -> None:
    assert page.browser.get(page.address).get("Referrer-Policy") != "no-referrer"


def test_nothing_typed_before_a_verdict_waits_as_a_change(garment: Callable[..., Any]) -> None:
    page = Page(garment(allows=EVERYTHING))
    page.post(credit_name="Tamsin Q.")
    shown = page.browser.get(f"/mine/{page.row.public_id}/").content.decode()
    assert Change.objects.count() == 1 and "not looked at yet" not in shown


def test_without_scripts_a_button_works_the_numbers_out(page: Page) -> None:
    answer = page.post("work_out", size="3", yarn_choice="pattern", body_length_amount="5")
    assert "118 rows" in answer.content.decode() and page.row.edition == 1


def test_there_is_room_for_so_many_pictures_and_no_more(page: Page, settings: Any) -> None:
    settings.UPLOAD_MAX_PICTURES = 3
    answer = page.post("add", pictures=[picture("third.jpg"), picture("fourth.jpg")])
    assert page.row.photos.count() == 3
    assert "fourth.jpg" in answer.content.decode()


def test_a_picture_added_gets_its_sizes_and_is_public_only_once_approved(page: Page) -> None:
    page.post("add", pictures=picture())
    new = page.row.photos.last()
    assert new is not None
    make_sizes(new.pk)
    Photo.objects.filter(pk=new.pk).update(people=Photo.People.NOBODY)
    assert not may_show_photo(new)
    Verdict.objects.create(
        contribution=page.row, photo=new, decision="approve", by=page.row.series.teacher, edition=2
    )
    assert may_show_photo(new)


def test_an_upload_in_a_late_window_is_kept_and_nothing_overwritten(page: Page) -> None:
    second = {**page.fields}
    page.post(credit_name="From the first")
    page.fields = second
    new = {"pictures": picture(), "new_people": "nobody"}
    answer = page.post(credit_name="From the second", **new)
    assert answer.status_code == 409
    assert (page.row.photos.count(), page.row.credit_name) == (3, "From the first")


def test_what_she_kept_at_her_own_gauge_stays_as_she_said(page: Page) -> None:
    told = {"keeps": "measurements", "swatch_counted_stitches": "20", "swatch_counted_rows": "27"}
    page.post(**told, bed="second", machine_needles="150")
    page.fields = page.fields_of(page.browser.get(page.address))
    assert (page.fields["keeps"], page.fields["bed"]) == ("measurements", "second")
    page.post()
    assert page.row.edition == 2
