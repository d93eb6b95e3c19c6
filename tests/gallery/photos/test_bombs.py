"""Small files that unpack to much: told from their header, or stopped by the child's limits."""

import struct
import zlib

import pytest
from PIL import Image, PngImagePlugin

from gallery.contributions.photos import limits

SIGNATURE = b"\x89PNG\r\n\x1a\n"


def chunk(name: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


def png(width: int, height: int, colour_type: int = 6) -> bytes:
    """A PNG whose header claims that size; its pixels are missing."""
    header = struct.pack(">IIBBBBB", width, height, 8, colour_type, 0, 0, 0)
    return (
        SIGNATURE
        + chunk(b"IHDR", header)
        + chunk(b"IDAT", zlib.compress(b""))
        + chunk(b"IEND", b"")
    )


@pytest.mark.parametrize(("width", "height"), [(60_000, 60_000), (8001, 8000), (30_001, 10)])
def test_too_many_pixels_are_told_from_the_header(written, refusal, width, height):
    refused = refusal(written("front.png", png(width, height)))
    assert refused.code == "pixels"
    assert "at most 64 million, and 30000 on a side" in refused.sentence
    assert refused.sentence.endswith("Please send a smaller copy of it.")


def test_a_png_at_the_limit_is_not_refused_for_its_size(written, refusal):
    assert refusal(written("front.png", png(8000, 8000))).code == "incomplete"


def test_a_whole_bomb_of_88_million_pixels_is_refused_for_its_size(written, refusal):
    packer = zlib.compressobj(9)
    rows = b"".join(packer.compress(bytes(1 + 4 * 11_000)) for _ in range(8000)) + packer.flush()
    header = struct.pack(">IIBBBBB", 11_000, 8000, 8, 6, 0, 0, 0)
    bomb = SIGNATURE + chunk(b"IHDR", header) + chunk(b"IDAT", rows) + chunk(b"IEND", b"")
    assert refusal(written("front.png", bomb)).code == "pixels"


def test_a_jpeg_may_have_more_pixels_than_a_png(written, take):
    # 8400 × 8000 = 67.2 million
    received = take(written("front.jpg", Image.new("L", (8400, 8000)), "JPEG"))
    assert (received.inspected.width, received.small.width) == (8400, 400)


def test_a_jpeg_of_more_than_200_million_pixels_is_refused(written, refusal):
    content = bytearray(written("small.jpg", Image.new("L", (8, 8)), "JPEG").read_bytes())
    at = content.index(b"\xff\xc0") + 5  # the frame header: height and width follow
    content[at : at + 4] = struct.pack(">HH", 20_001, 10_000)
    refused = refusal(written("front.jpg", bytes(content)))
    assert "at most 200 million" in refused.sentence


def test_a_huge_text_is_refused(written, refusal):
    text = PngImagePlugin.PngInfo()
    text.add_text("Comment", "a" * (2 * limits.MIB), zip=True)
    path = written("front.png", Image.new("RGB", (8, 8)), "PNG", pnginfo=text)
    assert refusal(path).sentence.endswith("Please send it again.")
