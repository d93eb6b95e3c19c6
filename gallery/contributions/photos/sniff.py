"""What a file is by its first bytes; its name and what the sender's program claims do not count."""

from pathlib import Path

HEAD = 512
_HEIF_BRANDS = {b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1"}
_AVIF_BRANDS = {b"avif", b"avis"}
_OTHER = (
    (b"GIF8", "a GIF"),
    (b"%PDF", "a PDF"),
    (b"%!PS", "a PostScript file"),
    (b"\xc5\xd0\xd3\xc6", "a PostScript file"),
    (b"PK\x03\x04", "a ZIP archive or a document"),
    (b"MZ", "a program"),
    (b"\x7fELF", "a program"),
    (b"BM", "a BMP picture"),
    (b"II*\x00", "a TIFF picture or a raw photo"),
    (b"MM\x00*", "a TIFF picture or a raw photo"),
    (b"\x1aE\xdf\xa3", "a video"),
    (b"#EXTM3U", "a playlist"),
    (b"ffconcat", "a playlist"),
)


def kind_of(path: Path) -> str | None:
    """ "jpeg", "png", "webp", "heif", "avif", or None for anything else."""
    with path.open("rb") as file:
        head = file.read(HEAD)
    if head.startswith(b"\xff\xd8\xff"):
        return "jpeg"
    if head.startswith(b"\x89PNG\r\n\x1a\n"):
        return "png"
    if head[:4] == b"RIFF" and head[8:12] == b"WEBP":
        return "webp"
    return _iso_kind(head)


def _iso_kind(head: bytes) -> str | None:
    """Kind of an ISO base media file by its brands (ISO/IEC 23008-12, AV1 Image File Format)."""
    if head[4:8] != b"ftyp":
        return None
    length = min(int.from_bytes(head[:4], "big"), len(head))
    brands = {head[8:12]} | {head[at : at + 4] for at in range(16, length - 3, 4)}
    if brands & _AVIF_BRANDS:
        return "avif"
    return "heif" if brands & _HEIF_BRANDS else None


def in_words(path: Path) -> str:
    """What a file that is no picture of ours seems to be, for the sentence of refusal."""
    with path.open("rb") as file:
        head = file.read(HEAD)
    for start, words in _OTHER:
        if head.startswith(start):
            return words
    if head[4:8] == b"ftyp":
        return "a video"
    text = head.lstrip(b"\xef\xbb\xbf \r\n\t").lower()
    if text.startswith((b"<svg", b"<?xml")):
        return "an SVG drawing or another XML file"
    if text.startswith((b"<!doctype html", b"<html", b"<script")):
        return "a web page"
    return "a file of another kind"
