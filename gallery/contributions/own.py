"""Doors of the sender: her private link, her garment, her permissions, taking all of it back."""

from dataclasses import dataclass

from django.contrib import messages
from django.http import FileResponse, Http404, HttpRequest, HttpResponse, JsonResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from alterations.records import store
from gallery.access import is_own, keep_private, open_as_own
from gallery.contributions import permissions
from gallery.contributions import receipt as receipts
from gallery.contributions.keeping import kept_photos
from gallery.contributions.links import garment_behind
from gallery.contributions.lostlink import LostLinkForm, ask_for, may_ask
from gallery.contributions.models import Contribution, Photo
from gallery.contributions.shown import ShownPicture, shown
from gallery.contributions.takeaway import pack_of
from gallery.vault import VaultError


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


@require_safe
def receipt(request: HttpRequest, public_id: str) -> HttpResponse:
    """Every answer in the exact words it was given to, to be kept or printed."""
    garment = own_garment(request, public_id)
    facts = {
        "garment": garment,
        "entries": receipts.entries_of(garment),
        "controller": receipts.controller_of(garment),
    }
    return keep_private(render(request, "contributions/receipt.html", facts))


@require_safe
def receipt_file(request: HttpRequest, public_id: str) -> HttpResponse:
    """The receipt for machines: JSON-LD."""
    garment = own_garment(request, public_id)
    answer = JsonResponse(
        receipts.receipt_of(garment), json_dumps_params={"ensure_ascii": False, "indent": 1}
    )
    answer["Content-Type"] = "application/ld+json"
    answer["Content-Disposition"] = 'attachment; filename="receipt.jsonld"'
    return keep_private(answer)


@require_safe
def take_away(request: HttpRequest, public_id: str) -> HttpResponseBase:
    """Everything she gave, in one pack."""
    garment = own_garment(request, public_id)
    try:
        pack = pack_of(garment)
    except VaultError:
        messages.error(request, _("One of your pictures cannot be read just now. Try again."))
        return redirect("mine", public_id=garment.public_id)
    answer = FileResponse(pack, as_attachment=True, filename="my-garment.zip")
    keep_private(answer)
    return answer


@require_http_methods(["GET", "HEAD", "POST"])
def lost_link(request: HttpRequest) -> HttpResponse:
    """The private link again: the same answer whether an address is known or not."""
    form = LostLinkForm(request.POST or None)
    is_asked = request.method == "POST" and form.is_valid()
    if is_asked:
        if not may_ask(request.META["REMOTE_ADDR"]):
            return render(request, "429.html", status=429)
        ask_for(form.cleaned_data["email"])
    facts = {"form": form, "is_asked": is_asked}
    return keep_private(render(request, "contributions/lost_link.html", facts))


def own_garment(request: HttpRequest, public_id: str) -> Contribution:
    """The garment if this browser came in by its link; else as if there were none."""
    if not is_own(request, public_id):
        raise Http404
    sent = Contribution.objects.filter(sent_at__isnull=False)
    return get_object_or_404(
        sent.select_related("series", "sheet", "agreement"), public_id=public_id
    )
