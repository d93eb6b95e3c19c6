"""A piece drawn as SVG: the pattern's outline behind, the garment as made in front, with labels."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from html import escape
from itertools import accumulate

from alterations.gauges import fabric_gauge
from alterations.outline import Band, Point, bands, neckline, outline
from alterations.panels import panels_of
from alterations.pattern import Piece, Section
from alterations.recalculate import Garment, Result
from alterations.rounding import round_half_up
from alterations.saying import gettext as _
from alterations.saying import ngettext
from alterations.units import show_length
from alterations.wording import inside

MARGIN, LETTERS, LINE_HEIGHT = 60, 28, 37  # in millimetres of the garment, as all drawn numbers
LETTER_WIDTH = 16  # of a broad letter at that size, so that no label is cut off
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

    It has no styles of its own: classes base, made, neck, seam, label and was, drawn in the text's
    colour. Widths carry cm, inches and stitches; heights cm, inches and rows; where the pattern has
    another number, it stands below in brackets.
    """
    base, made = result.before.size.piece(piece_key), result.after.size.piece(piece_key)
    old, new = _bands(result, base, result.before), _bands(result, made, result.after)
    width, height = (_largest(old, new, side) for side in ("width", "height"))
    sheet = Sheet(MARGIN + width // 2, MARGIN + 2 * LINE_HEIGHT + height)
    beside = [words for band in new for words in _height_words(band, old)]
    labels = max(map(len, beside)) * LETTER_WIDTH
    box = f"0 0 {2 * MARGIN + width + labels} {2 * MARGIN + 4 * LINE_HEIGHT + height}"
    inside = [
        f"<title>{escape(_title(result, made))}</title>",
        f"<desc>{escape(_description(made, new, base, old))}</desc>",
        *_drawn(result, base, result.before, sheet, "base"),
        *_drawn(result, made, result.after, sheet, "made"),
        *_width_labels((base, old), (made, new), sheet),
        *_height_labels(old, new, sheet, MARGIN + width + 30),
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
    return _("%(pattern)s, size %(size)s: %(piece)s") % {
        "pattern": result.pattern.name,
        "size": result.before.size.name,
        "piece": inside(piece.title),
    }


def _description(piece: Piece, found: tuple[Band, ...], base: Piece, old: tuple[Band, ...]) -> str:
    """The drawing in words, bottom to top, with the pattern's numbers where they are others."""
    parts = []
    for band in found:
        words = _wide_and_high(piece, band)
        was = _same_of(band, old)
        before = _wide_and_high(base, was) if was else ""
        if before and before != words:
            told = {"made": words, "base": before}
            words = _("%(made)s (in the pattern %(base)s)") % told
        parts.append(f"{band.section.title}: {words}")
    return _("From the bottom: %(bands)s.") % {"bands": "; ".join(parts)}


def _wide_and_high(piece: Piece, band: Band) -> str:
    return _("%(width)s, %(height)s high") % {
        "width": _width(piece, band, above=True),
        "height": _rows(band),
    }


def _same_of(band: Band, old: tuple[Band, ...]) -> Band | None:
    """The pattern's band of the same section."""
    return next((one for one in old if one.section.key == band.section.key), None)


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
        for x in _seams(result, piece, garment):
            line = _points(((x, Fraction(0)), (x, top)), sheet)
            yield (
                f'<polyline class="seam" points="{line}" stroke-width="2" stroke-dasharray="4 8"/>'
            )


def _seams(result: Result, piece: Piece, garment: Garment) -> tuple[Fraction, ...]:
    """How far the seams between panels lie from the middle, in cm."""
    if piece.panels == 2:
        return (Fraction(0),)
    middle = panels_of(piece)[1]
    fabric = fabric_gauge(result.pattern, middle.sections[-1].fabric, garment.gauge)
    half = (middle.widest - 2) / fabric.stitches_per_cm / 2
    return (-half, half)


def _points(points: tuple[Point, ...], sheet: Sheet) -> str:
    return " ".join(f"{x},{y}" for x, y in map(sheet.at, points))


Drawn = tuple[Piece, tuple[Band, ...]]


def _width_labels(base: Drawn, made: Drawn, sheet: Sheet) -> Iterator[str]:
    """Under the piece, above it, and inside each straight band between with room for words."""
    found = made[1]
    heights = [Fraction(0), *accumulate(band.height for band in found)]
    bottom = sheet.at((Fraction(0), Fraction(0)))[1]
    top = sheet.at((Fraction(0), heights[-1]))[1]
    yield from _two_lines(sheet.middle, bottom + LINE_HEIGHT, _widths(base, made, 0, above=False))
    if len(found) > 1 and found[-1].section.end:
        words = _widths(base, made, -1, above=True)
        yield from _two_lines(sheet.middle, top - 12 - LINE_HEIGHT * (len(words) - 1), words)
    for at, (band, below) in enumerate(zip(found[1:-1], heights[1:], strict=False), start=1):
        if _has_width_of_its_own(band, found[at + 1]):
            up = band.height / (2 if band.section.shape == "straight" else 1)
            y = sheet.at((Fraction(0), below + up))[1]
            yield from _two_lines(sheet.middle, y, _widths(base, made, at, above=True))


def _has_width_of_its_own(band: Band, above: Band) -> bool:
    """A straight band with room for words, or the waist between two slopes."""
    if band.section.shape == "straight":
        return band.height >= LEAST_FOR_WORDS_CM
    return band.section.shape == above.section.shape == "spread"


def _widths(base: Drawn, made: Drawn, at: int, *, above: bool) -> list[str]:
    """A width as made, and the pattern's in brackets where it is another one."""
    piece, found = made
    words = _width(piece, found[at], above=above)
    was = _same_of(found[at], base[1])
    before = _width(base[0], was, above=above) if was else ""
    return [words, f"({before})"] if before and before != words else [words]


def _two_lines(x: int, y: int, words: list[str], anchor: str = "middle") -> Iterator[str]:
    yield _text(x, y, words[0], anchor)
    yield from (_text(x, y + LINE_HEIGHT, was, anchor, "label was") for was in words[1:])


def _height_labels(
    old: tuple[Band, ...], new: tuple[Band, ...], sheet: Sheet, x: int
) -> Iterator[str]:
    """Beside each band its height, pushed upwards where two would lie on each other."""
    below, lowest = Fraction(0), sheet.floor + LINE_HEIGHT
    for band in new:
        words = _height_words(band, old)
        y = sheet.at((Fraction(0), below + band.height / 2))[1]
        lowest = min(y, lowest - LINE_HEIGHT * len(words))
        below += band.height
        yield from _two_lines(x, lowest, words, "start")


def _height_words(band: Band, old: tuple[Band, ...]) -> list[str]:
    words = f"{band.section.title}: {_rows(band)}"
    was = _same_of(band, old)
    return [words, f"({_rows(was)})"] if was and _rows(was) != _rows(band) else [words]


def _width(piece: Piece, band: Band, *, above: bool) -> str:
    cm = band.above if above else band.below
    width = show_length(cm, "both")
    stitches = _stitches(piece, band.section.key, above=above)
    if not stitches:
        return width
    return _("%(width)s, %(stitches)s stitches") % {"width": width, "stitches": stitches}


def _stitches(piece: Piece, key: str, *, above: bool) -> str:
    """Stitches on the needles, of each panel where there are several."""
    panels = panels_of(piece)
    sections = [one for panel in panels for one in panel.sections if one.key == key]
    counts = [section.end if above else section.start for section in sections]
    return " + ".join(str(count) for count in counts if count)


def _rows(band: Band) -> str:
    rows = ngettext("%(height)s, %(rows)s rows", "%(height)s, %(rows)s rows", band.section.rows)
    told = {"height": show_length(band.height, "both"), "rows": band.section.rows}
    return f"{rows % told}{_across(band.section)}"


def _across(section: Section) -> str:
    """The counts of a neck and of a shoulder, which no width beside the outline tells."""
    if section.shape == "neck" and section.centre:
        return _(", %(stitches)s stitches in the centre") % {"stitches": section.centre}
    if section.shape == "held":
        return _(", %(stitches)s stitches a shoulder") % {"stitches": sum(section.groups)}
    return ""


def _text(x: int, y: int, words: str, anchor: str, name: str = "label") -> str:
    return (
        f'<text class="{name}" x="{x}" y="{y}" font-size="{LETTERS}" text-anchor="{anchor}" '
        f'fill="currentColor" stroke="none">{escape(words)}</text>'
    )
