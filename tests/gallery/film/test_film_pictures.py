"""What the frames show: right colours, no jitter, words that can be read."""

import hashlib
import itertools
from dataclasses import replace

import av
import numpy as np
import pytest
from PIL import Image

from gallery.album.film import planes
from gallery.album.film.looks import LOOKS, contrast, over_photo
from gallery.album.film.motion import prepared_anchor
from gallery.album.film.paint import painted
from gallery.album.film.render import render
from gallery.album.film.still import poster, still

CORNERS = list(itertools.product((0, 255), repeat=3))


def bt709_rgb(y: float, u: float, v: float) -> tuple[float, float, float]:
    """Limited-range Y'CbCr to R'G'B' 0-255 by the formulas of ITU-R BT.709-6, item 3."""
    luma, cb, cr = (y - 16) / 219, (u - 128) / 224, (v - 128) / 224
    red, blue = luma + 1.5748 * cr, luma + 1.8556 * cb
    green = (luma - 0.2126 * red - 0.0722 * blue) / 0.7152
    return red * 255, green * 255, blue * 255


@pytest.mark.parametrize("colour", [(200, 60, 30), (20, 120, 200), (90, 160, 70), (128, 128, 128)])
def test_a_flat_colour_comes_back_by_the_bt709_formulas(plan, slide, cache, tmp_path, colour):
    film = render(replace(plan, slides=(slide(colour),)), cache, tmp_path / "film.mp4")
    with av.open(str(film.path)) as container:
        frame = list(container.decode(video=0))[20]
    y, u, v = (float(plane[10, 80]) for plane in planes.views(frame).all())
    assert bt709_rgb(y, u, v) == pytest.approx(colour, abs=3)


@pytest.mark.parametrize("age", [0, 7, 19, 38])
def test_movement_is_exact_to_a_twentieth_of_a_pixel(plan, slide, age):
    # A grating of 16 prepared pixels: where its phase lies tells where the picture lies.
    columns = np.cos(2 * np.pi * (np.arange(368) + 0.5) / 16) * 60 + 128
    grating = np.repeat(np.rint(columns).astype(np.uint8)[None, :, None], 208, 0).repeat(3, 2)
    photo = slide((1, 2, 3), (368, 208), caption="", seconds=1.0)
    Image.fromarray(grating).save(photo.photo, "JPEG", quality=100, subsampling=0)
    photo = replace(photo, photo_sha256=digest_of(photo.photo))
    made = painted(replace(plan, slides=(photo,)), photo)
    into = planes.empty(320, 180)
    made.draw(into, age, 39)
    anchor = made.motion.anchor[0]
    step = 1.15 / made.motion.scale(age, 39)
    at = (np.arange(320) + 0.5 - anchor) * step + prepared_anchor(anchor)
    wave = np.exp(-2j * np.pi * at / 16)
    for side in (slice(8, 128), slice(192, 312)):  # both halves: in the middle errors cancel out
        row = into.y[40, side] - into.y[40, side].mean()
        phase = np.angle((row * wave[side]).sum())
        assert abs(phase / (2 * np.pi) * 16 / step) <= 0.05


def digest_of(path):
    return hashlib.sha256(path.read_bytes()).hexdigest()


@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize("photo", CORNERS)
def test_captions_can_be_read_over_any_photo(look, photo):
    behind = over_photo(LOOKS[look], photo)
    assert contrast(LOOKS[look].ink, behind) >= 4.5
    assert contrast(LOOKS[look].soft_ink, behind) >= 4.5


@pytest.mark.parametrize("look", LOOKS)
def test_cards_can_be_read(look):
    colours = LOOKS[look]
    for ink, ground in itertools.product(
        (colours.ink, colours.soft_ink), (colours.ground, colours.stitch)
    ):
        assert contrast(ink, ground) >= 4.5


@pytest.mark.parametrize("look", LOOKS)
def test_the_veil_in_the_picture_is_the_veil_that_was_proved(plan, slide, look):
    white = replace(plan, slides=(slide((255, 255, 255)),), look=look)
    pixel = still(white, 0, 320).getpixel((4, 176))
    assert pixel == pytest.approx(over_photo(LOOKS[look], (255, 255, 255)), abs=4)


def test_a_tall_photo_is_seen_whole_and_clear_of_the_words(plan, slide):
    tall = slide((250, 20, 20), (300, 600))
    picture = np.asarray(still(replace(plan, slides=(tall,)), 0, 960)).astype(int)
    red = (picture[..., 0] > 200) & (picture[..., 1] < 60)
    rows, columns = np.nonzero(red)
    shown = (columns.max() - columns.min() + 1) / (rows.max() - rows.min() + 1)
    assert shown == pytest.approx(0.5, abs=0.03)
    assert rows.max() < 540 * 0.86


def test_the_focus_stays_in_view_when_a_photo_is_cropped(plan, slide):
    photo = slide((40, 40, 40), (600, 400), focus=(0.5, 0.02))
    picture = Image.new("RGB", (600, 400), (40, 40, 40))
    picture.paste((255, 255, 255), (0, 0, 600, 20))
    picture.save(photo.photo, "JPEG", quality=95)
    photo = replace(photo, photo_sha256=digest_of(photo.photo))
    top_row = np.asarray(still(replace(plan, slides=(photo,)), 0, 640))[2]
    assert top_row.mean() > 200


@pytest.mark.parametrize(
    "caption", ["שלום עולם 12 cm", "مرحبا", "👩‍🦰🧶", "a" * 150, "é́́́", "\u202eabc"]
)
def test_odd_captions_are_painted_without_a_crash(plan, slide, caption):
    assert still(replace(plan, slides=(slide(1, caption=caption, credit=caption),)), 0).width == 640


def test_lines_break_in_a_preview_where_they_break_in_the_film(plan, slide):
    words = "Size 4 with the body five centimetres longer and sleeves narrower by four stitches"
    whole = replace(plan, width=1920, height=1080, slides=(slide((90, 90, 90), caption=words),))
    large = still(whole, 0, 1920).resize((480, 270), Image.Resampling.BOX)
    difference = np.abs(np.asarray(large).astype(int) - np.asarray(still(whole, 0, 480)))
    assert difference[200:].mean() < 6


def test_the_poster_is_the_first_slide_at_full_size(plan, tmp_path):
    poster(plan, tmp_path / "poster.jpg")
    with Image.open(tmp_path / "poster.jpg") as picture:
        assert (picture.format, picture.size) == ("JPEG", (320, 180))
