"""Fills an album by rule: a title card, every approved and permitted photo, a thanks card."""

from django.db import transaction
from django.db.models import Case, QuerySet, Value, When
from django.utils.translation import gettext as _

from gallery.album.arrange import renumber
from gallery.album.models import Album, Slide
from gallery.consent import gate
from gallery.consent.purposes import FILM
from gallery.contributions.models import Photo
from gallery.review import standing

_STAGES = [Photo.Stage.IN_PROGRESS, Photo.Stage.FINISHED, Photo.Stage.DETAIL]


def photos_for(album: Album) -> QuerySet[Photo]:
    """Photos that may be in the film: work in progress first, then in order of arrival."""
    order = Case(
        *[When(stage=stage, then=Value(place)) for place, stage in enumerate(_STAGES)],
        default=Value(len(_STAGES)),
    )
    return (
        standing.approved_photos()
        .filter(
            contribution__series=album.series_id,
            contribution__agreement__in=gate.agreements_allowing(FILM),
        )
        .order_by("contribution__sent_at", "contribution", order, "position")
    )


@transaction.atomic
def collect(album: Album) -> int:
    """Take in what is not in the album yet, before the thanks card; give how many slides came.

    The order and the words already there stay as they are.
    """
    _cards(album)
    there = set(album.slides.filter(photo__isnull=False).values_list("photo_id", flat=True))
    thanks = album.slides.filter(kind=Slide.Kind.THANKS).order_by("position").last()
    coming = [photo for photo in photos_for(album) if photo.pk not in there]
    place = thanks.position if thanks else album.slides.count() + 1
    for photo in coming:
        album.slides.create(position=place, kind=Slide.Kind.GARMENT, photo=photo)
    if thanks:
        thanks.position = place + 1
        thanks.save(update_fields=["position"])
    renumber(album)
    return len(coming)


def _cards(album: Album) -> None:
    """The two cards, when the album is filled for the first time."""
    if album.slides.exists():
        return
    series = album.series
    album.slides.create(
        position=1,
        kind=Slide.Kind.TITLE,
        title=album.title,
        words=_("%(pattern)s\nA series by %(teacher)s")
        % {"pattern": series.pattern_version.pattern.name, "teacher": series.teacher_name},
    )
    album.slides.create(
        position=2,
        kind=Slide.Kind.THANKS,
        title=_("Thank you"),
        words=_("to everyone who knitted along\nand let us see what came of it."),
    )
