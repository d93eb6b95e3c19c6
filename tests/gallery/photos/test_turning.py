"""Every picture stands upright, whichever way its file says it was held."""

import pytest
from PIL import Image

from gallery.contributions.photos.upright import ORIENTATION, fitted

# How a camera stores the upright scene for each value (Exif 2.3, 4.6.4, tag Orientation): the
# inverse of the turn that shows it. 6 is stored turned to the left, 8 turned to the right.
STORED = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_90,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_270,
}


def stored(scene: Image.Image, orientation: int) -> Image.Image:
    return scene.transpose(STORED[orientation]) if orientation in STORED else scene


def exif(orientation: int) -> bytes:
    said = Image.Exif()
    said[ORIENTATION] = orientation
    return said.tobytes()


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "AVIF", "HEIF"])
@pytest.mark.parametrize("orientation", range(10))
def test_a_picture_is_upright_for_every_orientation(
    written, take, scene, apart, *, kind, orientation
):
    # Both writers of ISO files turn the tag into the box `irot`/`imir` that readers obey.
    path = written("front", stored(scene, orientation), kind, exif=exif(orientation))
    received = take(path)
    assert (received.inspected.width, received.inspected.height) == scene.size
    with Image.open(received.small.path) as small:
        assert apart(small, scene.resize(small.size)) < 6


def test_a_heif_that_carries_both_its_turn_and_the_tag_is_turned_once(written, take, scene, apart):
    whole = written("whole", stored(scene, 6), "HEIF", exif=exif(6)).read_bytes()
    # As phones write it: the turn as a box and, for old readers, the tag once more.
    tag = bytes.fromhex("0112 0003 00000001")
    assert (whole.count(b"irot"), whole.count(tag)) == (1, 1)
    at = whole.index(tag) + len(tag)
    received = take(written("front.heic", whole[:at] + b"\x00\x06" + whole[at + 2 :]))
    with Image.open(received.small.path) as small:
        assert apart(small, scene.resize(small.size)) < 6


def test_in_a_heif_the_tag_alone_turns_nothing(written, take, scene):
    # ISO/IEC 23008-12: only the boxes turn the picture, the tag is for information.
    said = Image.Exif()
    said.load(exif(6))
    path = written("front.heic", scene, "HEIF", exif=said)  # this way no box is written
    assert b"irot" not in path.read_bytes()
    assert take(path).inspected.width == scene.width


def test_damaged_exif_is_no_reason_to_refuse(written, take, scene):
    path = written("front.jpg", scene, "JPEG", exif=b"Exif\0\0MM\0*\xff\xff\xff\xff broken")
    assert take(path).inspected.width == 480


def test_sizes_are_of_the_longer_side(scene):
    assert fitted(scene, 240).size == (240, 160)
    assert fitted(scene.transpose(Image.Transpose.ROTATE_90), 240).size == (160, 240)


def test_nothing_is_enlarged(scene):
    assert fitted(scene, 481).size == scene.size


def test_a_very_narrow_picture_keeps_at_least_one_pixel():
    assert fitted(Image.new("L", (9000, 3)), 400).size == (400, 1)
