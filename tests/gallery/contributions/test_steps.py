"""Each step of the sending page is checked as one goes; one picture at a time arrives by itself."""

import io
from typing import Any

import pillow_heif
import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from PIL import Image

from gallery.contributions import limits
from gallery.contributions.cutting import percents, turned_cut
from gallery.contributions.models import Contribution, Photo
from gallery.contributions.pictures import safe_pictures

from .conftest import Knitter, broken, picture

pytestmark = pytest.mark.django_db
pillow_heif.register_heif_opener()


def step(knitter: Knitter, name: str, **given: Any) -> Any:
    data = {"draft": knitter.token, "step": name, "size": "3", **given}
    return knitter.browser.post(knitter.send_address + "step/", data)


def add(knitter: Knitter, file: SimpleUploadedFile) -> Any:
    data = {"draft": knitter.token, "pictures": file}
    return knitter.browser.post(knitter.send_address + "picture/", data)


def deed(knitter: Knitter, photo: Photo, what: str, **given: Any) -> Any:
    data = {"draft": knitter.token, "deed": what, **given}
    return knitter.browser.post(f"{knitter.send_address}picture/{photo.public_id}/", data)


def test_a_picture_arrives_by_itself_with_its_piece_of_the_page(knitter: Knitter) -> None:
    answer = add(knitter, picture()).json()
    photo = knitter.garment.photos.get()
    assert answer["id"] == photo.public_id
    assert f'id="picture-{photo.public_id}"' in answer["html"]
    assert answer["room_left"] == 11


def test_a_picture_sent_again_after_a_dropped_connection_is_there_once(knitter: Knitter) -> None:
    first = add(knitter, picture()).json()
    again = add(knitter, picture())
    assert (again.status_code, again.json()["id"]) == (200, first["id"])
    assert knitter.garment.photos.count() == 1


def test_a_broken_picture_is_refused_in_words_and_the_others_stay(knitter: Knitter) -> None:
    add(knitter, picture())
    answer = add(knitter, broken())
    assert answer.status_code == 422
    assert "broken.jpg" in answer.json()["refused"][0]
    assert knitter.garment.photos.count() == 1


