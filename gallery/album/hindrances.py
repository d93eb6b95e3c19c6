"""What stands in the way of an album's film, and what deserves a second look, slide by slide."""

import re
from collections.abc import Sequence
from dataclasses import replace

from django.utils.translation import gettext as _

from gallery.album.film import check, music
from gallery.album.film.plan import FilmPlan, PhotoSlide, Slide
from gallery.album.gather import NOT_READY, Placed, bare_plan
from gallery.album.models import Album

_NUMBERED = re.compile(r"^Slide 1: ")


def hindrances(album: Album, slides: Sequence[Placed]) -> list[str]:
    """Everything that keeps the film from being made, each as a sentence; numbers are places."""
    found = [
        _at(one, sentence)
        for one in slides
        if one.planned
        for sentence in check.problems(_alone(album, one.planned))
    ]
    if not any(isinstance(one.planned, PhotoSlide) for one in slides):
        found.append(
            _(
                "There is no photo in the film yet. Approve photos whose knitters allow the film, "
                "then collect them here."
            )
        )
    whole = bare_plan(album, ())
    trouble = music.problem(whole.music) if whole.music else None
    return found + ([trouble] if trouble else [])


def doubts(album: Album, slides: Sequence[Placed]) -> list[str]:
    """What would look wrong but does not stop the film, and what it has to leave out for now."""
    late = [_at(one, one.why_not) for one in slides if one.sign == NOT_READY]
    return late + [
        _at(one, sentence)
        for one in slides
        if one.planned
        for sentence in check.doubts(_alone(album, one.planned))
    ]


def _alone(album: Album, slide: Slide) -> FilmPlan:
    return replace(bare_plan(album, (slide,)), music=None)


def _at(one: Placed, sentence: str) -> str:
    """The sentence with the slide's place in the album, taken-out slides counted."""
    said = _NUMBERED.sub("", sentence)
    return _("Slide %(place)s: %(sentence)s") % {"place": one.row.position, "sentence": said}
