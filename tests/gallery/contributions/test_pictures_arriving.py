"""Pictures on their way in: good ones stay, bad ones are named, nothing typed is lost."""

import re
from typing import Any

import pytest
from django.core.files.uploadedfile import UploadedFile

from gallery import jobs
from gallery.contributions import limits
from gallery.contributions.models import Contribution, Photo, Rendition
from gallery.contributions.pictures import SIZES, original_path
from gallery.contributions.uploads import MeasuredUpload

from .conftest import Knitter, broken, picture

pytestmark = pytest.mark.django_db
COLOURS = [f"#{number:02x}4020" for number in range(0, 240, 8)]  # thirty different pictures


def mistakes(answer: Any) -> str:
    return str(answer.context["sending"].pictures.errors.get("pictures", ""))


def test_one_broken_picture_among_many_keeps_the_others_and_what_was_typed(
    knitter: Knitter,
) -> None:
    files = [picture(colour, f"{colour[1:]}.jpg") for colour in COLOURS[:4]]
    answer = knitter.post(pictures=[*files, broken()], notes="It took all winter.", size="5")
    assert "broken.jpg" in mistakes(answer)
    assert knitter.garment.photos.count() == 4
    assert knitter.garment.sent_at is None
    page = answer.content.decode()
    assert "It took all winter." in page
    assert re.search(r'name="size" value="5"[^>]* checked', page)


def test_a_mistake_in_the_form_keeps_the_pictures(knitter: Knitter) -> None:
    answer = knitter.post(pictures=picture(), size="", body_length_amount="five")
    assert knitter.garment.photos.count() == 1
    assert "Please choose the size you made." in answer.content.decode()
    assert "“five” cannot be read as a length" in answer.content.decode()
    assert 'value="five"' in answer.content.decode()


def test_each_mistake_is_listed_on_top_with_a_link_to_its_field(knitter: Knitter) -> None:
    page = knitter.post(pictures=picture(), size="", email="anselma").content.decode()
    top = page[page.index("errors-on-top") : page.index("<form class")]
    assert 'href="#id_size_0"' in top
    assert 'href="#id_email"' in top


def test_of_thirty_pictures_twelve_are_kept_and_the_rest_are_named(knitter: Knitter) -> None:
    files = [picture(colour, f"number-{n}.jpg") for n, colour in enumerate(COLOURS)]
    answer = knitter.post("add", pictures=files)
    assert knitter.garment.photos.count() == 12
    assert "room for 12 pictures" in mistakes(answer)
    assert all(f"number-{n}.jpg" in mistakes(answer) for n in range(12, 30))


def test_the_same_picture_is_kept_once_and_it_is_said(knitter: Knitter) -> None:
    knitter.post("add", pictures=picture())
    answer = knitter.post("add", pictures=picture(name="again.jpg"))
    assert knitter.garment.photos.count() == 1
    assert "again.jpg” was already here" in answer.content.decode()


def test_the_same_picture_again_does_not_hold_up_the_sending(knitter: Knitter) -> None:
    knitter.post("add", pictures=picture())
    knitter.post("send", pictures=picture())
    assert knitter.garment.sent_at is not None


def test_a_picture_that_is_too_large_is_refused_by_name(knitter: Knitter, settings: Any) -> None:
    settings.UPLOAD_MAX_PICTURE_BYTES = 100
    answer = knitter.post(pictures=picture(name="huge.jpg"))
    assert "huge.jpg" in mistakes(answer)
    assert "It is larger than" in mistakes(answer)


def test_no_picture_at_all_is_asked_for(knitter: Knitter) -> None:
    answer = knitter.post(notes="words only")
    assert "at least one picture" in mistakes(answer)
    assert "words only" in answer.content.decode()
    assert Contribution.objects.count() == 0


def test_a_description_typed_before_sending_comes_with_its_picture(knitter: Knitter) -> None:
    files = [picture(), picture("teal", "back.jpg")]
    said = ["From the front, on a chair", "The back"]
    knitter.post(pictures=files, new_description=said, new_stage=["finished", "detail"])
    assert list(knitter.garment.photos.values_list("description", "stage")) == [
        ("From the front, on a chair", "finished"),
        ("The back", "detail"),
    ]


def test_a_description_that_is_too_long_comes_back_whole(knitter: Knitter) -> None:
    words = "long " * 120
    answer = knitter.post(pictures=picture(), new_description=[words], new_stage=["finished"])
    assert words in answer.content.decode()
    assert knitter.garment.sent_at is None


def test_a_kept_picture_can_be_described(knitter: Knitter) -> None:
    knitter.post("add", pictures=picture())
    photo = Photo.objects.get()
    prefix = f"picture-{photo.public_id}"
    knitter.post(**{f"{prefix}-description": "The cuff", f"{prefix}-stage": "detail"})
    photo.refresh_from_db()
    assert (photo.description, photo.stage) == ("The cuff", "detail")


def test_a_picture_can_be_taken_out_again(knitter: Knitter) -> None:
    knitter.post("add", pictures=picture())
    knitter.post("keep", take_out=Photo.objects.get().public_id)
    assert Photo.objects.count() == 0


