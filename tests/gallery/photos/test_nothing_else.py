"""Of what was sent only the pixels stay: no place, no comment, no second picture."""

import json
import os
import shutil
import subprocess

import pytest
from PIL import Image, ImageCms

from gallery.contributions.photos.safely import remake_safely

SIZES = {"small": 400, "medium": 1200, "film": 2560}
SECRET = "SECRET of the sender"
XMP = f'<x:xmpmeta xmlns:x="adobe:ns:meta/"><a>{SECRET}</a></x:xmpmeta>'.encode()
ALLOWED = {"File", "JFIF", "ICC_Profile", "Composite", "ExifTool", "SourceFile"}
TELLTALES = (b"SECRET", b"GPS", b"Exif", b"xmpmeta", b"http:", b"Photoshop", b"MPF", b"ftyp")


def telling() -> Image.Exif:
    """EXIF with an invented place, camera and description."""
    exif = Image.Exif()
    exif[0x010E] = SECRET  # ImageDescription
    exif[0x0110] = SECRET  # Model
    exif.get_ifd(0x8825).update({1: "N", 2: (12.0, 34.0, 56.0), 3: "E", 4: (65.0, 43.0, 21.0)})
    return exif


def with_thumbnail(exif: Image.Exif, picture: Image.Image) -> bytes:
    """The same EXIF with a second directory whose thumbnail follows at the end."""
    whole = exif.tobytes()
    return whole + b"\xff\xd8\xff\xe0" + SECRET.encode() + picture.tobytes()[:4000]


@pytest.fixture(params=["JPEG", "MPO", "PNG", "WEBP", "HEIF", "AVIF"])
def talkative(request, written, scene):
    """A picture of each kind that says as much as its format can carry."""
    kind = request.param
    how = {"exif": with_thumbnail(telling(), scene), "xmp": XMP}
    if kind in ("JPEG", "MPO"):
        how |= {"comment": SECRET, "save_all": kind == "MPO", "append_images": [scene.rotate(90)]}
    content = written("whole", scene, kind, **how).read_bytes()
    assert SECRET.encode() in content
    return written("front", content + b"\0\0\0\x18ftypmp42" + SECRET.encode())


@pytest.fixture
def remade(talkative, tmp_path):
    return remake_safely(talkative, tmp_path, SIZES)


def test_no_word_of_the_sender_s_file_is_left(remade):
    for one in remade:
        content = one.path.read_bytes()
        assert [word for word in TELLTALES if word in content] == []


def test_nothing_follows_the_end_of_the_picture(remade):
    for one in remade:
        content = one.path.read_bytes()
        assert content.index(b"\xff\xd9", content.index(b"\xff\xda")) == len(content) - 2


def test_every_size_says_that_its_colours_are_srgb(remade):
    for one in remade:
        with Image.open(one.path, formats=("JPEG",)) as picture:
            assert set(picture.info) <= {
                "jfif",
                "jfif_version",
                "jfif_unit",
                "jfif_density",
                "icc_profile",
                "progressive",
                "progression",
            }
            profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB"))
            assert len(picture.info["icc_profile"]) == len(profile.tobytes())


@pytest.fixture
def exiftool():
    """Ask exiftool for all it finds, by group."""
    if not shutil.which("exiftool"):
        missing = "exiftool is missing: install the Debian package libimage-exiftool-perl"
        if os.environ.get("GALLERY_TESTS_NO_SKIPS") == "1":
            pytest.fail(missing)
        pytest.skip(missing)

    def groups(path) -> set[str]:
        told = subprocess.run(["exiftool", "-G", "-j", path], capture_output=True, check=True)
        [found] = json.loads(told.stdout)
        return {name.partition(":")[0] for name in found}

    return groups


@pytest.mark.outside
def test_a_program_from_outside_finds_nothing_but_the_picture(remade, exiftool):
    for one in remade:
        assert exiftool(one.path) <= ALLOWED


@pytest.mark.outside
def test_that_program_would_have_found_it_in_what_was_sent(talkative, exiftool):
    assert {"EXIF", "XMP"} & exiftool(talkative)
