"""Doors of the sender: her private link, her garment, her permissions, taking all of it back."""

from dataclasses import dataclass

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from alterations.records import store
from gallery.access import is_own, keep_private, open_as_own
from gallery.contributions import permissions
from gallery.contributions.keeping import kept_photos
from gallery.contributions.links import garment_behind
from gallery.contributions.models import Contribution, Photo
from gallery.contributions.shown import ShownPicture, shown


@dataclass(frozen=True)
class SentPicture:
    """One photo as the private page lists it."""

    photo: Photo
    shown: ShownPicture


@require_safe
def private_link(request: HttpRequest, token: str) -> HttpResponse:
    """Open the garment behind a private link; following it changes nothing that is kept."""
    garment = garment_behind(token)
    if garment is None:
        raise Http404
    open_as_own(request, garment.public_id)
    answer = redirect("mine", public_id=garment.public_id)
    answer.status_code = 303
    answer["Referrer-Policy"] = "no-referrer"  # this address holds the token
    return keep_private(answer)


@require_safe
def mine(request: HttpRequest, public_id: str) -> HttpResponse:
    """What she sent, how it stands, and what she allows."""
    garment = own_garment(request, public_id)
    allowed = permissions.standing(garment)
    facts = {
        "garment": garment,
        "pictures": [SentPicture(photo, shown(photo)) for photo in kept_photos(garment)],
        "numbers": store.summary_of(garment.sheet) if garment.sheet else None,
        "permissions": allowed,
        "allows_something": any(one.is_given for one in allowed),
    }
    return keep_private(render(request, "contributions/mine.html", facts))


@require_POST
def change_permissions(request: HttpRequest, public_id: str) -> HttpResponse:
    """Give or take back one permission: one click, no reason asked."""
    garment = own_garment(request, public_id)
    wish = permissions.Wish(
        purpose=request.POST.get("purpose", ""),
        is_given=request.POST.get("answer") == "yes",
        text=request.POST.get("text", ""),
    )
    try:
        permissions.change(garment, wish)
    except permissions.OtherWordsError as refused:
        messages.warning(request, str(refused))
    else:
        messages.success(request, _("Kept. The change counts from this moment on."))
    answer = redirect("mine", public_id=garment.public_id)
    answer.status_code = 303
    return keep_private(answer)


@require_http_methods(["GET", "HEAD", "POST"])
def withdraw(request: HttpRequest, public_id: str) -> HttpResponse:
    """Take every permission back: one page, one button."""
    garment = own_garment(request, public_id)
    if request.method != "POST":
        return keep_private(render(request, "contributions/withdraw.html", {"garment": garment}))
    permissions.withdraw_all(garment)
    messages.success(request, _("Everything is taken back. Nothing of it is shown any more."))
    answer = redirect("mine", public_id=garment.public_id)
    answer.status_code = 303
    return keep_private(answer)


def own_garment(request: HttpRequest, public_id: str) -> Contribution:
    """The garment if this browser came in by its link; else as if there were none."""
    if not is_own(request, public_id):
        raise Http404
    sent = Contribution.objects.filter(sent_at__isnull=False)
    return get_object_or_404(
        sent.select_related("series", "sheet", "agreement"), public_id=public_id
    )
