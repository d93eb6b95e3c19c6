"""Whose desk it is: the teacher of a series (or the site's keeper) sees it, nobody else."""

from django.contrib.auth.models import AbstractBaseUser, AnonymousUser
from django.db.models import QuerySet
from django.http import Http404, HttpRequest
from django.shortcuts import get_object_or_404

from gallery.access import is_keeper, is_teacher
from gallery.contributions.arrived import arrived
from gallery.contributions.models import Contribution
from gallery.series.models import Series


def series_of(user: AbstractBaseUser | AnonymousUser) -> QuerySet[Series]:
    """The series on that person's desk."""
    return Series.objects.all() if is_keeper(user) else Series.objects.filter(teacher=user.pk)


def own_series(request: HttpRequest, slug: str) -> Series:
    """The series if it is hers; else the answer is as for one that is not there."""
    series = get_object_or_404(Series, slug=slug)
    _refuse_others(request, series)
    return series


def own_garment(request: HttpRequest, public_id: str) -> Contribution:
    """The sent garment if it is hers to judge; else the answer is as for one that is not there."""
    sent = Contribution.objects.filter(arrived())
    rows = sent.select_related("series", "agreement", "sheet__version__pattern")
    garment = get_object_or_404(rows, public_id=public_id)
    _refuse_others(request, garment.series)
    return garment


def _refuse_others(request: HttpRequest, series: Series) -> None:
    if not is_teacher(request.user, series.teacher_id):
        raise Http404
