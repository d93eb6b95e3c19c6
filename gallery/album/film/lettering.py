"""Words as pictures: typefaces, line breaks, reading direction, and which letters are missing.

Everything is measured at one reference size, so that a small preview breaks its lines exactly
where the film does.
"""

import hashlib
import unicodedata
from functools import cache
from pathlib import Path

from font_source_sans_pro import SourceSansPro, SourceSansProSemibold
from font_source_serif_pro import SourceSerifProSemibold
from PIL import Image, ImageDraw, ImageFont, features

REFERENCE_SIDE = 1080  # the film's shorter side, in the pixels all measures here are given in
FACES = {"caption": SourceSansProSemibold, "text": SourceSansPro, "title": SourceSerifProSemibold}
# Pillow finds the library for right-to-left text (FriBiDi) on the machine, not in its own wheel.
SHAPES = bool(features.check("raqm"))
_NO_CHARACTER = "\U0010ffff"  # every typeface answers it with its sign for a missing letter
_ZERO_WIDTH_JOINER = "\u200d"


@cache
def face(name: str, pixels: float) -> ImageFont.FreeTypeFont:
    """The typeface at this size; shaping by raqm where Pillow has it."""
    return ImageFont.truetype(FACES[name], pixels)


@cache
def typeface_mark() -> str:
    """A short hash of the typefaces, for the keys of what was painted with them."""
    whole = b"".join(Path(path).read_bytes() for path in FACES.values())
    return hashlib.sha256(whole).hexdigest()[:16]


def width_of(text: str, name: str, pixels: float) -> float:
    """How wide the text runs, in reference pixels."""
    return float(face(name, pixels).getlength(_drawable(text)))


def broken(text: str, name: str, pixels: float, width: float, at_most: int) -> list[str] | None:
    """The text in lines of at most `width` reference pixels; None when `at_most` are too few.

    Breaks between words, and inside a word only where it alone is wider than a line.
    """
    lines: list[str] = []
    for word in text.split():
        joined = f"{lines[-1]} {word}" if lines else word
        if lines and width_of(joined, name, pixels) <= width:
            lines[-1] = joined
        else:
            lines += _pieces(word, name, pixels, width)
        if len(lines) > at_most:
            return None
    return lines


def _pieces(word: str, name: str, pixels: float, width: float) -> list[str]:
    if width_of(word, name, pixels) <= width:
        return [word]
    pieces = [""]
    for letter in _letters(word):
        if pieces[-1] and width_of(pieces[-1] + letter, name, pixels) > width:
            pieces.append("")
        pieces[-1] += letter
    return pieces


def _letters(word: str) -> list[str]:
    """The word's characters, each with the marks that belong to it."""
    letters: list[str] = []
    for sign in word:
        belongs = unicodedata.category(sign) in ("Mn", "Me", "Mc", "Cf", "Sk")
        if letters and (belongs or letters[-1].endswith(_ZERO_WIDTH_JOINER)):
            letters[-1] += sign
        else:
            letters.append(sign)
    return letters


def _drawable(text: str) -> str:
    """Without shaping, signs that are never seen (isolates, joiners) would be drawn as boxes."""
    return text if SHAPES else "".join(s for s in text if unicodedata.category(s) != "Cf")


def runs_right_to_left(text: str) -> bool:
    """Whether the first letter with a direction runs right to left (Unicode Annex 9, rule P2)."""
    for sign in text:
        direction = unicodedata.bidirectional(sign)
        if direction in ("L", "R", "AL"):
            return direction != "L"
    return False


@cache
def _has_glyph(sign: str, name: str) -> bool:
    # Without shaping: a mark standing alone would else be drawn on a dotted circle.
    font = ImageFont.truetype(FACES[name], 40, layout_engine=ImageFont.Layout.BASIC)
    shape, missing = (font.getmask(text) for text in (sign, _NO_CHARACTER))
    return shape.size != missing.size or bytes(shape) != bytes(missing)


def missing_glyphs(text: str, name: str = "caption") -> list[str]:
    """The letters of `text` the typeface cannot draw, each once, in order of appearance."""
    asked = dict.fromkeys(unicodedata.normalize("NFC", text))
    return [
        sign
        for sign in asked
        if not sign.isspace()
        and unicodedata.category(sign) not in ("Cf", "Cc")
        and not _has_glyph(sign, name)
    ]


class Sheet:
    """A transparent page to write on: one mask for each colour is read off it afterwards."""

    def __init__(self, width: int, height: int, scale: float) -> None:
        self.scale = scale
        self.mask = Image.new("L", (width, height), 0)
        self._pen = ImageDraw.Draw(self.mask)

    def write(
        self,
        text: str,
        name: str,
        pixels: float,
        at: tuple[float, float],
        *,
        anchor: str = "ls",
        leftwards: bool = False,
    ) -> None:
        """Write one line with its anchor point (Pillow's anchors) at reference pixels `at`."""
        self._pen.text(
            (at[0] * self.scale, at[1] * self.scale),
            _drawable(text),
            fill=255,
            font=face(name, pixels * self.scale),
            anchor=anchor,
            direction=("rtl" if leftwards else "ltr") if SHAPES else None,
        )
