"""The pack to hand over, read back by readers that are not ours; closed once something is gone."""

import hashlib
import io
import json
import zipfile

import pytest
import webvtt

from gallery import jobs
from gallery.album import pack
from gallery.album.collect import collect
from gallery.album.models import Film
from gallery.consent.purposes import FILM, NAME, NOTES

pytestmark = pytest.mark.django_db
NAUGHTY = "Ærwyn <i>O’Quill</i> & Søn --> 2"


@pytest.fixture
def unzipped(garment, album, filmed):
    """The pack of a film of three garments; one of them names nobody."""
    garment("Wrenna Quist")
    garment("Ilka Vandermoot", (FILM, NOTES))
    garment(NAUGHTY, (FILM, NAME))
    with pack.write_pack(filmed(album()).film) as file, zipfile.ZipFile(file) as archive:
        assert archive.testzip() is None
        return {name: archive.read(name) for name in archive.namelist()}


def test_the_pack_holds_everything_an_editor_needs(unzipped):
    assert set(unzipped) == {
        "film.mp4",
        "poster.jpg",
        "captions.vtt",
        "chapters.vtt",
        "chapters.txt",
        "credits.txt",
        "account.txt",
        "READ ME FIRST.txt",
        "manifest.json",
    }


def test_the_credits_are_exactly_the_permitted_names_in_order(unzipped):
    assert unzipped["credits.txt"].decode() == f"Wrenna Quist\n{NAUGHTY}\n"


def test_a_name_that_is_not_permitted_stands_nowhere_in_the_pack(unzipped):
    assert not any(b"Ilka" in data for name, data in unzipped.items() if name != "film.mp4")


def test_the_manifest_knows_the_sha256_of_every_other_file(unzipped):
    told = json.loads(unzipped.pop("manifest.json"))
    assert told == {name: hashlib.sha256(data).hexdigest() for name, data in unzipped.items()}


def test_captions_and_chapters_are_read_by_another_reader(unzipped):
    captions = webvtt.from_buffer(io.StringIO(unzipped["captions.vtt"].decode()))
    chapters = webvtt.from_buffer(io.StringIO(unzipped["chapters.vtt"].decode()))
    assert len(captions.captions) == len(chapters.captions) == 5
    assert chapters.captions[0].start == "00:00:00.000"


def test_the_film_in_the_pack_is_stored_as_it_is(garment, album, filmed):
    garment()
    film = filmed(album()).film
    with pack.write_pack(film) as file, zipfile.ZipFile(file) as archive:
        entry = archive.getinfo("film.mp4")
    assert (entry.compress_type, entry.file_size) == (zipfile.ZIP_STORED, film.bytes)


@pytest.fixture
def closed(garment, album, filmed, take_back):
    """The address of a film from which one of two knitters took something back."""

    def close(purpose: str) -> str:
        photo, _ = garment(), garment()
        wish = filmed(album())
        take_back(photo, purpose)
        return f"/desk/films/{wish.public_id}/"

    return close


@pytest.mark.parametrize("purpose", [FILM, NAME, NOTES])
def test_a_film_is_closed_when_something_in_it_was_taken_back(closed, desk, purpose):
    page = closed(purpose)
    assert desk.get(page + "pack.zip").status_code == 302
    files = ("film.mp4", "poster.jpg", "captions.vtt")
    assert [desk.get(page + name).status_code for name in files] == [404, 404, 404]
    words = desk.get(page).text
    assert "This film holds something that was taken back" in words
    assert "Make the film again without it" in words
    assert words.count("Wrenna Quist") == 1  # only beside the slide of the other knitter


def test_one_click_makes_the_film_again_without_what_was_taken_back(
    garment, album, filmed, take_back, desk
):
    photo, stays = garment(), garment()
    made = album()
    filmed(made)
    take_back(photo, FILM)
    answer = desk.post(f"/desk/albums/{made.public_id}/film/")
    jobs.work_off()
    newest = Film.objects.first()
    assert [item.photo for item in newest.items.all()] == [stays]
    packed = desk.get(answer["Location"] + "pack.zip")
    assert zipfile.is_zipfile(io.BytesIO(b"".join(packed.streaming_content)))
    packed.close()


def test_what_was_allowed_after_the_film_was_made_does_not_close_it(garment, album, filmed):
    garment()
    made = album()
    film = filmed(made).film
    garment()
    collect(made)
    assert pack.open_plan(film).slides
