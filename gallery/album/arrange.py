"""Changes an album by hand: order, words, what is taken out; nobody overwrites unseen."""

from collections.abc import Callable

from django.db import transaction
from django.db.models import F
from django.utils import timezone

from gallery.album.asking import allowed_in_film
from gallery.album.models import Album, Slide


class ConflictError(Exception):
    """Somebody else changed the album since this page was made."""


def renumber(album: Album) -> None:
    """Positions 1, 2, 3 … in the present order."""
    for position, slide in enumerate(album.slides.order_by("position", "pk"), start=1):
        if slide.position != position:
            Slide.objects.filter(pk=slide.pk).update(position=position)


def _take_turn(album: Album, seen_version: int) -> None:
    """Go on only where the album is still the one this person looked at."""
    same = Album.objects.filter(pk=album.pk, version=seen_version)
    if not same.update(version=F("version") + 1):
        raise ConflictError


@transaction.atomic
def move(slide: Slide, place: int, seen_version: int) -> None:
    """Move a slide to that place, counted from 1; the others close up."""
    _take_turn(slide.album, seen_version)
    others = [one for one in slide.album.slides.all() if one.pk != slide.pk]
    place = min(max(place, 1), len(others) + 1)
    for position, one in enumerate([*others[: place - 1], slide, *others[place - 1 :]], start=1):
        Slide.objects.filter(pk=one.pk).update(position=position)


@transaction.atomic
def take_out(slide: Slide, seen_version: int) -> None:
    """Take a slide out of the film; it keeps its place and its words in the album."""
    _take_turn(slide.album, seen_version)
    Slide.objects.filter(pk=slide.pk, taken_out_at=None).update(taken_out_at=timezone.now())


@transaction.atomic
def put_back(slide: Slide, seen_version: int) -> None:
    """Put a slide back that was taken out."""
    _take_turn(slide.album, seen_version)
    Slide.objects.filter(pk=slide.pk).update(taken_out_at=None)


@transaction.atomic
def name(slide: Slide, names_nobody: bool, seen_version: int) -> None:
    """Show neutral words in place of the name on a slide, or the name again."""
    _take_turn(slide.album, seen_version)
    Slide.objects.filter(pk=slide.pk).update(names_nobody=names_nobody)


@transaction.atomic
def write(slide: Slide, title: str, words: str, seen_version: int) -> None:
    """Put the teacher's own words on a slide; empty words on a garment mean the generated ones."""
    _take_turn(slide.album, seen_version)
    heading = "" if slide.kind == Slide.Kind.GARMENT else title
    Slide.objects.filter(pk=slide.pk).update(
        title=heading,
        words=words,
        words_may_tell_numbers=bool(words) and _tells_numbers(slide),
        words_edition=slide.photo.contribution.words_edition if slide.photo else 1,
    )


def _tells_numbers(slide: Slide) -> bool:
    """Whether the garment's numbers may be told now, so that her words may hold them."""
    photo = slide.photo
    return photo is not None and allowed_in_film([photo])[photo.public_id].numbers_are_shown


@transaction.atomic
def change(album: Album, keep: Callable[[], Album], seen_version: int) -> None:
    """Change title, pace, look or music: `keep` writes them, if nobody was faster."""
    _take_turn(album, seen_version)
    album.version = seen_version + 1
    keep()
