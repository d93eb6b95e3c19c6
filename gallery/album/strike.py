"""Strikes an erased photo out of every film: its words, its cached parts, the films' files."""

from collections.abc import Collection, Iterable
from dataclasses import replace

from django.db import transaction

from gallery.album.asking import photo_behind
from gallery.album.film import planfile
from gallery.album.film.plan import PhotoSlide, Slide
from gallery.album.forget import forget_picture
from gallery.album.models import Film, FilmItem, Render
from gallery.album.publish import films


def strike(photo_ids: Collection[str]) -> int:
    """Strike out the photos with these public ids; give how many film files went.

    What stays of a film is that it was made, when, of how many frames, and which entries of the
    ledger allowed it then. Call it before or after the photos' own rows are gone.
    """
    gone: list[Film] = []
    for photo_id in photo_ids:
        for wish in Render.objects.filter(plan__contains=photo_id).select_related("film"):
            _strike_words(wish, photo_id)
            gone += [wish.film] if hasattr(wish, "film") else []
    others = Film.objects.exclude(pk__in=[film.pk for film in gone])
    for sha256 in _files(gone) - _files(others):
        films().remove(sha256)
    return len({film.sha256 for film in gone})


def _files(made: Iterable[Film]) -> set[str]:
    return {sha256 for film in made for sha256 in (film.sha256, film.poster_sha256)}


@transaction.atomic
def _strike_words(wish: Render, photo_id: str) -> None:
    FilmItem.objects.filter(film__render=wish, photo_public_id=photo_id).update(
        caption="", credit=""
    )
    plan = planfile.from_text(wish.plan)
    wordless = tuple(_struck(slide, photo_id) for slide in plan.slides)
    Render.objects.filter(pk=wish.pk).update(plan=planfile.to_text(replace(plan, slides=wordless)))


def _struck(slide: Slide, photo_id: str) -> Slide:
    if not isinstance(slide, PhotoSlide) or photo_behind(slide) != photo_id:
        return slide
    forget_picture(slide.photo_sha256)
    return replace(slide, caption="", credit="", description="")
