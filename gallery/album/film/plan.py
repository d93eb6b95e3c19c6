"""What the film shows: slides, their order and length, music, size and look; plain frozen data."""

from dataclasses import dataclass
from pathlib import Path

from gallery.album.film.errors import FilmError
from gallery.album.film.looks import LOOKS
from gallery.album.film.saying import gettext as _

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
            raise FilmError(_("The focus point lies outside the photo: choose a point inside it."))


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
            raise FilmError(
                _("A card is one of %(kinds)s, not “%(kind)s”.")
                % {"kinds": ", ".join(CARD_KINDS), "kind": self.kind}
            )


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
                    _(
                        "A film is %(least)s to %(most)s pixels wide and high, an even number; "
                        "%(side)s is not."
                    )
                    % {"least": SMALLEST_SIDE, "most": LARGEST_SIDE, "side": side}
                )
        if self.fps not in FRAME_RATES:
            raise FilmError(
                _("Choose one of %(rates)s frames a second.")
                % {"rates": ", ".join(map(str, FRAME_RATES))}
            )
        if self.look not in LOOKS:
            raise FilmError(_("Choose one of the looks %(looks)s.") % {"looks": ", ".join(LOOKS)})
        _refuse_short_fades(self)


def credit_line(plan: FilmPlan, slide: PhotoSlide) -> tuple[str, str]:
    """The words of the credit and the name behind them ("" where nobody may be named)."""
    if slide.credit:
        return plan.credit_words, slide.credit
    return plan.neutral_credit, ""


def _refuse_wrong_length(seconds: float) -> None:
    if not SHORTEST_SHOT_SECONDS <= seconds <= LONGEST_SHOT_SECONDS:
        raise FilmError(
            _(
                "A slide stands between %(least)s and %(most)s seconds; %(seconds)s is outside. "
                "Change its length."
            )
            % {
                "least": f"{SHORTEST_SHOT_SECONDS:g}",
                "most": f"{LONGEST_SHOT_SECONDS:g}",
                "seconds": f"{seconds:g}",
            }
        )


def _refuse_short_fades(plan: FilmPlan) -> None:
    if plan.fade_seconds < SHORTEST_FADE_SECONDS:
        raise FilmError(
            _(
                "A fade takes at least %(least)s seconds, so that nothing flashes; %(seconds)s is "
                "too short."
            )
            % {"least": f"{SHORTEST_FADE_SECONDS:g}", "seconds": f"{plan.fade_seconds:g}"}
        )
    for number, slide in enumerate(plan.slides, start=1):
        if slide.seconds < 2 * plan.fade_seconds:
            raise FilmError(
                _(
                    "Slide %(number)s stands %(seconds)s seconds, less than two fades of "
                    "%(fade)s: let it stand longer or fade faster."
                )
                % {
                    "number": number,
                    "seconds": f"{slide.seconds:g}",
                    "fade": f"{plan.fade_seconds:g}",
                }
            )
