"""Files that end early or were hurt on the way."""

import pytest
from PIL import Image

KINDS = ["JPEG", "PNG", "WEBP", "HEIF", "AVIF"]


@pytest.fixture
def noisy() -> Image.Image:
    """A picture whose file is mostly pixels, not headers."""
    return Image.effect_noise((400, 300), 60).convert("RGB")


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("hundredths", [10, 50, 90, 98])
def test_a_cut_file_is_refused_as_incomplete(written, refusal, noisy, kind, hundredths):
    whole = written("whole", noisy, kind).read_bytes()
    cut = written("front.jpg", whole[: len(whole) * hundredths // 100])
    refused = refusal(cut)
    assert refused.code == "incomplete"
    assert refused.sentence.endswith("Please send it again.")


def test_a_cut_progressive_jpeg_is_refused_as_incomplete(written, refusal, noisy):
    whole = written("whole", noisy, "JPEG", progressive=True).read_bytes()
    assert refusal(written("front.jpg", whole[:-2000])).code == "incomplete"


def test_a_cut_jpeg_large_enough_to_be_decoded_reduced_is_refused_too(written, refusal):
    large = Image.effect_noise((4000, 3000), 60)
    whole = written("whole", large, "JPEG").read_bytes()
    assert refusal(written("front.jpg", whole[: len(whole) // 2])).code == "incomplete"


def test_only_a_start_is_refused_as_incomplete(written, refusal):
    assert refusal(written("front.jpg", b"\xff\xd8\xff\xe0")).code == "incomplete"


def test_one_wrong_bit_among_the_pixels_is_let_pass(written, take, noisy):
    content = bytearray(written("whole", noisy, "JPEG").read_bytes())
    content[len(content) // 2] ^= 0x04
    assert take(written("front.jpg", bytes(content))).inspected.width == 400


def test_bytes_after_the_end_are_no_harm(written, take, noisy):
    content = written("whole", noisy, "JPEG").read_bytes() + b"\0\0\0\x18ftypmp42" + bytes(5000)
    assert take(written("front.jpg", content)).inspected.kind == "jpeg"
