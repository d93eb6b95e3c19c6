"""The doors of the album: whose they are, what they keep, what they say."""

import io
import wave

import pytest
from django.contrib.auth.models import User
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from PIL import Image

from gallery.album import making
from gallery.album.models import Album, Slide
from gallery.album.previews import folder
from gallery.consent.purposes import FILM

pytestmark = pytest.mark.django_db


def browser_of(user: User) -> Client:
    browser = Client()
    browser.force_login(user)
    return browser


def own_slide(album: Album) -> Slide:
    return album.slides.get(kind=Slide.Kind.GARMENT)


def read(answer) -> bytes:
    """The body of an answer from a file, which is closed as a server would close it."""
    body = b"".join(answer.streaming_content) if answer.streaming else answer.content
    answer.close()
    return body


def addresses(wish):
    album, slide = wish.album, wish.album.slides.all()[1]
    places = (f"/desk/albums/{album.public_id}/", f"/desk/films/{wish.public_id}/")
    gets = ["", f"{slide.public_id}/640.jpg"]
    posts = ["collect/", "details/", "film/"]
    posts += [f"{slide.public_id}/{deed}/" for deed in ("move", "out", "back", "words", "name")]
    yield from (("get", places[0] + one) for one in gets)
    yield from (("post", places[0] + one) for one in posts)
    files = ("", "film.mp4", "poster.jpg", "captions.vtt", "pack.zip")
    yield from (("get", places[1] + one) for one in files)
    yield from (("post", places[1] + one) for one in ("cancel/", "go-on/"))
    yield "get", f"/desk/series/{album.series.slug}/albums/"


def test_for_another_teacher_nothing_of_an_album_is_there(garment, album, filmed):
    garment()
    wish = filmed(album())
    other = browser_of(User.objects.create_user("ilvane"))
    answers = {where: getattr(other, how)(where).status_code for how, where in addresses(wish)}
    assert set(answers.values()) == {404}


def test_who_is_not_signed_in_is_sent_to_the_door(garment, album, filmed):
    garment()
    wish = filmed(album())
    answers = [getattr(Client(), how)(where) for how, where in addresses(wish)]
    assert all(answer["Location"].startswith("/desk/login/") for answer in answers)


def test_the_keeper_of_the_site_may_help_out(garment, album):
    garment()
    keeper = browser_of(User.objects.create_superuser("keeper"))
    assert keeper.get(f"/desk/albums/{album().public_id}/").status_code == 200


def test_every_page_of_the_album_is_kept_by_no_cache(garment, album, filmed, desk):
    garment()
    gets = [where for how, where in addresses(filmed(album())) if how == "get"]
    answers = [desk.get(where) for where in gets]
    assert all(read(answer) for answer in answers)
    assert {answer["Cache-Control"] for answer in answers} == {"private, no-store"}


def test_an_album_is_begun_with_a_title_and_filled(garment, series, desk):
    garment()
    answer = desk.post(f"/desk/series/{series.slug}/albums/", {"title": "Our winter"})
    begun = Album.objects.get()
    assert (begun.title, begun.slides.count()) == ("Our winter", 3)
    assert answer["Location"] == f"/desk/albums/{begun.public_id}/"


def test_a_slide_is_drawn_as_a_picture_once_and_kept(garment, album, desk):
    garment()
    made = album()
    where = f"/desk/albums/{made.public_id}/{own_slide(made).public_id}/640.jpg"
    first = read(desk.get(where))
    assert Image.open(io.BytesIO(first)).size == (640, 360)
    kept = list(folder().glob("*/*.jpg"))
    assert len(kept) == 1
    assert read(desk.get(where)) == kept[0].read_bytes()


def test_a_withdrawn_photo_is_not_drawn_any_more(garment, album, desk, take_back):
    photo = garment()
    made = album()
    where = f"/desk/albums/{made.public_id}/{own_slide(made).public_id}/640.jpg"
    assert read(desk.get(where))
    take_back(photo, FILM)
    assert desk.get(where).status_code == 404
    assert "No longer allowed in the film" in desk.get(f"/desk/albums/{made.public_id}/").text


