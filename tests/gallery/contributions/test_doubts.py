"""What deserves a second look in a picture is told with its reason, and never refuses it."""

import io
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from PIL import Image, ImageFilter

from gallery.contributions.doubts import doubts_of
from gallery.contributions.photos.measure import measured

from .conftest import Knitter

pytestmark = pytest.mark.django_db


def woven(size: tuple[int, int] = (1500, 1200), seed: str = "sienna") -> Image.Image:
    """A picture with detail: noise over a colour."""
    noise = Image.effect_noise(size, 60).convert("RGB")
    return Image.blend(noise, Image.new("RGB", size, seed), 0.3)


def add(knitter: Knitter, picture: Image.Image, quality: int = 90) -> tuple[str, ...]:
    file = io.BytesIO()
    picture.save(file, "JPEG", quality=quality)
    sent = SimpleUploadedFile("a.jpg", file.getvalue(), "image/jpeg")
    knitter.browser.post(
        knitter.send_address + "picture/", {"draft": knitter.token, "pictures": sent}
    )
    return doubts_of(knitter.garment.photos.last())


def test_a_good_picture_raises_no_doubt(knitter: Knitter) -> None:
    assert add(knitter, woven()) == ()


@pytest.mark.parametrize(("shorter", "doubts"), [(1079, 1), (1080, 0)])
def test_the_film_needs_1080_pixels_on_the_shorter_side(
    knitter: Knitter, shorter: int, doubts: int
) -> None:
    told = add(knitter, woven((1500, shorter)))
    assert len(told) == doubts
    assert all("1080 pixels" in one and str(shorter) in one for one in told)


def test_a_cut_counts_for_the_size(knitter: Knitter) -> None:
    add(knitter, woven())
    photo = knitter.garment.photos.get()
    knitter.browser.post(f"{knitter.send_address}picture/{photo.public_id}/cut/", {"top": "50"})
    photo.refresh_from_db()
    assert "600" in doubts_of(photo)[0]


def test_a_very_dark_picture_is_told_how_it_would_be_lighter(knitter: Knitter) -> None:
    dark = Image.eval(woven(), lambda level: level // 8)
    assert any("very dark" in one for one in add(knitter, dark))


def test_a_blurred_picture_is_told(knitter: Knitter) -> None:
    blurred = woven().filter(ImageFilter.GaussianBlur(8))
    assert any("may be blurred" in one for one in add(knitter, blurred))


def test_the_same_picture_saved_anew_is_told_and_kept(knitter: Knitter) -> None:
    picture = Image.new("RGB", (1500, 1200), "sienna")
    picture.paste("teal", (100, 100, 700, 1100))
    picture.paste("olive", (800, 300, 1400, 700))
    add(knitter, picture)
    told = add(knitter, picture.resize((1400, 1120)), quality=70)
    assert any("looks like picture 1" in one for one in told)
    assert knitter.garment.photos.count() == 2


def test_another_picture_is_no_doubt(knitter: Knitter) -> None:
    add(knitter, woven())
    assert not any("looks like" in one for one in add(knitter, woven(seed="teal")))


def test_the_measure_does_not_depend_on_the_camera() -> None:
    large = woven((3000, 2400)).filter(ImageFilter.GaussianBlur(3))
    assert measured(large)[0] == measured(large.resize((1500, 1200)))[0]


def test_the_hash_is_that_of_the_library() -> None:
    import imagehash  # noqa: PLC0415

    picture = woven((800, 600))
    assert measured(picture)[1] == str(imagehash.dhash(picture.convert("L")))


def test_a_doubt_is_shown_beside_its_picture(knitter: Knitter) -> None:
    add(knitter, woven((900, 700)))
    page: Any = knitter.browser.get(knitter.send_address)
    assert "picture-doubts" in page.content.decode()
