"""Doors of the desk about the people in pictures: agreement seen, objections answered."""

from dataclasses import dataclass

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.contrib.auth.models import AbstractBaseUser, AnonymousUser
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from gallery.access import signed_in
from gallery.contributions.models import Contribution, Objection, Photo
from gallery.contributions.people.objecting import confirm_seen, resolve
from gallery.review.whose import own_garment, series_of

RULINGS = {"keep_hidden": True, "show_again": False}


@dataclass(frozen=True)
class Waiting:
    """One photo with objections that nobody has looked at yet."""

    photo: Photo
    objections: int


def waiting_objections(user: AbstractBaseUser | AnonymousUser) -> list[Waiting]:
    """Photos of that person's series that are hidden until she has looked, oldest first."""
    rows = Objection.objects.filter(
        resolved_at__isnull=True, photo__contribution__series__in=series_of(user)
    ).select_related("photo__contribution__series")
    photos: dict[int, list[Photo]] = {}
    for row in rows.prefetch_related("photo__renditions"):
        if row.photo is not None:
            photos.setdefault(row.photo.pk, []).append(row.photo)
    return [Waiting(same[0], len(same)) for same in photos.values()]


@login_required
@require_POST
def people_seen(request: HttpRequest, public_id: str) -> HttpResponse:
    """Keep that the teacher has seen the others' agreement."""
    garment = own_garment(request, public_id)
    photo = _photo(request, garment)
    if confirm_seen(photo, signed_in(request)):
        messages.success(request, _("Kept: you have seen that they agree."))
    else:
        messages.info(request, _("It was kept already, or there is nothing to confirm."))
    return redirect(_place(photo))


@login_required
@require_POST
def answer_objection(request: HttpRequest, public_id: str) -> HttpResponse:
    """Let the photo be shown again, or keep it hidden for good."""
    garment = own_garment(request, public_id)
    photo = _photo(request, garment)
    upheld = RULINGS.get(request.POST.get("ruling", ""))
    seen = request.POST.get("seen", "")
    if upheld is None or not seen.isdecimal():
        messages.warning(request, _("Please press one of the two buttons."))
        return redirect(_place(photo))
    if not resolve(photo, signed_in(request), upheld=upheld, seen=int(seen)):
        messages.info(request, _("It was answered already."))
    elif upheld:
        messages.success(request, _("It stays hidden for good."))
    else:
        messages.success(request, _("It may be shown again, where it is approved and allowed."))
    return redirect(_place(photo))


def _photo(request: HttpRequest, garment: Contribution) -> Photo:
    photo = garment.photos.filter(public_id=request.POST.get("photo", "")).first()
    if photo is None:
        raise Http404
    return photo


def _place(photo: Photo) -> str:
    """The garment on the desk, at that photo."""
    page = reverse("desk_garment", args=[photo.contribution.public_id])
    return f"{page}#{photo.public_id}"