def test_a_caption_left_as_it_was_made_goes_on_following_the_record(garment, album, desk):
    garment()
    made = album()
    slide = own_slide(made)
    page = desk.get(f"/desk/albums/{made.public_id}/")
    shown = next(tile for tile in page.context["board"].tiles if tile.slide == slide)
    words = {"words": shown.words, "version": made.version}
    desk.post(f"/desk/albums/{made.public_id}/{slide.public_id}/words/", words)
    assert Slide.objects.get(pk=slide.pk).words == ""


def test_back_to_the_generated_caption_is_one_click(garment, album, desk):
    garment()
    made = album()
    where = f"/desk/albums/{made.public_id}/{own_slide(made).public_id}/words/"
    desk.post(where, {"words": "A tunic for the garden", "version": made.version})
    assert own_slide(made).words == "A tunic for the garden"
    again = {"words": "A tunic for the garden", "generated": "1", "version": made.version + 1}
    desk.post(where, again)
    assert own_slide(made).words == ""


def test_after_a_conflict_what_was_typed_is_still_there(garment, album, desk):
    garment()
    made = album()
    where = f"/desk/albums/{made.public_id}/{own_slide(made).public_id}/words/"
    desk.post(where, {"words": "Hers", "version": made.version})
    answer = desk.post(where, {"words": "His, typed late", "version": made.version})
    assert answer.status_code == 409
    assert "His, typed late" in answer.text
    assert "changed in another window" in answer.text
    assert own_slide(made).words == "Hers"


def test_too_long_a_caption_is_refused_beside_its_field_and_kept(garment, album, desk):
    garment()
    made = album()
    where = f"/desk/albums/{made.public_id}/{own_slide(made).public_id}/words/"
    answer = desk.post(where, {"words": "a" * 2000, "version": made.version})
    assert "At most 600 letters fit on a slide; these are 2000." in answer.text
    assert "a" * 2000 in answer.text


def test_a_caption_that_does_not_fit_is_named_with_its_place_before_rendering(
    garment, album, desk, odalys
):
    garment()
    made = album()
    Slide.objects.filter(pk=own_slide(made).pk).update(words="wide words " * 50)
    page = desk.get(f"/desk/albums/{made.public_id}/")
    assert "Slide 2: the caption or the name needs more room" in page.text


def test_a_photo_not_ready_yet_is_said_on_the_desk(garment, album, desk):
    garment(is_ready=False)
    page = desk.get(f"/desk/albums/{album().public_id}/")
    assert "Slide 2: Its picture is still being made ready" in page.text


def details(album: Album, **changed):
    return {
        "title": album.title,
        "seconds_per_slide": "5",
        "look": "evening",
        "music_licence": "",
        "version": album.version,
        **changed,
    }


def sound() -> bytes:
    file = io.BytesIO()
    with wave.open(file, "wb") as music:
        music.setnchannels(1)
        music.setsampwidth(2)
        music.setframerate(8000)
        music.writeframes(b"\0\1" * 8000)
    return file.getvalue()


def test_title_pace_and_look_are_changed_together(album, desk):
    made = album()
    sent = details(made, title="Our winter", seconds_per_slide="6.5", look="morning")
    desk.post(f"/desk/albums/{made.public_id}/details/", sent)
    made.refresh_from_db()
    assert (made.title, float(made.seconds_per_slide), made.look) == ("Our winter", 6.5, "morning")


def test_details_typed_on_an_old_page_overwrite_nothing(album, desk):
    made = album()
    where = f"/desk/albums/{made.public_id}/details/"
    desk.post(where, details(made, title="Hers"))
    answer = desk.post(where, details(made, title="His, typed late"))
    assert answer.status_code == 409
    assert "His, typed late" in answer.text
    assert Album.objects.get().title == "Hers"


def test_music_is_kept_with_its_licence_and_heard_in_the_film(garment, album, desk, filmed):
    garment()
    made = album()
    file = SimpleUploadedFile("evening.wav", sound(), "audio/wav")
    sent = details(made, music=file, music_licence="Played by Odalys Brimworth")
    desk.post(f"/desk/albums/{made.public_id}/details/", sent)
    made.refresh_from_db()
    assert made.music_name == "evening.wav"
    assert '"licence_note": "Played by Odalys Brimworth"' in filmed(made).plan


