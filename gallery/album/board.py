"""The storyboard: every slide with its words, its time and what is wrong with it."""

from collections.abc import Sequence
from dataclasses import dataclass

from gallery.album.film.plan import FilmPlan, PhotoSlide
from gallery.album.film.timing import total_seconds
from gallery.album.forms import SlideForm
from gallery.album.gather import Placed, placed, plan_of
from gallery.album.hindrances import doubts, hindrances
from gallery.album.models import Album, Slide


@dataclass(frozen=True)
class Typed:
    """Words that were not kept, so that the page shows them again."""

    slide_id: str
    form: SlideForm


@dataclass(frozen=True)
class Tile:
    """One slide on the desk; `words` and `title` are what its fields show."""

    placed: Placed
    caption: str
    credit: str
    description: str
    title: str
    words: str
    mistakes: Sequence[str] = ()
    is_typed: bool = False

    @property
    def slide(self) -> Slide:
        """The row behind the tile."""
        return self.placed.row

    @property
    def before(self) -> int:
        """The place one up."""
        return self.slide.position - 1

    @property
    def after(self) -> int:
        """The place one down."""
        return self.slide.position + 1


@dataclass(frozen=True)
class Board:
    """All tiles, the running time, what stops the film and what would look wrong."""

    tiles: Sequence[Tile]
    minutes: str
    problems: Sequence[str]
    doubts: Sequence[str]

    @property
    def photos(self) -> int:
        """How many photos the film shows."""
        return sum(not tile.placed.is_card and bool(tile.placed.planned) for tile in self.tiles)


def board_of(album: Album, typed: Typed | None = None) -> Board:
    """The desk's view of the album at this moment; `typed` keeps the words of a refused change."""
    slides = placed(album)
    return Board(
        tiles=[_tile(one, typed) for one in slides],
        minutes=_minutes(plan_of(album, slides)),
        problems=hindrances(album, slides),
        doubts=doubts(album, slides),
    )


def _tile(one: Placed, typed: Typed | None) -> Tile:
    photo = one.drawn if isinstance(one.drawn, PhotoSlide) else None
    form = typed.form if typed and typed.slide_id == one.row.public_id else None
    return Tile(
        placed=one,
        caption=photo.caption if photo else one.generated,
        credit=photo.credit if photo else "",
        description=photo.description if photo else one.row.title,
        title=form.data.get("title", "") if form else one.row.title,
        words=form.data.get("words", "") if form else one.row.words or one.generated,
        mistakes=[str(said) for found in form.errors.values() for said in found] if form else (),
        is_typed=form is not None,
    )


def _minutes(plan: FilmPlan) -> str:
    seconds = int(total_seconds(plan)) if plan.slides else 0
    return f"{seconds // 60}:{seconds % 60:02d}"
