"""What the sending page is shown with, whole or in pieces."""

import hashlib
from typing import Any
from urllib.parse import urlencode

from django.conf import settings
from django.http import HttpRequest
from django.urls import reverse
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from gallery.contributions import again, drafts, suspicion
from gallery.contributions.drafts import Draft
from gallery.contributions.part_picker import pieces_to_pick
from gallery.contributions.sending import Sending
from gallery.series.models import Series


def facts_of(request: HttpRequest, sending: Sending, draft: Draft) -> dict[str, Any]:
    """Everything the templates of the sending page ask for."""
    series = sending.series
    earlier = drafts.of_browser(request, series)
    return {
        "series": series,
        "sending": sending,
        "draft": draft,
        "offered": again.offered(again.last_sent(request, series)),
        "shown": suspicion.renewed(sending.said),
        "kept_until": drafts.kept_until(draft.row) if draft.row else None,
        "as_of": drafts.as_of(draft.row) if draft.row else "",
        "is_open": is_open(series),
        "closed_words": closed_words(series),
        "earlier": earlier.row if earlier and earlier.is_sent else None,
        "pieces": pieces_to_pick(sending.pattern, sending.changes.groups),
        "add_to": reverse("add_picture", args=[series.slug]),
        "room_left": settings.UPLOAD_MAX_PICTURES - len(sending.photos),
        "slide": slide_address(sending),
    }


def slide_address(sending: Sending) -> str:
    """Where the first picture can be seen as a slide of the film, as far as it is allowed now."""
    seen = sending.overview
    if seen is None or not sending.photos:
        return ""
    first = sending.photos[0].photo
    said = {"notes": seen.caption, "name": seen.credit}
    # The last part changes with the slide, so that the browser fetches the new one.
    marks = {name: "yes" for name, words in said.items() if words}
    looks = f"{first.public_id} {first.turn} {first.crop} {said}"
    marks["as"] = hashlib.sha256(looks.encode()).hexdigest()[:12]
    return f"{reverse('slide_to_come', args=[sending.series.slug])}?{urlencode(marks)}"


def reasons_not_to_send(sending: Sending, *, only_pictures: bool = False) -> None:
    """What is missing besides the fields: a picture, an open call, answers about people."""
    if not sending.photos and not sending.pictures.errors:
        sending.pictures.add_error(
            "pictures", _("Please add at least one picture of your garment.")
        )
    if only_pictures:
        return
    if not is_open(sending.series):
        sending.pictures.add_error(None, closed_words(sending.series))
    sending.ask_about_people()


def is_open(series: Series) -> bool:
    """Whether garments may be sent today."""
    return series.is_open(timezone.localdate())


def closed_words(series: Series) -> str:
    """Why nothing can be sent now, and whom to write to."""
    if timezone.localdate() < series.opens_on:
        words = _("Garments may be sent from %(day)s on.")
        return words % {"day": date_format(series.opens_on, "DATE_FORMAT")}
    return _(
        "The call closed on %(day)s, so nothing can be sent any more. If yours is still on the "
        "way, please write to %(contact)s."
    ) % {
        "day": date_format(series.closes_on, "DATE_FORMAT"),
        "contact": settings.CONTACT_EMAIL,
    }