@pytest.mark.parametrize("data", [b"#EXTM3U\nfile:///etc/passwd\n", b"", sound()[:20]])
def test_what_is_no_music_is_refused_in_words_by_its_own_name(album, desk, data):
    made = album()
    file = SimpleUploadedFile("evening.mp3", data, "audio/mpeg")
    sent = details(made, music=file, music_licence="mine", title="Typed")
    answer = desk.post(f"/desk/albums/{made.public_id}/details/", sent)
    assert answer.context["form"].errors["music"]
    assert "tmp" not in str(answer.context["form"].errors)
    assert "Typed" in answer.text
    assert Album.objects.get().music_sha256 == ""


def test_music_without_a_word_on_its_licence_is_refused(album, desk):
    made = album()
    file = SimpleUploadedFile("evening.wav", sound(), "audio/wav")
    answer = desk.post(f"/desk/albums/{made.public_id}/details/", details(made, music=file))
    assert answer.context["form"].errors["music_licence"] == ["Say why this music may be used."]


def test_the_progress_page_asks_again_by_itself_and_without_script(garment, album, desk, odalys):
    garment()
    wish = making.ask_for_film(album(), odalys)
    page = desk.get(f"/desk/films/{wish.public_id}/").text
    assert 'hx-trigger="every 2s"' in page
    assert '<noscript><meta http-equiv="refresh"' in page
    part = desk.get(f"/desk/films/{wish.public_id}/", headers={"HX-Request": "true"})
    assert "<html" not in part.text


def test_once_the_film_is_there_the_progress_gives_way_to_it(garment, album, desk, filmed):
    garment()
    wish = filmed(album())
    part = desk.get(f"/desk/films/{wish.public_id}/", headers={"HX-Request": "true"})
    assert part["HX-Refresh"] == "true"
    assert "<video" in desk.get(f"/desk/films/{wish.public_id}/").text


def test_a_failed_render_says_why_and_offers_to_try_again(garment, album, desk, odalys):
    garment()
    wish = making.ask_for_film(album(), odalys)
    making._fail(wish, "The disk is full: make room.")
    page = desk.get(f"/desk/films/{wish.public_id}/").text
    assert "The disk is full: make room." in page
    assert "Try again" in page


def test_an_album_changed_after_its_film_says_so(garment, album, desk, filmed):
    garment()
    made = album()
    wish = filmed(made)
    made.version += 1
    made.save()
    page = desk.get(f"/desk/films/{wish.public_id}/").text
    assert "The album was changed after this film was asked for." in page


@pytest.fixture
def film_bytes(garment, album, filmed, desk):
    """The address of a film and its bytes."""
    garment()
    where = f"/desk/films/{filmed(album()).public_id}/film.mp4"
    return where, read(desk.get(where))


@pytest.mark.parametrize(
    ("wanted", "first", "last"),
    [("bytes=0-99", 0, 99), ("bytes=100-", 100, None), ("bytes=-50", -50, None)],
)
def test_a_range_of_the_film_is_answered_with_206(desk, film_bytes, wanted, first, last):
    where, whole = film_bytes
    answer = desk.get(where, headers={"Range": wanted})
    expected = whole[first : None if last is None else last + 1]
    begins = len(whole) + first if first < 0 else first
    assert answer.status_code == 206
    assert read(answer) == expected
    ends = begins + len(expected) - 1
    assert answer["Content-Range"] == f"bytes {begins}-{ends}/{len(whole)}"


def test_a_range_behind_the_end_is_answered_with_416(desk, film_bytes):
    where, whole = film_bytes
    answer = desk.get(where, headers={"Range": f"bytes={len(whole)}-"})
    assert (answer.status_code, answer["Content-Range"]) == (416, f"bytes */{len(whole)}")


@pytest.mark.parametrize("wanted", ["bytes=5-2", "bytes=0-1,4-5", "lines=0-9", "bytes=-"])
def test_what_is_no_single_range_is_answered_with_the_whole_film(desk, film_bytes, wanted):
    where, whole = film_bytes
    answer = desk.get(where, headers={"Range": wanted})
    assert (answer.status_code, read(answer)) == (200, whole)


def test_the_album_says_which_of_its_films_is_closed(garment, album, filmed, desk, take_back):
    photo = garment()
    garment("Anselm Byrewood")
    made = album()
    filmed(made)
    where = f"/desk/albums/{made.public_id}/"
    assert "Closed: something was taken back" not in desk.get(where).content.decode()
    take_back(photo, FILM)
    assert "Closed: something was taken back" in desk.get(where).content.decode()