def test_a_full_disk_is_said_and_nothing_is_half_kept(
    knitter: Knitter, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(limits, "has_room", lambda _: False)
    answer = add(knitter, picture())
    assert answer.status_code == 507
    assert "no room for more pictures" in answer.json()["refused"][0]
    assert Contribution.objects.count() == Photo.objects.count() == 0


def test_too_many_pictures_within_an_hour_are_told_to_wait(
    knitter: Knitter, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(limits, "MOST_AN_HOUR", 1)
    assert add(knitter, picture()).status_code == 200
    answer = add(knitter, picture("teal"))
    assert answer.status_code == 429 and "in an hour" in answer.json()["refused"][0]


def phone_file(name: str) -> SimpleUploadedFile:
    """What a telephone sends: HEIC under the name of a JPEG."""
    file = io.BytesIO()
    Image.effect_noise((1300, 1200), 50).convert("RGB").save(file, "HEIF")
    return SimpleUploadedFile(name, file.getvalue(), "image/jpeg")


def test_heic_under_the_name_of_a_jpeg_is_taken_as_what_it_is(knitter: Knitter) -> None:
    assert add(knitter, phone_file("IMG_0042.jpg")).status_code == 200
    assert knitter.garment.photos.get().kind == "heif"


def test_of_a_motion_photo_the_film_behind_the_picture_is_in_no_size(knitter: Knitter) -> None:
    still = picture().read()
    film = b"\x00\x00\x00\x18ftypmp42" + b"SECRET-MOTION" * 400
    file = SimpleUploadedFile("MVIMG.jpg", still + film, "image/jpeg")
    assert add(knitter, file).status_code == 200
    made = knitter.garment.photos.get().renditions.get()
    kept = safe_pictures().path(made.sha256).read_bytes()
    assert b"SECRET-MOTION" not in kept and b"ftyp" not in kept
    assert kept.endswith(b"\xff\xd9")


def test_of_twelve_pictures_the_broken_one_alone_is_refused(knitter: Knitter) -> None:
    files = [picture(f"#{number:02x}8080") for number in range(0, 220, 20)]
    answers = [add(knitter, file).status_code for file in [*files, broken()]]
    assert answers == [200] * 11 + [422]
    assert knitter.garment.photos.count() == 11


def test_the_thirteenth_picture_is_told_that_there_is_no_room(
    knitter: Knitter, settings: Any
) -> None:
    settings.UPLOAD_MAX_PICTURES = 1
    add(knitter, picture())
    answer = add(knitter, picture("teal"))
    assert answer.status_code == 422 and "room for 1" in answer.json()["refused"][0]
    assert answer.json()["room_left"] == 0


@pytest.mark.parametrize(("room", "kept"), [(0, 1), (1, 1), (-1, 0)])
def test_the_pictures_of_one_garment_have_a_limit_together(
    knitter: Knitter, settings: Any, room: int, kept: int
) -> None:
    file = picture()
    settings.UPLOAD_MAX_GARMENT_BYTES = (file.size or 0) + room
    answer = add(knitter, file)
    assert Photo.objects.count() == kept
    assert answer.status_code == (200 if kept else 422)


def test_without_a_picture_the_first_step_is_not_good(knitter: Knitter) -> None:
    answer = step(knitter, "pictures").json()
    assert answer["good"] is False
    assert "at least one picture" in answer["parts"]["pictures"]


def test_a_good_step_gives_nothing_to_replace(knitter: Knitter) -> None:
    add(knitter, picture())
    assert step(knitter, "pictures").json()["parts"] == {}
    assert step(knitter, "garment").json() == {
        "good": True,
        "parts": {},
        "as_of": step(knitter, "keep").json()["as_of"],
    }


def test_a_missing_size_is_told_in_its_step(knitter: Knitter) -> None:
    answer = step(knitter, "garment", size="").json()
    assert answer["good"] is False
    assert "Please choose the size you made." in answer["parts"]["garment"]


def test_a_mistake_in_the_yarn_is_told_where_the_yarn_stands(knitter: Knitter) -> None:
    wrong = step(knitter, "garment", yarn_choice="other").json()
    assert list(wrong["parts"]) == ["garment"]
    assert "name of your yarn" in wrong["parts"]["garment"]
    right = step(knitter, "changes", body_length_amount="a bit").json()
    assert list(right["parts"]) == ["changes"]


def test_an_allowed_picture_asks_about_the_people_in_it_in_its_own_step(knitter: Knitter) -> None:
    add(knitter, picture())
    asked = knitter.browser.get(knitter.send_address).context["sending"].permissions.wording
    given = {"asked": asked, "allow_film": "yes", "is_old_enough": "on"}
    answer = step(knitter, "permissions", **given).json()
    assert answer["good"] is False
    assert "who can be recognised" in answer["parts"]["pictures"]


def test_what_is_typed_is_kept_at_every_step(knitter: Knitter) -> None:
    add(knitter, picture())
    name = f"picture-{knitter.garment.photos.get().public_id}"
    step(knitter, "keep", notes="Half way.", **{f"{name}-description": "Front view"})
    assert knitter.garment.typed["notes"] == "Half way."
    assert knitter.garment.photos.get().description == "Front view"


def test_an_unknown_step_only_keeps(knitter: Knitter) -> None:
    assert step(knitter, "another").json() == {"good": True, "parts": {}}


def test_i_changed_nothing_and_a_change_contradict_each_other(knitter: Knitter) -> None:
    answer = step(knitter, "changes", nothing_changed="on", body_length_amount="5").json()
    assert "You also told a change: Body longer or shorter." in answer["parts"]["changes"]
    assert step(knitter, "changes", nothing_changed="on").json()["good"] is True


def test_the_last_step_says_everything_once_more(knitter: Knitter) -> None:
    add(knitter, picture())
    asked = knitter.browser.get(knitter.send_address).context["sending"].permissions.wording
    given = {"asked": asked, "allow_notes": "yes", "is_old_enough": "on", "credit_name": "Bé"}
    look = step(knitter, "look", body_length_amount="5", **given).json()
    assert look["good"] is True
    said = look["parts"]["look"]
    assert "+5 cm" in said and "Bé" in said and "No, it was left open" in said
    assert f"{knitter.send_address}slide.jpg?notes=yes" in said


def slide(knitter: Knitter, **allowed: str) -> Any:
    return knitter.browser.get(knitter.send_address + "slide.jpg", allowed)


def test_the_slide_is_drawn_as_the_film_would_for_its_sender_alone(
    knitter: Knitter, another: Any
) -> None:
    add(knitter, picture())
    step(knitter, "keep", credit_name="Bérénice", body_length_amount="5")
    answer = slide(knitter)
    assert (answer.status_code, answer["Content-Type"]) == (200, "image/jpeg")
    assert "no-store" in answer["Cache-Control"]
    assert slide(knitter, name="yes").content != answer.content
    assert slide(knitter, notes="yes").content != answer.content
    assert slide(another()).status_code == 404


def test_after_sending_each_door_of_a_draft_leads_to_the_thanks(knitter: Knitter) -> None:
    add(knitter, picture())
    photo = knitter.garment.photos.get()
    knitter.post(**{f"picture-{photo.public_id}-people": "nobody"})
    answers = [add(knitter, picture("teal")), step(knitter, "keep"), deed(knitter, photo, "turn")]
    assert [one.status_code for one in answers] == [409] * 3
    assert {one.json()["sent"] for one in answers} == {knitter.sent_address}
    assert Contribution.objects.get().photos.count() == 1


def test_a_picture_is_turned_a_quarter_and_its_words_stay(knitter: Knitter) -> None:
    add(knitter, picture())  # 64 by 48
    photo = knitter.garment.photos.get()
    name = f"picture-{photo.public_id}-description"
    answer = deed(knitter, photo, "turn", **{name: "Front view"}).json()
    assert 'width="48" height="64"' in answer["html"] and "Front view" in answer["html"]
    photo.refresh_from_db()
    assert photo.turn == 90


def test_a_picture_is_taken_out_and_makes_room(knitter: Knitter) -> None:
    add(knitter, picture())
    photo = knitter.garment.photos.get()
    assert deed(knitter, photo, "take_out").json() == {"gone": True, "room_left": 12}
    assert deed(knitter, photo, "turn").status_code == 404


def test_the_order_of_the_page_is_the_order_kept(knitter: Knitter) -> None:
    for colour in ("sienna", "teal", "olive"):
        add(knitter, picture(colour))
    one, two, three = (photo.public_id for photo in knitter.garment.photos.all())
    step(knitter, "keep", order=[three, one, two])
    assert [photo.public_id for photo in knitter.garment.photos.all()] == [three, one, two]
    knitter.post("later", later=three, order=[three, one, two])
    assert [photo.public_id for photo in knitter.garment.photos.all()] == [one, three, two]


def test_four_quarter_turns_leave_a_cut_as_it_was() -> None:
    cut = [1000, 2000, 8000, 9500]
    once = turned_cut(cut)
    assert once == [500, 1000, 8000, 8000]  # the bottom's 5 % are on the left now
    assert turned_cut(turned_cut(turned_cut(once))) == cut


def test_a_kept_cut_is_shown_in_percent() -> None:
    assert percents([1000, 0, 8750, 10_000]) == {"left": "10", "right": "12.5"}


def large(knitter: Knitter) -> Photo:
    """A picture large enough to cut: red on the left, blue on the right."""
    both = Image.new("RGB", (800, 600), "red")
    both.paste("blue", (400, 0, 800, 600))
    file = io.BytesIO()
    both.save(file, "JPEG")
    add(knitter, SimpleUploadedFile("both.jpg", file.getvalue(), "image/jpeg"))
    return knitter.garment.photos.get()


def cut(knitter: Knitter, photo: Photo, **away: str) -> Any:
    return knitter.browser.post(f"{knitter.send_address}picture/{photo.public_id}/cut/", away)


def test_what_is_cut_away_is_in_no_size(knitter: Knitter) -> None:
    photo = large(knitter)
    assert cut(knitter, photo, left="50").status_code == 302
    src = knitter.browser.get(knitter.send_address).context["sending"].photos[0].shown.src
    shown = Image.open(io.BytesIO(b"".join(knitter.browser.get(src))))
    assert shown.width / shown.height == pytest.approx(400 / 600, rel=0.01)
    reddest = shown.convert("RGB").getextrema()[0][1]
    assert reddest < 60


def test_the_whole_picture_is_always_there_again(knitter: Knitter) -> None:
    photo = large(knitter)
    cut(knitter, photo, left="50")
    cut(knitter, photo, whole="yes")
    photo.refresh_from_db()
    assert photo.crop == []


@pytest.mark.parametrize(
    ("away", "words"),
    [
        ({"left": "60", "right": "40"}, "nothing would be left"),
        ({"left": "80"}, "Less than 200 pixels"),
        ({"left": "a lot"}, "cannot be read as a number"),
        ({"left": "99"}, "between 0 and 95"),
    ],
)
def test_a_cut_that_cannot_be_is_told_and_changes_nothing(
    knitter: Knitter, away: dict[str, str], words: str
) -> None:
    photo = large(knitter)
    answer = cut(knitter, photo, **away)
    assert answer.status_code == 200 and words in answer.content.decode()
    photo.refresh_from_db()
    assert photo.crop == []


def test_a_picture_of_somebody_elses_draft_cannot_be_cut(knitter: Knitter, another: Any) -> None:
    photo = large(knitter)
    assert cut(another(), photo, left="10").status_code == 404
