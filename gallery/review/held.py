"""What looked like a machine's sending: kept apart until the teacher says who sent it."""

from dataclasses import dataclass
from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.contrib.auth.models import AbstractBaseUser, AnonymousUser
from django.db.models import QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_POST, require_safe

from gallery.access import keep_private
from gallery.contributions import intake
from gallery.contributions.arrived import held
from gallery.contributions.erase import erase
from gallery.contributions.models import Contribution
from gallery.contributions.permissions import withdraw_all
from gallery.contributions.shown import ShownPicture, small
from gallery.contributions.suspicion import HIDDEN_FIELD, RATE, TOO_FAST
from gallery.review.whose import series_of

WHY: dict[str, Any] = {
    HIDDEN_FIELD: gettext_lazy("A field was filled in that people do not see."),
    TOO_FAST: gettext_lazy("It was sent within three seconds, or without the page."),
    RATE: gettext_lazy("More garments came from one connection within an hour than people send."),
}


@dataclass(frozen=True)
class Held:
    """One garment that is held back, with the reason in words."""

    garment: Contribution
    why: str
    pictures: list[ShownPicture]


def held_for(user: AbstractBaseUser | AnonymousUser) -> QuerySet[Contribution]:
    """What is held back of any series of that person."""
    return Contribution.objects.filter(held(), series__in=series_of(user))


@login_required
@require_safe
def held_back(request: HttpRequest) -> HttpResponse:
    """The list, oldest first."""
    rows = held_for(request.user).prefetch_related("photos__renditions").select_related("series")
    waiting = [_shown(row) for row in rows]
    return keep_private(render(request, "review/held.html", {"waiting": waiting}))


def _shown(row: Contribution) -> Held:
    pictures = [small(photo) for photo in row.photos.all()]
    return Held(row, str(WHY.get(row.held_because, row.held_because)), pictures)


@login_required
@require_POST
def judge_held(request: HttpRequest, public_id: str) -> HttpResponse:
    """Take it in as a person's, or erase it."""
    garment = get_object_or_404(held_for(request.user), public_id=public_id)
    if request.POST.get("answer") == "erase":
        withdraw_all(garment)  # so that the ledger says so too
        erase(garment)
        messages.success(request, _("It is erased."))
    elif intake.release(garment):
        messages.success(request, _("It is taken in and waits on your desk like any other."))
    return redirect("held_back")
