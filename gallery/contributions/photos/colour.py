"""Brings the colours of a picture into sRGB over white, whatever way they were stored."""

import io

from PIL import Image, ImageCms

from gallery.contributions.photos.errors import gettext_noop

WHITE = (255, 255, 255)
_SRGB = ImageCms.createProfile("sRGB")
_DATE = slice(24, 36)  # of the profile's making (ICC.1:2010, 7.2); fixed below to 2000-01-01
_DAMAGED = (gettext_noop("Its colour profile is damaged, so the usual colours were assumed."),)


def _srgb_bytes() -> bytes:
    """The same bytes in every process: the same picture must give the same file."""
    made = bytearray(ImageCms.ImageCmsProfile(_SRGB).tobytes())
    made[_DATE] = b"".join(part.to_bytes(2, "big") for part in (2000, 1, 1, 0, 0, 0))
    return bytes(made)


SRGB_BYTES = _srgb_bytes()


def plain_samples(picture: Image.Image) -> Image.Image:
    """The picture with samples that can be scaled: no palette, no bits, 8 bits a sample."""
    if picture.mode.startswith("I"):
        # 16-bit samples lie in 0…65535; 257 maps the ends onto 0 and 255. First, since every
        # other conversion clips them.
        return picture.convert("I").point(lambda value: value / 257 + 0.5).convert("L")
    if "transparency" in picture.info:
        # One colour, or palette entries, that count as holes.
        return picture.convert("LA" if picture.mode in ("1", "L") else "RGBA")
    plain = {
        "P": "RGB",
        "PA": "RGBA",
        "1": "L",
        "F": "L",
        "La": "LA",
        "RGBa": "RGBA",
        "RGBX": "RGB",
    }
    wanted = plain.get(picture.mode)
    return picture.convert(wanted) if wanted else picture


def in_srgb(picture: Image.Image) -> tuple[Image.Image, tuple[str, ...]]:
    """The picture as RGB in the sRGB colour space over white; and notes of what was amiss."""
    profile = picture.info.get("icc_profile")
    colours, alpha = _parted(picture)
    if not profile:
        return _over_white(colours.convert("RGB"), alpha), ()
    try:
        return _over_white(_converted(colours, profile), alpha), ()
    except (ImageCms.PyCMSError, OSError, ValueError, TypeError):
        return _over_white(colours.convert("RGB"), alpha), _DAMAGED


def _parted(picture: Image.Image) -> tuple[Image.Image, Image.Image | None]:
    """Colours and transparency apart, since a profile speaks of colours only."""
    if picture.mode not in ("RGBA", "LA"):
        return picture, None
    return picture.convert("RGB" if picture.mode == "RGBA" else "L"), picture.getchannel("A")


def _converted(picture: Image.Image, profile: bytes) -> Image.Image:
    source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
    if picture.mode == "L" and source.profile.xcolor_space.strip() == "RGB":
        picture = picture.convert("RGB")  # cameras leave their profile on grey pictures as well
    converted = ImageCms.profileToProfile(
        picture,
        source,
        ImageCms.ImageCmsProfile(_SRGB),
        renderingIntent=ImageCms.Intent.RELATIVE_COLORIMETRIC,
        outputMode="RGB",
        flags=ImageCms.Flags.BLACKPOINTCOMPENSATION,
    )
    if converted is None:
        raise ValueError("no picture came back")
    return converted


def _over_white(rgb: Image.Image, alpha: Image.Image | None) -> Image.Image:
    if alpha is None:
        return rgb
    return Image.composite(rgb, Image.new("RGB", rgb.size, WHITE), alpha)
