"""What a finished film holds, slide by slide: its time, its words, what it rests on."""

from collections.abc import Sequence
from dataclasses import dataclass

from gallery.album.asking import as_allowed
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
    is_gone: bool


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


def contents_of(film: Film) -> Contents:
    """The film's slides as it shows them, judged by what is allowed now."""
    plan = plan_behind(film)
    entries = {item.position: item.entry_seqs for item in film.items.all()}
    allowed = set(as_allowed(plan).slides)
    timed = zip(shots(plan), plan.slides, strict=True)
    return Contents(
        [
            Shown(
                number=shot.index + 1,
                time=short_time(shot.start, plan.fps),
                caption=_caption(slide) if slide in allowed else "",
                credit=slide.credit if isinstance(slide, PhotoSlide) and slide in allowed else "",
                entries=entries.get(shot.index, []),
                is_card=isinstance(slide, Card),
                is_gone=slide not in allowed,
            )
            for shot, slide in timed
        ],
        length=short_time(total_frames(plan), plan.fps),
    )
