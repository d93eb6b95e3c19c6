"""What a file is by its first bytes; its name and what the sender's program claims do not count."""

from pathlib import Path

from gallery.contributions.photos.errors import PictureRefused, gettext_noop

HEAD = 1024
_HEIF_BRANDS = {b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1"}
_AVIF_BRANDS = {b"avif", b"avis"}
_OTHER = (
    (b"GIF8", gettext_noop("a GIF")),
    (b"%PDF", gettext_noop("a PDF")),
    (b"%!PS", gettext_noop("a PostScript file")),
    (b"\xc5\xd0\xd3\xc6", gettext_noop("a PostScript file")),
    (b"PK\x03\x04", gettext_noop("a ZIP archive or a document")),
    (b"Rar!", gettext_noop("an archive")),
    (b"7z\xbc\xaf\x27\x1c", gettext_noop("an archive")),
    (b"\x1f\x8b", gettext_noop("an archive")),
    (b"\xd0\xcf\x11\xe0", gettext_noop("a document")),
    (b"{\\rtf", gettext_noop("a document")),
    (b"MZ", gettext_noop("a program")),
    (b"\x7fELF", gettext_noop("a program")),
    (b"#!", gettext_noop("a program")),
    (b"BM", gettext_noop("a BMP picture")),
    (b"II*\x00", gettext_noop("a TIFF picture or a raw photo")),
    (b"MM\x00*", gettext_noop("a TIFF picture or a raw photo")),
    (b"\xff\x0a", gettext_noop("a JPEG XL picture")),
    (b"\x00\x00\x00\x0cJXL ", gettext_noop("a JPEG XL picture")),
    (b"\x00\x00\x00\x0cjP  ", gettext_noop("a JPEG 2000 picture")),
    (b"8BPS", gettext_noop("a layered picture of a drawing program")),
    (b"\x1aE\xdf\xa3", gettext_noop("a video")),
    (b"\x00\x00\x01\xba", gettext_noop("a video")),
    (b"FLV", gettext_noop("a video")),
    (b"ID3", gettext_noop("a sound recording")),
    (b"OggS", gettext_noop("a sound recording")),
    (b"#EXTM3U", gettext_noop("a playlist")),
    (b"ffconcat", gettext_noop("a playlist")),
)
_FTYP_WORDS = {b"crx ": gettext_noop("a raw photo"), b"M4A ": gettext_noop("a sound recording")}
_RIFF_WORDS = {b"AVI ": gettext_noop("a video"), b"WAVE": gettext_noop("a sound recording")}
_MARKUP = (b"<!doctype html", b"<html", b"<head", b"<body", b"<script")


def kind_of(path: Path) -> str | None:
    """ "jpeg", "png", "webp", "heif", "avif", or None for anything else."""
    head = _head(path)
    if head.startswith(b"\xff\xd8\xff"):
        return "jpeg"
    if head.startswith(b"\x89PNG\r\n\x1a\n"):
        return "png"
    if head[:4] == b"RIFF" and head[8:12] == b"WEBP":
        return "webp"
    return _iso_kind(head)


def refuse_by_kind(path: Path) -> str:
    """The kind of the picture by its first bytes; refuses what is empty or no picture of ours."""
    if path.stat().st_size == 0:
        raise PictureRefused(
            "empty", gettext_noop("This file is empty. Please choose the picture again.")
        )
    kind = kind_of(path)
    if kind is None:
        raise PictureRefused(
            "kind",
            gettext_noop(
                "This is %(what)s, not a picture the site can show. "
                "Please send a JPEG, PNG, WebP, HEIC or AVIF picture."
            ),
            {"what": in_words(path)},
        )
    return kind


def in_words(path: Path) -> str:
    """What a file that is no picture of ours seems to be, for the sentence of refusal."""
    head = _head(path)
    for start, words in _OTHER:
        if head.startswith(start):
            return words
    if head[4:8] == b"ftyp":
        return _FTYP_WORDS.get(head[8:12], gettext_noop("a video"))
    if head[:4] == b"RIFF":
        return _RIFF_WORDS.get(head[8:12], gettext_noop("a file of another kind"))
    return _text_in_words(head)


def _head(path: Path) -> bytes:
    with path.open("rb") as file:
        return file.read(HEAD)


def _iso_kind(head: bytes) -> str | None:
    """Kind of an ISO base media file by its brands (ISO/IEC 23008-12, AV1 Image File Format)."""
    if head[4:8] != b"ftyp":
        return None
    length = min(int.from_bytes(head[:4], "big"), len(head))
    brands = {head[8:12]} | {head[at : at + 4] for at in range(16, length - 3, 4)}
    if brands & _AVIF_BRANDS:
        return "avif"
    return "heif" if brands & _HEIF_BRANDS else None


def _text_in_words(head: bytes) -> str:
    text = head.lstrip(b"\xef\xbb\xbf \r\n\t").lower()
    if text.startswith(_MARKUP):
        return gettext_noop("a web page")
    if text.startswith((b"<svg", b"<?xml", b"<!doctype svg", b"<!--")):
        return gettext_noop("an SVG drawing or another XML file")
    return gettext_noop("a file of another kind")
