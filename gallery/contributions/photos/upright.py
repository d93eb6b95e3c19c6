"""Turns a decoded picture upright and scales it, in a buffer that holds only pixels."""

from PIL import Image

ORIENTATION = 0x0112
_TURNS = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}


def orientation_of(picture: Image.Image) -> int:
    """The EXIF orientation 1 to 8; anything else counts as 1. HEIF is turned by its reader."""
    if picture.format == "HEIF":
        return 1
    try:
        said = int(picture.getexif().get(ORIENTATION, 1))
    except Exception:
        # EXIF of a hundred makers: whatever is wrong in it, the picture itself is good.
        return 1
    return said if 1 <= said <= 8 else 1


def turned(picture: Image.Image, orientation: int) -> Image.Image:
    """The picture as it was held when it was taken (Exif 2.3, tag Orientation)."""
    return picture.transpose(_TURNS[orientation]) if orientation in _TURNS else picture


def fitted(picture: Image.Image, longer_side: int) -> Image.Image:
    """Scaled so that the longer side has at most that many pixels; never enlarged."""
    longer = max(picture.size)
    if longer <= longer_side:
        return picture
    width, height = (max(1, round(side * longer_side / longer)) for side in picture.size)
    return picture.resize((width, height), Image.Resampling.LANCZOS, reducing_gap=3.0)


def fresh(picture: Image.Image) -> Image.Image:
    """The same pixels in a new picture that carries no profile, comment or other data."""
    return Image.frombytes(picture.mode, picture.size, picture.tobytes())