def test_a_picture_of_a_sent_garment_cannot_be_taken_out(knitter: Knitter) -> None:
    knitter.post(pictures=picture())
    knitter.post("keep", take_out=Photo.objects.get().public_id)
    assert Photo.objects.count() == 1


def test_a_closed_browser_goes_on_where_it_was(knitter: Knitter) -> None:
    knitter.post("add", pictures=picture(), notes="Half way there.", allow_film="yes")
    page = knitter.browser.get(knitter.send_address).content.decode()
    assert "Half way there." in page
    assert knitter.token in page
    # A permission is never remembered for her.
    assert not re.search(r'<input[^>]*name="allow_[^>]*\bchecked', page)


def test_the_cookie_of_a_draft_is_for_this_series_and_for_no_script(knitter: Knitter) -> None:
    knitter.post("add", pictures=picture())
    cookie = knitter.browser.cookies["draft-ostrimane-evenings"]
    assert (cookie["path"], cookie["httponly"], cookie["samesite"]) == (
        "/",  # the page has an address in each language
        True,
        "Lax",
    )


def test_before_a_picture_is_kept_there_is_no_cookie_and_no_row(knitter: Knitter) -> None:
    knitter.post("add", pictures=broken())
    assert "draft" not in knitter.browser.cookies
    assert Contribution.objects.count() == 0


def test_more_pictures_than_an_hour_may_bring_wait_politely(
    knitter: Knitter, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(limits, "MOST_AN_HOUR", 1)
    files = [picture(), picture("teal", "later.jpg")]
    answer = knitter.post(pictures=files, notes="all typed")
    assert answer.status_code == 429
    assert "later.jpg" in mistakes(answer)
    assert "all typed" in answer.content.decode()
    assert knitter.garment.photos.count() == 1


def test_a_full_disk_takes_no_picture_and_loses_no_word(
    knitter: Knitter, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(limits, "has_room", lambda _: False)
    answer = knitter.post(pictures=picture(), notes="all typed")
    assert answer.status_code == 507
    assert "no room for more pictures" in mistakes(answer)
    assert "all typed" in answer.content.decode()
    assert Photo.objects.count() == 0


def test_a_request_larger_than_a_sending_is_answered_in_words(
    knitter: Knitter, settings: Any
) -> None:
    settings.UPLOAD_MAX_REQUEST_BYTES = 100
    answer = knitter.browser.post(knitter.send_address, {"pictures": picture()})
    assert answer.status_code == 413
    assert "choose fewer pictures" in answer.content.decode()


def test_what_was_sent_is_kept_as_it_is(knitter: Knitter) -> None:
    sent = picture()
    knitter.post(pictures=sent)
    sent.seek(0)
    assert original_path(Photo.objects.get()).read_bytes() == sent.read()


def test_all_safe_sizes_are_made_by_the_job_and_only_once(knitter: Knitter) -> None:
    knitter.post(pictures=picture())
    jobs.work_off()
    photo = Photo.objects.get()
    assert photo.safe_at is not None
    assert set(photo.renditions.values_list("size", flat=True)) == set(SIZES)
    assert Rendition.objects.count() == len(SIZES)


def test_a_file_name_with_markup_stays_text(knitter: Knitter) -> None:
    page = knitter.post(pictures=broken("<img src=x onerror=alert(1)>.jpg")).content.decode()
    assert "<img src=x" not in page


def arrive(chunks: list[bytes]) -> UploadedFile:
    """A file in pieces, the way the parser of a request hands them on."""
    handler = MeasuredUpload()
    handler.new_file("pictures", "huge.jpg", "image/jpeg", None)
    start = 0
    for chunk in chunks:
        handler.receive_data_chunk(chunk, start)
        start += len(chunk)
    file = handler.file_complete(start)
    assert file is not None
    return file


@pytest.mark.parametrize(
    ("chunks", "kept"),
    [
        ([b"a" * 60, b"b" * 39], 99),
        ([b"a" * 60, b"b" * 40], 100),
        ([b"a" * 60, b"b" * 41], 101),  # one byte more tells that it was too large
        ([b"a" * 60, b"b" * 60, b"c" * 900], 101),
    ],
)
def test_of_a_file_that_is_too_large_only_one_byte_more_is_written(
    settings: Any, chunks: list[bytes], kept: int
) -> None:
    settings.UPLOAD_MAX_PICTURE_BYTES = 100
    with arrive(chunks) as file:
        assert (file.size, len(file.read())) == (kept, kept)


def test_the_page_after_a_mistake_can_be_loaded_again(knitter: Knitter) -> None:
    knitter.post(notes="still here", email="anselma")
    again = knitter.browser.get(f"{knitter.send_address}?again=1").content.decode()
    assert "still here" in again
    assert "needs an @" in again


def test_a_session_holds_no_token(knitter: Knitter) -> None:
    knitter.post("add", pictures=picture())
    assert knitter.token not in str(dict(knitter.browser.session))


def test_a_round_too_large_for_the_session_is_answered_directly(knitter: Knitter) -> None:
    words = "word " * 30_000
    page = knitter.post(pictures=picture(), notes=words).content.decode()
    assert words.strip() in page
    assert "Please keep your words to 4000 letters" in page
