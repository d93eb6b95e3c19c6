"""Changes an album by hand: order, words, what is out; nobody overwrites another unseen."""

from django.db import transaction
from django.db.models import F

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
    """Take a slide out of the album; collecting brings an allowed photo back."""
    _take_turn(slide.album, seen_version)
    album = slide.album
    slide.delete()
    renumber(album)


@transaction.atomic
def write(slide: Slide, title: str, words: str, seen_version: int) -> None:
    """Put the teacher's own words on a slide; empty words on a garment mean the generated ones."""
    _take_turn(slide.album, seen_version)
    Slide.objects.filter(pk=slide.pk).update(title=title, words=words)
