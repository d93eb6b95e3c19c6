"""Camera files of the demo: upright by their EXIF, with the traces real photos carry."""

from datetime import datetime
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageOps
from PIL.ExifTags import GPS, IFD, Base

from gallery.demo.camera import COMMENT, Kind, Place, save_as_camera_file

OCEAN = (-34.5125, -120.25)
TAKEN = datetime(2026, 3, 14, 9, 26, 53)


def a_picture() -> Image.Image:
    """Red above, blue below, a green corner at the upper left: no turn leaves it the same."""
    pixels = np.zeros((96, 128, 3), dtype=np.uint8)
    pixels[:48], pixels[48:] = (200, 40, 40), (40, 40, 200)
    pixels[:48, :48] = (40, 200, 40)
    return Image.fromarray(pixels)


def saved(path: Path, kind: Kind, orientation: int = 1, gps: Place | None = OCEAN) -> Image.Image:
    save_as_camera_file(
        a_picture(),
        path,
        orientation=orientation,
        gps=gps,
        taken=TAKEN,
        camera="Lumenwick 4",
        kind=kind,
    )
    return Image.open(path)


@pytest.mark.parametrize("kind", ["jpeg", "png", "webp", "heic"])
@pytest.mark.parametrize("orientation", range(1, 9))
def test_every_orientation_comes_out_upright(tmp_path: Path, kind: Kind, orientation: int) -> None:
    with saved(tmp_path / "photo", kind, orientation) as opened:
        upright = np.asarray(ImageOps.exif_transpose(opened).convert("RGB")).astype(int)
    assert upright.shape == (96, 128, 3)
    assert np.abs(upright - np.asarray(a_picture()).astype(int)).mean() < 8


def test_a_turned_file_stores_turned_pixels(tmp_path: Path) -> None:
    with saved(tmp_path / "photo", "jpeg", 6) as opened:
        assert opened.size == (96, 128)
        assert opened.getexif()[Base.Orientation] == 6


@pytest.mark.parametrize("kind", ["jpeg", "png", "webp", "heic"])
def test_the_invented_place_is_in_the_file(tmp_path: Path, kind: Kind) -> None:
    with saved(tmp_path / "photo", kind) as opened:
        found = opened.getexif().get_ifd(IFD.GPSInfo)
    assert found[GPS.GPSLatitudeRef] == "S"
    assert found[GPS.GPSLatitude] == (34, 30, 45)  # 0.5125° is 30′ 45″
    assert found[GPS.GPSLongitude] == (120, 15, 0)


def test_no_place_is_written_where_none_is_given(tmp_path: Path) -> None:
    with saved(tmp_path / "photo", "jpeg", gps=None) as opened:
        assert opened.getexif().get_ifd(IFD.GPSInfo) == {}


def test_the_camera_its_date_and_a_comment_are_in_the_file(tmp_path: Path) -> None:
    with saved(tmp_path / "photo", "jpeg") as opened:
        exif = opened.getexif()
        assert exif[Base.Model] == "Lumenwick 4"
        assert exif.get_ifd(IFD.Exif)[Base.DateTimeOriginal] == "2026:03:14 09:26:53"
        assert opened.info["comment"] == COMMENT.encode()


def test_a_small_picture_of_the_stored_pixels_lies_in_the_exif(tmp_path: Path) -> None:
    with saved(tmp_path / "photo", "jpeg", 6) as opened:
        second = opened.getexif().get_ifd(IFD.IFD1)
        block = opened.info["exif"][6:]
    start, length = second[Base.JpegIFOffset], second[Base.JpegIFByteCount]
    with Image.open(BytesIO(block[start : start + length])) as small:
        assert small.format == "JPEG"
        assert small.size == (96, 128)


def test_an_orientation_beyond_eight_is_refused(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="from 1 to 8"):
        saved(tmp_path / "photo", "jpeg", 9)
