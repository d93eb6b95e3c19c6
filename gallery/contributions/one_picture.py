"""Doors of one picture: it arrives by itself, is turned or taken out, and the page stays."""

from typing import Any

from django.conf import settings
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import get_object_or_404
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from gallery.access import keep_private
from gallery.contributions import arrivals, drafts, keeping
from gallery.contributions.arrivals import OK, Arrived, Arriving
from gallery.contributions.cutting import turn_on
from gallery.contributions.drafts import Draft
from gallery.contributions.framing import CannotFrameError
from gallery.contributions.models import Photo
from gallery.contributions.page import facts_of
from gallery.contributions.sending import Sending
from gallery.contributions.typed import keep_what_was_said
from gallery.series.models import Series

REFUSED, SENT_ALREADY, GONE = 422, 409, 404


@require_POST
def add_picture(request: HttpRequest, slug: str) -> HttpResponse:
    """Take in one picture; sent again after a dropped connection it is still there once."""
    series = get_object_or_404(Series, slug=slug)
    draft = drafts.of_form(request, series)
    if draft.is_sent:
        return _sent_already(series)
    files = [Arriving(file) for file in request.FILES.getlist("pictures")[:1]]
    arrived = arrivals.take_in(draft, series, files, request.META["REMOTE_ADDR"])
    sending = _page_of(series, arrived.draft)
    facts = facts_of(request, sending, arrived.draft)
    answer = JsonResponse(what_came(request, arrived, sending, facts), status=status_of(arrived))
    return keep_private(drafts.hand_over(request, answer, arrived.draft))


@require_POST
def picture_deed(request: HttpRequest, slug: str, public_id: str) -> HttpResponse:
    """Turn a picture or take it out; what is typed about the others is kept on the way."""
    series = get_object_or_404(Series, slug=slug)
    draft = drafts.of_form(request, series)
    if draft.is_sent:
        return _sent_already(series)
    photo = draft.row.photos.filter(public_id=public_id).first() if draft.row else None
    if photo is None:
        return keep_private(JsonResponse({"gone": True, **_room(draft)}, status=GONE))
    sending = Sending(series, {}, request.POST)
    sending.show_pictures(draft)
    keep_what_was_said(sending, draft)
    return keep_private(_done(request, series, draft, photo))


def _done(request: HttpRequest, series: Series, draft: Draft, photo: Photo) -> JsonResponse:
    if request.POST.get("deed") == "take_out" and draft.row is not None:
        keeping.take_out(draft.row, photo.public_id)
        return JsonResponse({"gone": True, **_room(draft)})
    try:
        turn_on(photo)
    except CannotFrameError as trouble:
        return JsonResponse({"refused": [str(trouble)]}, status=REFUSED)
    sending = _page_of(series, draft)
    html = _shown(request, sending, facts_of(request, sending, draft), photo)
    return JsonResponse({"html": html, **_room(draft)})


def what_came(
    request: HttpRequest, arrived: Arrived, sending: Sending, facts: dict[str, Any]
) -> dict[str, Any]:
    """What became of one picture, for the script: its piece of the page, or the reason."""
    said: dict[str, Any] = {"told": arrived.told, "refused": arrived.refused}
    for photo in [*(kept for kept, _file in arrived.kept), *arrived.known]:
        said["id"] = photo.public_id
        said["html"] = _shown(request, sending, facts, photo)
    if not said["refused"] and "html" not in said:
        said["refused"] = [_("No picture came with this.")]
    return said | _room(arrived.draft)


def status_of(arrived: Arrived) -> int:
    """200 where the picture is there now, also where it was there before."""
    if arrived.kept or arrived.known:
        return OK
    return arrived.status if arrived.status != OK else REFUSED


def _page_of(series: Series, draft: Draft) -> Sending:
    sending = Sending(series, draft.row.typed if draft.row else {})
    sending.show_pictures(draft)
    return sending


def _shown(request: HttpRequest, sending: Sending, facts: dict[str, Any], photo: Photo) -> str:
    """The picture's own piece of the page."""
    at, one = next(
        (at, one) for at, one in enumerate(sending.photos, 1) if one.photo.pk == photo.pk
    )
    its_own = {**facts, "one": one, "number": at}
    return render_to_string("contributions/kept_picture.html", its_own, request)


def _room(draft: Draft) -> dict[str, int]:
    kept = draft.row.photos.count() if draft.row else 0
    return {"room_left": max(0, settings.UPLOAD_MAX_PICTURES - kept)}


def _sent_already(series: Series) -> HttpResponse:
    words = _("This garment was sent already, so nothing more can be added to it.")
    sent = {"sent": reverse("sent", args=[series.slug]), "refused": [words]}
    return keep_private(JsonResponse(sent, status=SENT_ALREADY))
