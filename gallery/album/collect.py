"""Fills an album by rule: a title card, every approved and permitted photo, a thanks card."""

from django.db import transaction
from django.db.models import Case, F, QuerySet, Value, When
from django.utils.translation import gettext as _

from gallery.album.arrange import renumber
from gallery.album.models import Album, Slide
from gallery.consent import gate
from gallery.consent.purposes import FILM
from gallery.contributions.models import Contribution, Photo
from gallery.contributions.people.cleared import cleared_photos
from gallery.review import standing
from gallery.series.models import Series
from gallery.speaking import the_sites

_FINISHED_FIRST = Case(
    When(contribution__stage=Contribution.Stage.FINISHED, then=Value(0)), default=Value(1)
)
_WHOLE_FIRST = Case(
    When(stage=Photo.Stage.FINISHED, then=Value(0)),
    When(stage=Photo.Stage.DETAIL, then=Value(1)),
    default=Value(2),
)


def photos_for(series: Series) -> QuerySet[Photo]:
    """Photos that may be in the film.

    Finished garments first, in order of arrival; of each garment the finished view first.
    """
    return (
        standing.approved_photos()
        .filter(
            contribution__series=series,
            contribution__agreement__in=gate.agreements_allowing(FILM),
            pk__in=cleared_photos(FILM).values("pk"),
        )
        .order_by(
            _FINISHED_FIRST, "contribution__sent_at", "contribution", _WHOLE_FIRST, "position"
        )
    )


@transaction.atomic
def begin(series: Series, title: str) -> Album:
    """Begin an album and fill it by rule."""
    album = Album.objects.create(series=series, title=title)
    collect(album)
    return album


@transaction.atomic
def collect(album: Album) -> int:
    """Take in what is not in the album yet, before the thanks card; give how many slides came.

    The order and the words already there stay as they are, and what was taken out stays out.
    """
    album = Album.objects.select_for_update(of=("self",)).select_related("series").get(pk=album.pk)
    _cards(album)
    there = set(album.slides.filter(photo__isnull=False).values_list("photo_id", flat=True))
    coming = [photo for photo in photos_for(album.series) if photo.pk not in there]
    if coming:
        _take_in(album, coming)
        Album.objects.filter(pk=album.pk).update(version=F("version") + 1)
    return len(coming)


def _take_in(album: Album, coming: list[Photo]) -> None:
    thanks = album.slides.filter(kind=Slide.Kind.THANKS).order_by("position").last()
    place = thanks.position if thanks else album.slides.count() + 1
    after = album.slides.filter(position__gte=place)
    after.update(position=F("position") + len(coming))
    for position, photo in enumerate(coming, start=place):
        album.slides.create(position=position, kind=Slide.Kind.GARMENT, photo=photo)
    renumber(album)


def _cards(album: Album) -> None:
    """The two cards, when the album is filled for the first time."""
    if album.slides.exists():
        return
    with the_sites():  # what stands in the film
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
