"""What is taken and what is refused, by content and never by name."""

import zipfile

import pytest
from PIL import Image

EPS = b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 9 9\nshowpage\n"
OTHERS = {
    "postscript.jpg": (EPS, "a PostScript file"),
    "drawing.svg": (b'<svg xmlns="http://www.w3.org/2000/svg"/>', "an SVG drawing"),
    "declared.svg": (b'<?xml version="1.0"?>\n<svg/>', "an SVG drawing"),
    "page.jpg": (b"<!DOCTYPE html><title>x</title>", "a web page"),
    "script.png": (b"\xef\xbb\xbf <script>alert(1)</script>", "a web page"),
    "paper.pdf": (b"%PDF-1.7\n", "a PDF"),
    "program.jpg": (b"MZ\x90\x00" + bytes(60), "a program"),
    "film.jpg": (b"\0\0\0\x18ftypisom\0\0\0\0isommp42" + bytes(40), "a video"),
    "film.mov": (b"\0\0\0\x14ftypqt  \0\0\0\0qt  ", "a video"),
    "film.webm": (b"\x1aE\xdf\xa3" + bytes(40), "a video"),
    "film.avi": (b"RIFF\x24\0\0\0AVI LIST", "a video"),
    "raw.cr3": (b"\0\0\0\x18ftypcrx \0\0\0\x01crx isom", "a raw photo"),
    "list.jpg": (b"ffconcat version 1.0\nfile other.jpg\n", "a playlist"),
    "words.jpg": (b"this is no picture", "a file of another kind"),
    "riff.webp": (b"RIFF\x24\0\0\0ABCD", "a file of another kind"),
}


@pytest.mark.parametrize("name", OTHERS)
def test_a_file_of_another_kind_is_refused_by_its_own_word(written, refusal, name):
    content, word = OTHERS[name]
    refused = refusal(written(name, content))
    assert refused.code == "kind"
    assert refused.sentence.startswith(f"This is {word}")


def test_a_zip_archive_is_refused(tmp_path, refusal):
    path = tmp_path / "photos.jpg"
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("one.jpg", b"\xff\xd8\xff")
    assert refusal(path).sentence.startswith("This is a ZIP archive or a document")


@pytest.mark.parametrize("kind", ["GIF", "BMP", "TIFF"])
def test_a_picture_of_a_kind_not_shown_here_is_refused(written, refusal, scene, kind):
    refused = refusal(written("front.jpg", scene, kind))
    assert refused.sentence.startswith(f"This is a {kind}")
    assert "Please send a JPEG" in refused.sentence


def test_an_empty_file_is_refused_as_empty(written, refusal):
    refused = refusal(written("front.jpg", b""))
    assert refused.sentence == "This file is empty. Please choose the picture again."


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "HEIF", "AVIF"])
@pytest.mark.parametrize("name", ["front.jpg", "front.heic", "front", "front.txt"])
def test_a_picture_is_taken_as_what_it_is_whatever_its_name(written, take, scene, kind, name):
    inspected = take(written(name, scene, kind)).inspected
    assert (inspected.kind, inspected.width, inspected.height) == (kind.lower(), 480, 320)
    assert inspected.notes == ()


def test_a_name_that_is_not_utf_8_does_no_harm(written, take, scene):
    assert take(written("front\udcff.jpg", scene, "JPEG")).inspected.kind == "jpeg"


def test_of_an_animated_picture_the_first_is_used_and_that_is_said(written, take, scene, apart):
    later = [Image.new("RGB", scene.size, "black"), Image.new("RGB", scene.size, "white")]
    path = written("a.webp", scene, "WEBP", save_all=True, append_images=later, lossless=True)
    received = take(path)
    assert received.inspected.notes == (
        "The file holds several pictures; only the first one is used.",
    )
    with Image.open(received.small.path) as small:
        assert apart(small, scene.resize(small.size)) < 4


@pytest.mark.parametrize("kind", ["PNG", "AVIF", "HEIF", "MPO"])
def test_of_several_pictures_only_the_first_is_remade(written, take, scene, apart, kind):
    later = [Image.new("RGB", scene.size, "black")]
    received = take(written("a.jpg", scene, kind, save_all=True, append_images=later))
    assert len(received.inspected.notes) == 1
    with Image.open(received.small.path) as small:
        assert getattr(small, "n_frames", 1) == 1
        assert apart(small, scene.resize(small.size)) < 6
