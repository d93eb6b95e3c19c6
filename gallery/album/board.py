"""The storyboard: every slide with its words, its time and what is wrong with it."""

from collections.abc import Sequence
from dataclasses import dataclass

from gallery.album.film import check
from gallery.album.film.plan import Card, FilmPlan, PhotoSlide
from gallery.album.film.timing import total_seconds
from gallery.album.forms import SlideForm
from gallery.album.gather import Placed, placed, plan_of
from gallery.album.models import Album, Slide


@dataclass(frozen=True)
class Tile:
    """One slide on the desk."""

    placed: Placed
    caption: str
    credit: str
    title: str
    words: str
    is_card: bool
    has_mistake: bool

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
        return sum(not tile.is_card and tile.placed.planned is not None for tile in self.tiles)


def board_of(album: Album, typed: tuple[str, SlideForm] | None = None) -> Board:
    """The desk's view of the album at this moment; `typed` keeps the words of a refused change."""
    slides = placed(album)
    plan = plan_of(album, slides)
    return Board(
        tiles=[_tile(one, typed) for one in slides],
        minutes=_minutes(plan),
        problems=check.problems(plan),
        doubts=check.doubts(plan),
    )


def _tile(one: Placed, typed: tuple[str, SlideForm] | None) -> Tile:
    is_typed = typed is not None and typed[0] == one.row.public_id
    form = typed[1] if typed is not None and is_typed else None
    planned = one.planned
    own = one.row.words if one.row.kind != Slide.Kind.GARMENT else one.row.words or one.generated
    return Tile(
        placed=one,
        caption=planned.caption if isinstance(planned, PhotoSlide) else one.generated,
        credit=planned.credit if isinstance(planned, PhotoSlide) else "",
        title=form.data.get("title", "") if form else one.row.title,
        words=form.data.get("words", "") if form else own,
        is_card=isinstance(planned, Card),
        has_mistake=is_typed,
    )


def _minutes(plan: FilmPlan) -> str:
    seconds = round(total_seconds(plan)) if plan.slides else 0
    return f"{seconds // 60}:{seconds % 60:02d}"
