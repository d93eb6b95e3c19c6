"""What a finished film holds, slide by slide: its time, its words, what it rests on."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _

from gallery.album.asking import as_allowed, photo_behind
from gallery.album.film.plan import Card, PhotoSlide, Slide
from gallery.album.film.timing import short_time, shots, total_frames
from gallery.album.models import Film
from gallery.album.pack import plan_behind


@dataclass(frozen=True)
class Shown:
    """One slide of a finished film; of one that is gone the words are not told."""

    number: int
    time: str
    caption: str
    credit: str
    entries: Sequence[int]
    is_card: bool
    description: str = ""
    gone: Sequence[str] = ()

    @property
    def is_gone(self) -> bool:
        """Whether something of it may no longer be shown; `gone` says what."""
        return bool(self.gone)


@dataclass(frozen=True)
class Contents:
    """All slides, and the numbers of those that hold something that is no longer allowed."""

    slides: Sequence[Shown]
    length: str

    @property
    def gone(self) -> list[int]:
        """The numbers of the slides that close the film."""
        return [slide.number for slide in self.slides if slide.is_gone]

    @property
    def is_open(self) -> bool:
        """Whether everything in the film is still allowed."""
        return not self.gone


def _caption(slide: Slide) -> str:
    return slide.title if isinstance(slide, Card) else slide.caption


def _credit(slide: Slide) -> str:
    return slide.credit if isinstance(slide, PhotoSlide) else ""


def _description(slide: Slide) -> str:
    """What the picture shows; of a card the lines below its heading."""
    return slide.description if isinstance(slide, PhotoSlide) else " ".join(slide.lines)


def _gone(slide: Slide, allowed: Mapping[str, PhotoSlide]) -> list[str]:
    """What of a slide may no longer be shown, in the barest words."""
    if isinstance(slide, Card):
        return []
    now = allowed.get(photo_behind(slide))
    if now is None:
        return [_("the photo")]
    name = [_("the name")] if now.credit != slide.credit else []
    numbers = [_("the numbers")] if now.caption != slide.caption else []
    words = [_("the description")] if now.description != slide.description else []
    return name + numbers + words or ([] if now == slide else [_("the words")])


def contents_of(film: Film) -> Contents:
    """The film's slides as it shows them, judged by what is allowed now."""
    plan = plan_behind(film)
    entries = {item.position: item.entry_seqs for item in film.items.all()}
    allowed = {
        photo_behind(slide): slide
        for slide in as_allowed(plan).slides
        if isinstance(slide, PhotoSlide)
    }
    gone = [_gone(slide, allowed) for slide in plan.slides]
    timed = zip(shots(plan), plan.slides, strict=True)
    return Contents(
        [
            Shown(
                number=shot.index + 1,
                time=short_time(shot.start, plan.fps),
                caption="" if gone[shot.index] else _caption(slide),
                credit="" if gone[shot.index] else _credit(slide),
                entries=entries.get(shot.index, []),
                is_card=isinstance(slide, Card),
                description="" if gone[shot.index] else _description(slide),
                gone=gone[shot.index],
            )
            for shot, slide in timed
        ],
        length=short_time(total_frames(plan), plan.fps),
    )
