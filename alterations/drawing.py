"""A piece drawn as SVG: the pattern's outline behind, the garment as made in front, with labels."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from html import escape
from itertools import accumulate

from alterations.outline import Band, Point, bands, neckline, outline
from alterations.panels import panels_of
from alterations.pattern import Piece
from alterations.recalculate import Garment, Result
from alterations.rounding import round_half_up
from alterations.units import show_cm, show_in

TENTH = Fraction(1, 10)
MARGIN, LETTERS, LINE_HEIGHT = 60, 24, 32  # in millimetres of the garment, as all drawn numbers
LETTER_WIDTH = 14  # of a broad letter at that size, so that no label is cut off
LEAST_FOR_WORDS_CM = 5  # a lower band has no room for words inside it


@dataclass(frozen=True)
class Sheet:
    """Where a garment's centimetres lie on the drawing."""

    middle: int
    floor: int

    def at(self, point: Point) -> tuple[int, int]:
        """A point in whole millimetres from the drawing's upper left corner."""
        x, y = point
        return self.middle + round_half_up(x * 10), self.floor - round_half_up(y * 10)


def drawing(result: Result, piece_key: str) -> str:
    """One piece as an SVG of its own; refuses (PatternError) a piece the pattern does not have.

    It has no styles of its own: classes base, made, neck, seam and label, drawn in the text's
    colour. Widths carry cm, inches and stitches; heights cm, inches and rows.
    """
    base, made = result.before.size.piece(piece_key), result.after.size.piece(piece_key)
    old, new = _bands(result, base, result.before), _bands(result, made, result.after)
    width, height = (_largest(old, new, side) for side in ("width", "height"))
    sheet = Sheet(MARGIN + width // 2, MARGIN + LINE_HEIGHT + height)
    labels = max(len(_height_label(band)) for band in new) * LETTER_WIDTH
    box = f"0 0 {2 * MARGIN + width + labels} {2 * (MARGIN + LINE_HEIGHT) + height}"
    inside = [
        f"<title>{escape(_title(result, made))}</title>",
        f"<desc>{escape(_description(made, new))}</desc>",
        *_drawn(result, base, result.before, sheet, "base"),
        *_drawn(result, made, result.after, sheet, "made"),
        *_width_labels(made, new, sheet),
        *_height_labels(new, sheet, MARGIN + width + 30),
    ]
    head = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" role="img"'
    return "\n".join([f'{head} fill="none" stroke="currentColor">', *inside, "</svg>"])


def _bands(result: Result, piece: Piece, garment: Garment) -> tuple[Band, ...]:
    return bands(result.pattern, piece, garment.gauge)


def _largest(old: tuple[Band, ...], new: tuple[Band, ...], side: str) -> int:
    if side == "height":
        return max(round_half_up(10 * sum(band.height for band in found)) for found in (old, new))
    return max(round_half_up(10 * max(band.below, band.above)) for band in (*old, *new))


def _title(result: Result, piece: Piece) -> str:
    return f"{result.pattern.name}, size {result.before.size.name}: {piece.title.lower()}"


def _description(piece: Piece, found: tuple[Band, ...]) -> str:
    """The drawing in words, bottom to top."""
    parts = (
        f"{band.section.title}: {_width(piece, band, above=True)}, {_rows(band)} high"
        for band in found
    )
    return "From the bottom: " + "; ".join(parts) + "."


def _drawn(
    result: Result, piece: Piece, garment: Garment, sheet: Sheet, name: str
) -> Iterator[str]:
    dashes = ' stroke-dasharray="12 8" stroke-opacity="0.6"' if name == "base" else ""
    found = _bands(result, piece, garment)
    yield (
        f'<polygon class="{name}" points="{_points(outline(found), sheet)}" '
        f'stroke-width="4"{dashes}/>'
    )
    neck = neckline(result.pattern, piece, garment.gauge)
    if neck:
        line = _points(neck, sheet)
        yield f'<polyline class="{name} neck" points="{line}" stroke-width="4"{dashes}/>'
    if name == "made" and piece.panels > 1:
        top = sum((band.height for band in found), Fraction(0))
        line = _points(((Fraction(0), Fraction(0)), (Fraction(0), top)), sheet)
        yield f'<polyline class="seam" points="{line}" stroke-width="2" stroke-dasharray="4 8"/>'


def _points(points: tuple[Point, ...], sheet: Sheet) -> str:
    return " ".join(f"{x},{y}" for x, y in map(sheet.at, points))


def _width_labels(piece: Piece, found: tuple[Band, ...], sheet: Sheet) -> Iterator[str]:
    """Under the piece, above it, and inside each straight band between with room for words."""
    heights = [Fraction(0), *accumulate(band.height for band in found)]
    _, bottom = sheet.at((Fraction(0), Fraction(0)))
    _, top = sheet.at((Fraction(0), heights[-1]))
    words = _width(piece, found[0], above=False)
    yield _text(sheet.middle, bottom + LINE_HEIGHT, words, "middle")
    if len(found) > 1 and found[-1].section.end:
        yield _text(sheet.middle, top - 12, _width(piece, found[-1], above=True), "middle")
    for band, below in zip(found[1:-1], heights[1:], strict=False):
        if band.section.shape == "straight" and band.height >= LEAST_FOR_WORDS_CM:
            _, y = sheet.at((Fraction(0), below + band.height / 2))
            yield _text(sheet.middle, y, _width(piece, band, above=True), "middle")


def _height_labels(found: tuple[Band, ...], sheet: Sheet, x: int) -> Iterator[str]:
    """Beside each band its height, pushed upwards where two would lie on each other."""
    below, lowest = Fraction(0), sheet.floor + LINE_HEIGHT
    for band in found:
        _, y = sheet.at((Fraction(0), below + band.height / 2))
        lowest = min(y, lowest - LINE_HEIGHT)
        below += band.height
        yield _text(x, lowest, _height_label(band), "start")


def _height_label(band: Band) -> str:
    return f"{band.section.title}: {_rows(band)}"


def _width(piece: Piece, band: Band, *, above: bool) -> str:
    cm = band.above if above else band.below
    width = f"{show_cm(cm, TENTH)} cm ({show_in(cm)} in)"
    stitches = _stitches(piece, band.section.key, above=above)
    return f"{width}, {stitches} stitches" if stitches else width


def _stitches(piece: Piece, key: str, *, above: bool) -> str:
    """Stitches on the needles, of each panel where there are several."""
    sections = [panel.section(key) for panel in panels_of(piece)]
    counts = [section.end if above else section.start for section in sections]
    return " + ".join(str(count) for count in counts if count)


def _rows(band: Band) -> str:
    height = f"{show_cm(band.height, TENTH)} cm ({show_in(band.height)} in)"
    return f"{height}, {band.section.rows} rows"


def _text(x: int, y: int, words: str, anchor: str) -> str:
    return (
        f'<text class="label" x="{x}" y="{y}" font-size="{LETTERS}" text-anchor="{anchor}" '
        f'fill="currentColor" stroke="none">{escape(words)}</text>'
    )
