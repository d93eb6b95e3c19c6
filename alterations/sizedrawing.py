"""The body piece as a small drawing that shows where chest and length are measured."""

from fractions import Fraction
from html import escape
from itertools import accumulate

from alterations.choosing import CHEST, LENGTH, body_piece
from alterations.outline import Band, Point, bands, neckline, outline
from alterations.pattern import Pattern, Size
from alterations.rounding import round_half_up

MARGIN, LETTERS, TIP = 70, 60, 14  # in millimetres of the garment, as all drawn numbers
LETTER_WIDTH = 33  # of a broad letter at that size


def size_drawing(pattern: Pattern, size: Size, title: str, chest: str, length: str) -> str:
    """The body piece of a size as SVG, with two arrows under the words given for chest and length;
    refuses (PatternError) a pattern that names no chest. It has no styles and no numbers."""
    piece = size.piece(body_piece(pattern))
    found = bands(pattern, piece, pattern.gauge)
    corners, cut_out = outline(found), neckline(pattern, piece, pattern.gauge)
    width, height = _mm(max(x for x, _ in corners) * 2), _mm(max(y for _, y in corners))
    side = MARGIN + 40
    inside = [
        f"<title>{escape(title)}</title>",
        f'<polygon class="piece" points="{_points(corners, width, height)}" stroke-width="5"/>',
        *([_line(cut_out, width, height)] if cut_out else []),
        *_across(width, MARGIN + height - _mm(_rise(pattern, found, CHEST)), chest),
        *_upwards(side + width + MARGIN, height, _mm(_rise(pattern, found, LENGTH)), length),
    ]
    wide = side + width + MARGIN + 40 + max(len(length) * LETTER_WIDTH, MARGIN)
    box = f"0 0 {wide} {height + 2 * MARGIN}"
    head = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" role="img"'
    return "\n".join([f'{head} fill="none" stroke="currentColor">', *inside, "</svg>"])


def _rise(pattern: Pattern, found: tuple[Band, ...], key: str) -> Fraction:
    """How high above the lower edge the chest is measured, or how far up the length goes; the
    piece's whole height where the pattern does not say."""
    heights = list(accumulate(band.height for band in found))
    for rule in pattern.measures:
        if rule.key != key:
            continue
        keys = {address.partition(".")[2] for address in rule.at}
        tops = [top for band, top in zip(found, heights, strict=True) if band.section.key in keys]
        if tops:
            return tops[-1]
    return heights[-1]


def _mm(cm: Fraction) -> int:
    return round_half_up(cm * 10)


def _points(points: tuple[Point, ...], width: int, height: int) -> str:
    middle = MARGIN + width // 2
    return " ".join(f"{middle + _mm(x)},{MARGIN + height - _mm(y)}" for x, y in points)


def _line(points: tuple[Point, ...], width: int, height: int) -> str:
    return f'<polyline class="piece" points="{_points(points, width, height)}" stroke-width="5"/>'


def _across(width: int, y: int, words: str) -> list[str]:
    """The arrow across the piece a little below the line, and its word under it."""
    low, left, right = y + 40, MARGIN, MARGIN + width
    tips = (
        f"M{left},{low}H{right}M{left + TIP},{low - TIP}L{left},{low}L{left + TIP},{low + TIP}"
        f"M{right - TIP},{low - TIP}L{right},{low}L{right - TIP},{low + TIP}"
    )
    text = _text(MARGIN + width // 2, low + LETTERS + 8, words, "middle")
    return [f'<path class="measure" d="{tips}" stroke-width="5"/>', text]


def _upwards(x: int, height: int, rise: int, words: str) -> list[str]:
    """The arrow from the lower edge upwards, and its word beside it."""
    low, high = MARGIN + height, MARGIN + height - rise
    tips = (
        f"M{x},{low}V{high}M{x - TIP},{low - TIP}L{x},{low}L{x + TIP},{low - TIP}"
        f"M{x - TIP},{high + TIP}L{x},{high}L{x + TIP},{high + TIP}"
    )
    text = _text(x + 24, (low + high) // 2, words, "start")
    return [f'<path class="measure" d="{tips}" stroke-width="5"/>', text]


def _text(x: int, y: int, words: str, anchor: str) -> str:
    return (
        f'<text x="{x}" y="{y}" font-size="{LETTERS}" text-anchor="{anchor}" '
        f'fill="currentColor" stroke="none">{escape(words)}</text>'
    )
