"""Colours come out right, whatever way they were stored."""

import io

import pytest
from PIL import Image, ImageCms

from gallery.contributions.photos.colour import SRGB_BYTES, plain_samples


@pytest.fixture
def shown(take):
    """The small size of a file, opened, its pixels read."""

    def show(path) -> Image.Image:
        with Image.open(take(path).small.path) as small:
            small.load()
            return small

    return show


# Colour space of "Display P3" after SMPTE EG 432-1 and IEC 61966-2-1, its primaries adapted to
# the profile's white D50, as in the profiles most phones embed.
P3_COLUMNS = {
    b"rXYZ": (0.51512, 0.24120, -0.00105),
    b"gXYZ": (0.29198, 0.69225, 0.04189),
    b"bXYZ": (0.15710, 0.06657, 0.78407),
}


def fixed(number: float) -> bytes:
    return round(number * 65536).to_bytes(4, "big", signed=True)


def p3_profile() -> bytes:
    """The sRGB profile with other primaries: the curve of both is the same."""
    profile = bytearray(SRGB_BYTES)
    for at in range(132, 132 + 12 * int.from_bytes(profile[128:132], "big"), 12):
        if (numbers := P3_COLUMNS.get(bytes(profile[at : at + 4]))) is not None:
            offset = int.from_bytes(profile[at + 4 : at + 8], "big") + 8
            profile[offset : offset + 12] = b"".join(map(fixed, numbers))
    return bytes(profile)


def reference(picture: Image.Image, profile: bytes) -> Image.Image:
    return ImageCms.profileToProfile(
        picture,
        ImageCms.ImageCmsProfile(io.BytesIO(profile)),
        ImageCms.createProfile("sRGB"),
        renderingIntent=ImageCms.Intent.RELATIVE_COLORIMETRIC,
        outputMode="RGB",
    )


def patches(mode: str = "RGB") -> Image.Image:
    """Twelve muted colours, as yarn has them, well inside sRGB."""
    picture = Image.new("RGB", (400, 300))
    for at in range(12):
        x, y = at % 4 * 100, at // 4 * 100
        colour = (90 + 10 * at, 200 - 9 * at, 80 + at * 37 % 110)
        picture.paste(colour, (x, y, x + 100, y + 100))
    return picture.convert(mode)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "AVIF", "HEIF"])
def test_wide_colours_become_srgb(written, shown, apart, kind):
    path = written("front", patches(), kind, icc_profile=p3_profile(), quality=95)
    expected = reference(patches(), p3_profile())
    assert apart(shown(path), expected) < 3
    assert apart(patches(), expected) > 3  # the profile does change them


def test_a_printer_s_four_colours_become_three(written, shown, apart):
    picture = shown(written("front.jpg", patches("CMYK"), "JPEG", quality=95))
    assert picture.mode == "RGB"
    assert apart(picture, patches("CMYK").convert("RGB")) < 3


@pytest.mark.parametrize("mode", ["L", "1", "LA", "RGBA"])
def test_every_way_to_store_a_picture_is_shown(written, shown, apart, mode):
    picture = shown(written("front.png", patches(mode), "PNG"))
    assert picture.mode == "RGB"
    assert apart(picture, patches(mode).convert("RGB")) < 3


def test_a_picture_of_few_colours_is_shown(written, shown, apart):
    assert apart(shown(written("front.png", patches().quantize(12), "PNG")), patches()) < 3


def ramp() -> Image.Image:
    """All of 16 bits of grey from left to right, in 400 steps."""
    picture = Image.new("I;16", (400, 20))
    picture.putdata([x * 65535 // 399 for _ in range(20) for x in range(400)])
    return picture


def row_of(picture: Image.Image) -> list[int]:
    return [picture.convert("L").getpixel((x, 10)) for x in range(400)]


def test_sixteen_bits_of_grey_become_the_nearest_of_eight():
    assert row_of(plain_samples(ramp())) == [round(x * 255 / 399) for x in range(400)]


def test_sixteen_bits_of_grey_keep_their_steps(written, shown):
    levels = row_of(shown(written("front.png", ramp(), "PNG")))
    assert len(set(levels)) >= 200
    assert levels == pytest.approx(sorted(levels), abs=1)  # JPEG may miss by one


def test_sixteen_bits_of_grey_are_not_clipped_where_one_grey_is_a_hole():
    holed = ramp()
    holed.info["transparency"] = 40_000
    assert row_of(plain_samples(holed)) == [round(x * 255 / 399) for x in range(400)]


@pytest.mark.parametrize("mode", ["RGBA", "LA"])
def test_what_is_transparent_becomes_white(written, shown, mode):
    picture = Image.new(mode, (64, 64), (0,) * len(mode))
    assert shown(written("front.png", picture, "PNG")).getpixel((32, 32)) == (255, 255, 255)


def test_a_palette_with_a_transparent_entry_stands_on_white(written, shown):
    picture = Image.new("P", (64, 64), 0)
    picture.putpalette([200, 30, 30, 30, 30, 200])
    picture.paste(1, (0, 0, 32, 64))
    out = shown(written("front.png", picture, "PNG", transparency=0))
    assert out.getpixel((60, 32)) == (255, 255, 255)
    red, _, blue = out.getpixel((8, 32))
    assert (red, blue) == (pytest.approx(30, abs=6), pytest.approx(200, abs=6))


@pytest.mark.parametrize("profile", [b"no profile at all", SRGB_BYTES[:200], bytes(400)])
def test_a_damaged_profile_is_passed_over_with_a_note(written, take, apart, profile):
    received = take(written("front.jpg", patches(), "JPEG", icc_profile=profile, quality=95))
    [note] = received.inspected.notes
    assert "colour profile is damaged" in note
    with Image.open(received.small.path) as small:
        assert apart(small, patches()) < 3


def test_a_profile_for_another_kind_of_colours_is_passed_over(written, take):
    four_colours = SRGB_BYTES[:16] + b"CMYK" + SRGB_BYTES[20:]
    received = take(written("front.jpg", patches(), "JPEG", icc_profile=four_colours))
    assert len(received.inspected.notes) == 1


def test_a_grey_picture_may_carry_a_profile_of_three_colours(written, take, apart):
    path = written("front.jpg", patches("L"), "JPEG", icc_profile=p3_profile(), quality=95)
    received = take(path)
    assert received.inspected.notes == ()
    with Image.open(received.small.path) as small:
        assert apart(small, patches("L")) < 3
