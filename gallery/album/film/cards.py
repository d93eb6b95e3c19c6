"""Pages of words: a knitted ground in two near tones, a title, a row of stitches, lines below."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw

from gallery.album.film.band import Band, laid, reference_width, scale_of
from gallery.album.film.lettering import Sheet, broken, runs_right_to_left, width_of
from gallery.album.film.looks import LOOKS, Colour
from gallery.album.film.plan import Card, FilmPlan

TITLE, TITLE_LINE, MOST_TITLE_LINES = 104, 124, 3
SIDE, ABOVE_AND_BELOW, GUTTER = 170, 84, 60
ORNAMENT, ORNAMENT_ROOM, STITCHES_IN_ORNAMENT = 34, 130, 7
# From the roomiest to the tightest: type size and number of columns. 40 pixels of 1080 is still
# easy to read across a room.
SETTINGS = ((54, 1), (54, 2), (46, 2), (40, 3))
LEADING = 1.42
STITCH_WIDTH, STITCH_HEIGHT, FINE = 46, 38, 4

Picture = NDArray[np.uint8]


@dataclass(frozen=True)
class Page:
    """A card set in lines: sizes in reference pixels."""

    title: tuple[str, ...]
    lines: tuple[str, ...]
    size: int
    columns: int

    @property
    def rows(self) -> int:
        return -(-len(self.lines) // self.columns)

    @property
    def height(self) -> float:
        room = ORNAMENT_ROOM if self.title and self.lines else 0
        return TITLE_LINE * len(self.title) + room + self.rows * self.size * LEADING


def page_of(plan: FilmPlan, card: Card) -> Page | None:
    """The card set as large as it fits; None when it does not fit even in small type."""
    room = reference_width(plan) - 2 * SIDE
    title = broken(card.title, "title", TITLE, room, MOST_TITLE_LINES)
    if title is None:
        return None
    most = plan.height / scale_of(plan) - 2 * ABOVE_AND_BELOW
    for size, columns in SETTINGS:
        lines = _set_lines(card.lines, size, columns, room)
        page = Page(tuple(title), tuple(lines or ()), size, columns)
        if lines is not None and page.height <= most:
            return page
    return None


def _set_lines(lines: tuple[str, ...], size: int, columns: int, room: float) -> list[str] | None:
    width = (room - GUTTER * (columns - 1)) / columns
    if columns > 1:  # a name is not broken inside a column
        whole = [" ".join(line.split()) for line in lines]
        fits = all(width_of(line, "text", size) <= width for line in whole)
        return whole if fits else None
    set_lines: list[str] = []
    for line in lines:
        pieces = broken(line, "text", size, width, 20)
        if pieces is None:
            return None
        set_lines += pieces or [""]
    return set_lines


def ground_of(plan: FilmPlan) -> Picture:
    """The card without its words, an sRGB picture of the film's size."""
    look = LOOKS[plan.look]
    cloth = knitted(plan.width, plan.height, scale_of(plan), look.ground, look.stitch)
    return np.clip(np.rint(cloth), 0, 255).astype(np.uint8)


def words_on(plan: FilmPlan, page: Page) -> Band:
    """The card's words, apart from its ground so that they can fade before it."""
    no_veil = np.zeros((plan.height, 1), np.float32)
    return laid(list(_sheets(plan, page)), 0, LOOKS[plan.look].ground, no_veil)


def _sheets(plan: FilmPlan, page: Page) -> Iterator[tuple[Sheet, Colour]]:
    look, scale = LOOKS[plan.look], scale_of(plan)
    top = (plan.height / scale - page.height) / 2
    titles, words = (Sheet(plan.width, plan.height, scale) for _ in range(2))
    for number, line in enumerate(page.title):
        _centred(titles, line, "title", TITLE, (_middle(plan), top + TITLE_LINE * (number + 0.76)))
    below = top + TITLE_LINE * len(page.title)
    room = ORNAMENT_ROOM if page.title and page.lines else 0
    for number, line in enumerate(page.lines):
        column, row = divmod(number, page.rows)
        base = below + room + page.size * LEADING * (row + 0.74)
        _centred(words, line, "text", page.size, (_column_middle(plan, page, column), base))
    yield titles, look.ink
    yield words, look.soft_ink
    if page.title:
        yield _ornament(plan, below + ORNAMENT_ROOM * 0.38), look.accent


