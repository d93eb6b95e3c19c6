"""Turns a decoded picture upright and into sRGB, in a buffer that holds only pixels."""

import io

from PIL import Image, ImageCms, ImageOps

ORIENTATION = 0x0112
_SRGB = ImageCms.createProfile("sRGB")
SRGB_BYTES = ImageCms.ImageCmsProfile(_SRGB).tobytes()
WHITE = (255, 255, 255)


def orientation_of(picture: Image.Image) -> int:
    """The EXIF orientation 1 to 8; anything else counts as 1. HEIF is turned by its reader."""
    if picture.format in ("HEIF", "AVIF"):
        return 1
    try:
        said = int(picture.getexif().get(ORIENTATION, 1))
    except (TypeError, ValueError, SyntaxError, KeyError, OSError):
        return 1
    return said if 1 <= said <= 8 else 1


_TURNS = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}


def turned(picture: Image.Image, orientation: int) -> Image.Image:
    """The picture as it was held when it was taken (Exif 2.3, tag Orientation)."""
    return picture.transpose(_TURNS[orientation]) if orientation in _TURNS else picture


def in_srgb(picture: Image.Image) -> tuple[Image.Image, tuple[str, ...]]:
    """The picture as RGB in the sRGB colour space over white; and notes of what was amiss."""
    profile = picture.info.get("icc_profile")
    picture, alpha = _without_alpha(_eight_bits(picture))
    notes: tuple[str, ...] = ()
    converted = None
    if profile and picture.mode in ("RGB", "CMYK", "L", "LAB"):
        try:
            converted = _converted(picture, profile)
        except (ImageCms.PyCMSError, OSError, ValueError, TypeError):
            notes = ("Its colour profile is damaged, so the usual colours were assumed.",)
    rgb = converted or _plain_rgb(picture)
    return _over_white(rgb, alpha), notes


def _eight_bits(picture: Image.Image) -> Image.Image:
    """16-bit and 32-bit grey as 8-bit grey, scaled and not clipped."""
    if picture.mode.startswith("I"):
        # 16-bit samples lie in 0…65535; 257 maps the ends onto 0 and 255.
        return picture.convert("I").point(lambda value: value / 257).convert("L")
    if picture.mode == "F":
        return picture.convert("L")
    if picture.mode == "P":
        has_alpha = "transparency" in picture.info
        return picture.convert("RGBA" if has_alpha else "RGB")
    if picture.mode == "1":
        return picture.convert("L")
    return picture


def _without_alpha(picture: Image.Image) -> tuple[Image.Image, Image.Image | None]:
    if picture.mode in ("RGBA", "LA", "PA", "RGBa", "La"):
        picture = picture.convert("LA" if picture.mode in ("LA", "La") else "RGBA")
        colours = picture.convert("L" if picture.mode == "LA" else "RGB")
        return colours, picture.getchannel("A")
    if "transparency" in picture.info and picture.mode in ("RGB", "L"):
        alpha = picture.convert("RGBA").getchannel("A")
        return picture, alpha
    return picture, None


def _converted(picture: Image.Image, profile: bytes) -> Image.Image | None:
    return ImageCms.profileToProfile(
        picture,
        ImageCms.ImageCmsProfile(io.BytesIO(profile)),
        ImageCms.ImageCmsProfile(_SRGB),
        renderingIntent=ImageCms.Intent.RELATIVE_COLORIMETRIC,
        outputMode="RGB",
        flags=ImageCms.Flags.BLACKPOINTCOMPENSATION,
    )


def _plain_rgb(picture: Image.Image) -> Image.Image:
    if picture.mode == "LAB":
        lab = ImageCms.createProfile("LAB")
        changed = ImageCms.profileToProfile(picture, lab, _SRGB, outputMode="RGB")
        return changed or picture.convert("L").convert("RGB")
    return picture.convert("RGB")


def _over_white(rgb: Image.Image, alpha: Image.Image | None) -> Image.Image:
    if alpha is None:
        return rgb
    return Image.composite(rgb, Image.new("RGB", rgb.size, WHITE), alpha)


def fresh(picture: Image.Image) -> Image.Image:
    """The same pixels in a new picture that carries no profile, comment or other data."""
    return Image.frombytes(picture.mode, picture.size, picture.tobytes())


def fitted(picture: Image.Image, longer_side: int) -> Image.Image:
    """Scaled so that the longer side has at most that many pixels; never enlarged."""
    if max(picture.size) <= longer_side:
        return picture
    size = ImageOps.contain(Image.new("1", picture.size), (longer_side, longer_side)).size
    return picture.resize(size, Image.Resampling.LANCZOS, reducing_gap=3.0)
