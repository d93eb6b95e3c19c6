"""Saves a drawn picture as a camera would: turned pixels, EXIF, an invented place, a thumbnail."""

from datetime import datetime
from fractions import Fraction
from io import BytesIO
from pathlib import Path
from struct import Struct
from typing import Any, Literal

from PIL import Image
from PIL.ExifTags import GPS, IFD, Base
from PIL.TiffImagePlugin import IFDRational
from pillow_heif import register_heif_opener

Kind = Literal["jpeg", "heic", "png", "webp"]
Place = tuple[float, float]  # degrees north and east

register_heif_opener()

TURNED: dict[int, Image.Transpose] = {  # how upright pixels are stored for each EXIF orientation
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_90,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_270,
}
COMMENT = "Drawn for the demo; nobody was photographed."
THUMBNAIL = (160, 160)
SHORT, ENTRY, LONG = Struct("<H"), Struct("<HHII"), Struct("<I")
SAVED: dict[Kind, dict[str, Any]] = {
    "jpeg": {"format": "JPEG", "quality": 88, "comment": COMMENT},
    # The fastest setting: a demo may not keep its audience waiting.
    "heic": {"format": "HEIF", "quality": 70, "enc_params": {"preset": "ultrafast"}},
    "png": {"format": "PNG", "compress_level": 1},
    "webp": {"format": "WEBP", "quality": 82, "method": 0},
}


def save_as_camera_file(
    image: Image.Image,
    path: Path,
    *,
    orientation: int,
    gps: Place | None,
    taken: datetime,
    camera: str,
    kind: Kind,
) -> None:
    """Writes the upright image so that its orientation (1 to 8) makes it upright again.

    gps is in degrees north and east; camera is an invented name. Refuses another orientation.
    """
    if orientation not in range(1, 9):
        raise ValueError("An EXIF orientation is a number from 1 to 8.")
    stored = image.transpose(TURNED[orientation]) if orientation > 1 else image
    exif = _exif(orientation, gps, taken, camera)
    if kind == "jpeg":
        exif = _with_thumbnail(exif, stored)
    stored.save(path, exif=exif, **SAVED[kind])


def _exif(orientation: int, gps: Place | None, taken: datetime, camera: str) -> bytes:
    exif = Image.Exif()
    exif.endian = "<"
    stamp = taken.strftime("%Y:%m:%d %H:%M:%S")
    exif[Base.Orientation] = orientation
    exif[Base.Model] = camera
    exif[Base.DateTime] = stamp
    detail = exif.get_ifd(IFD.Exif)
    detail[Base.DateTimeOriginal] = stamp
    detail[Base.UserComment] = b"ASCII\0\0\0" + COMMENT.encode("ascii")
    if gps is not None:
        exif.get_ifd(IFD.GPSInfo).update(_position(*gps))
    return exif.tobytes()


def _position(north: float, east: float) -> dict[int, object]:
    return {
        GPS.GPSVersionID: b"\x02\x03\x00\x00",
        GPS.GPSLatitudeRef: "N" if north >= 0 else "S",
        GPS.GPSLatitude: _degrees(abs(north)),
        GPS.GPSLongitudeRef: "E" if east >= 0 else "W",
        GPS.GPSLongitude: _degrees(abs(east)),
    }


def _degrees(value: float) -> tuple[IFDRational, IFDRational, IFDRational]:
    """Degrees, minutes, seconds to the hundredth."""
    hundredths = round(Fraction(value) * 360_000)
    minutes, seconds = divmod(hundredths, 6_000)
    degrees, minutes = divmod(minutes, 60)
    return IFDRational(degrees), IFDRational(minutes), IFDRational(seconds, 100)


def _with_thumbnail(exif: bytes, stored: Image.Image) -> bytes:
    """The same EXIF block with a small JPEG in its second directory (Exif 2.32, 4.5.5)."""
    head, tiff = exif[:6], bytearray(exif[6:])
    small = stored.copy() if max(stored.size) <= 640 else stored.reduce(max(stored.size) // 320)
    small.thumbnail(THUMBNAIL)
    kept = BytesIO()
    small.save(kept, "JPEG", quality=70)
    (first,) = LONG.unpack_from(tiff, 4)
    (entries,) = SHORT.unpack_from(tiff, first)
    second = len(tiff) + len(tiff) % 2
    tiff = tiff.ljust(second, b"\0")
    LONG.pack_into(tiff, first + SHORT.size + entries * ENTRY.size, second)
    picture = second + SHORT.size + 3 * ENTRY.size + LONG.size
    tiff += SHORT.pack(3)
    tiff += ENTRY.pack(Base.Compression, 3, 1, 6)
    tiff += ENTRY.pack(Base.JpegIFOffset, 4, 1, picture)
    tiff += ENTRY.pack(Base.JpegIFByteCount, 4, 1, kept.tell())
    return head + bytes(tiff + LONG.pack(0) + kept.getvalue())