def _centred(sheet: Sheet, line: str, name: str, size: float, at: tuple[float, float]) -> None:
    sheet.write(line, name, size, at, anchor="ms", leftwards=runs_right_to_left(line))


def _middle(plan: FilmPlan) -> float:
    return reference_width(plan) / 2


def _column_middle(plan: FilmPlan, page: Page, column: int) -> float:
    room = reference_width(plan) - 2 * SIDE
    width = (room - GUTTER * (page.columns - 1)) / page.columns
    return SIDE + column * (width + GUTTER) + width / 2


def _ornament(plan: FilmPlan, middle: float) -> Sheet:
    """One short row of stitches between title and lines."""
    sheet = Sheet(plan.width, plan.height, scale_of(plan))
    stitch = _stitch(ORNAMENT * sheet.scale, ORNAMENT * 0.82 * sheet.scale)
    step = ORNAMENT * sheet.scale
    left = plan.width / 2 - step * STITCHES_IN_ORNAMENT / 2
    for number in range(STITCHES_IN_ORNAMENT):
        place = (round(left + step * number), round(middle * sheet.scale - stitch.height / 2))
        sheet.mask.paste(stitch, place, stitch)
    return sheet


def _stitch(width: float, height: float) -> Image.Image:
    """One knit stitch, a V of two leaning legs, as a mask."""
    wide, high = max(2, round(width)), max(2, round(height * 1.3))
    fine = Image.new("L", (wide * FINE, high * FINE), 0)
    pen = ImageDraw.Draw(fine)
    for way in (-1, 1):
        pen.polygon(_leg(wide * FINE, high * FINE, way), fill=255)
    return fine.resize((wide, high), Image.Resampling.BOX)


def _leg(wide: int, high: int, way: int) -> list[tuple[float, float]]:
    """A leg of the V: a slender lens from the outer top to the middle of the foot."""
    along = np.linspace(0, np.pi, 13)
    share = (1 - np.cos(along)) / 2
    centre_x = 0.5 + way * (0.40 - 0.34 * share)
    half = 0.125 * np.sin(along) ** 0.7
    right = [((x + h) * wide, s * high) for x, h, s in zip(centre_x, half, share, strict=True)]
    left = [((x - h) * wide, s * high) for x, h, s in zip(centre_x, half, share, strict=True)]
    return [*right, *reversed(left)]


def knitted(
    width: int, height: int, scale: float, ground: Colour, stitch: Colour
) -> NDArray[np.float32]:
    """A knitted ground in two near tones, plainer towards the middle where the words stand."""
    wide, high = max(4, round(STITCH_WIDTH * scale)), max(4, round(STITCH_HEIGHT * scale))
    leg = np.asarray(_stitch(wide, high), np.float32) / 255
    tile = np.zeros((high, wide), np.float32)
    for row in range(leg.shape[0]):  # what hangs below the cell belongs to the cell below
        tile[row % high] = np.maximum(tile[row % high], leg[row])
    repeats = (-(-height // high), -(-width // wide))
    cloth = np.tile(tile, repeats)[:height, :width] * _plainer_middle(width, height)
    low, lift = np.array(ground, np.float32), np.subtract(stitch, ground).astype(np.float32)
    return np.asarray(low + cloth[..., None] * lift, np.float32)


def _plainer_middle(width: int, height: int) -> NDArray[np.float32]:
    across = np.linspace(-1, 1, width, dtype=np.float32)[None, :]
    down = np.linspace(-1, 1, height, dtype=np.float32)[:, None]
    return np.clip(0.12 + 0.9 * (across**2 * 0.8 + down**2 * 0.55), 0, 1)
