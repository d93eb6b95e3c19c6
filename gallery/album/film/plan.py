"""What the film shows: slides, their order and length, music, size and look; plain frozen data."""

from dataclasses import dataclass
from pathlib import Path

from gallery.album.film.errors import FilmError
from gallery.album.film.looks import LOOKS

FRAME_RATES = (24, 25, 30, 50, 60)
CARD_KINDS = ("title", "thanks")
# WCAG 2.2, success criterion 2.3.1: nothing may flash more than three times in a second. Shots
# and fades this long stay far below it.
SHORTEST_SHOT_SECONDS = 1.0
SHORTEST_FADE_SECONDS = 0.3
LONGEST_SHOT_SECONDS = 60.0
SMALLEST_SIDE, LARGEST_SIDE = 160, 3840


@dataclass(frozen=True)
class Music:
    """The teacher's own music file and the words that say why it may be used."""

    path: Path
    licence_note: str = ""


@dataclass(frozen=True)
class PhotoSlide:
    """One photo with its caption; `photo` is a JPEG master made by our own intake.

    `credit` is the name exactly as it may be shown, "" for the plan's neutral words. `focus` is
    the point to keep in view, as shares of the photo's width and height. `ref` is the caller's.
    """

    photo: Path
    photo_sha256: str
    caption: str
    credit: str = ""
    description: str = ""
    seconds: float = 5.0
    focus: tuple[float, float] = (0.5, 0.5)
    ref: str = ""

    def __post_init__(self) -> None:
        _refuse_wrong_length(self.seconds)
        if not all(0 <= share <= 1 for share in self.focus):
            raise FilmError("The focus point lies outside the photo: choose a point inside it.")


@dataclass(frozen=True)
class Card:
    """A page of words: the title at the beginning, the thanks at the end."""

    title: str
    lines: tuple[str, ...] = ()
    kind: str = "title"
    seconds: float = 4.0
    ref: str = ""

    def __post_init__(self) -> None:
        _refuse_wrong_length(self.seconds)
        if self.kind not in CARD_KINDS:
            raise FilmError(f"A card is one of {', '.join(CARD_KINDS)}, not “{self.kind}”.")


Slide = PhotoSlide | Card


@dataclass(frozen=True)
class FilmPlan:
    """The whole film. A slide's `seconds` run from its coming in to the coming in of the next;

    after the last one the film fades to dark for `fade_seconds`.
    """

    slides: tuple[Slide, ...] = ()
    width: int = 1920
    height: int = 1080
    fps: int = 30
    fade_seconds: float = 0.8
    look: str = "evening"
    music: Music | None = None
    credit_words: str = "Made by"
    neutral_credit: str = "Made by a knitter of this series"

    def __post_init__(self) -> None:
        for side in (self.width, self.height):
            if side % 2 or not SMALLEST_SIDE <= side <= LARGEST_SIDE:
                raise FilmError(
                    f"A film is {SMALLEST_SIDE} to {LARGEST_SIDE} pixels wide and high, "
                    f"an even number; {side} is not."
                )
        if self.fps not in FRAME_RATES:
            raise FilmError(f"Choose one of {', '.join(map(str, FRAME_RATES))} frames a second.")
        if self.look not in LOOKS:
            raise FilmError(f"Choose one of the looks {', '.join(LOOKS)}.")
        _refuse_short_fades(self)


def credit_line(plan: FilmPlan, slide: PhotoSlide) -> tuple[str, str]:
    """The words of the credit and the name behind them ("" where nobody may be named)."""
    if slide.credit:
        return plan.credit_words, slide.credit
    return plan.neutral_credit, ""


def _refuse_wrong_length(seconds: float) -> None:
    if not SHORTEST_SHOT_SECONDS <= seconds <= LONGEST_SHOT_SECONDS:
        raise FilmError(
            f"A slide stands between {SHORTEST_SHOT_SECONDS:g} and {LONGEST_SHOT_SECONDS:g} "
            f"seconds; {seconds:g} is outside. Change its length."
        )


def _refuse_short_fades(plan: FilmPlan) -> None:
    if plan.fade_seconds < SHORTEST_FADE_SECONDS:
        raise FilmError(
            f"A fade takes at least {SHORTEST_FADE_SECONDS:g} seconds, so that nothing flashes; "
            f"{plan.fade_seconds:g} is too short."
        )
    for number, slide in enumerate(plan.slides, start=1):
        if slide.seconds < 2 * plan.fade_seconds:
            raise FilmError(
                f"Slide {number} stands {slide.seconds:g} seconds, less than two fades of "
                f"{plan.fade_seconds:g}: let it stand longer or fade faster."
            )
