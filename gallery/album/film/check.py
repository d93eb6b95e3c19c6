"""What stands in the way of a film, and what deserves a second look, before it is made."""

from collections.abc import Iterator

from gallery.album.film import music
from gallery.album.film.band import MOST_LINES, words_of
from gallery.album.film.cards import page_of
from gallery.album.film.errors import FilmError
from gallery.album.film.lettering import SHAPES, missing_glyphs, runs_right_to_left
from gallery.album.film.paint import read_photo
from gallery.album.film.plan import Card, FilmPlan, Slide
from gallery.album.film.saying import gettext as _

SHOWN_GLYPHS = 12


def problems(plan: FilmPlan) -> list[str]:
    """Everything that keeps this plan from being filmed, each as a full sentence."""
    found = (
        [] if plan.slides else [_("The film has no slides: put at least one photo into the album.")]
    )
    for number, slide in enumerate(plan.slides, start=1):
        found += [_slide(number, sentence) for sentence in _problems(plan, slide)]
    trouble = music.problem(plan.music) if plan.music else None
    return found + ([trouble] if trouble else [])


def _problems(plan: FilmPlan, slide: Slide) -> Iterator[str]:
    if isinstance(slide, Card):
        if page_of(plan, slide) is None:
            yield _("the card holds more words than fit; shorten it or make two cards of it.")
        return
    try:
        read_photo(slide.photo)
    except FilmError as trouble:
        yield str(trouble)
    if words_of(plan, slide) is None:
        yield _(
            "the caption or the name needs more room than there is (%(most)s lines each); "
            "shorten it."
        ) % {"most": MOST_LINES}


def doubts(plan: FilmPlan) -> list[str]:
    """What would look wrong in the film but does not stop it, each as a full sentence."""
    found: dict[str, list[int]] = {}
    for number, slide in enumerate(plan.slides, start=1):
        for sentence in _doubts(" ".join(words_on(slide))):
            found.setdefault(sentence, []).append(number)
    return [_slides(numbers, sentence) for sentence, numbers in found.items()]


def _doubts(text: str) -> Iterator[str]:
    absent = missing_glyphs(text)
    if absent:
        signs = " ".join(absent[:SHOWN_GLYPHS])
        yield _(
            "the film's typeface has no sign for %(signs)s; an empty box would stand there. Write "
            "the caption in other letters; for a name, show neutral words in its place, or ask its "
            "knitter how else it may be written."
        ) % {"signs": signs}
    if not SHAPES and runs_right_to_left(text):
        yield _(
            "words that run from right to left need the library FriBiDi on this machine (Debian "
            "package libfribidi0)."
        )


def _slide(number: int, sentence: str) -> str:
    return _("Slide %(number)s: %(sentence)s") % {"number": number, "sentence": sentence}


def _slides(numbers: list[int], sentence: str) -> str:
    if len(numbers) == 1:
        return _slide(numbers[0], sentence)
    told = {"numbers": ", ".join(map(str, numbers)), "sentence": sentence}
    return _("Slides %(numbers)s: %(sentence)s") % told


def words_on(slide: Slide) -> tuple[str, ...]:
    """All words drawn on the slide that its maker or the teacher wrote."""
    if isinstance(slide, Card):
        return (slide.title, *slide.lines)
    return slide.caption, slide.credit
