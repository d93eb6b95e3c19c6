"""A garment leaves for good, everywhere: the one deed, and the sender's own door to it."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from gallery.access import keep_private
from gallery.album.forget import forget_picture
from gallery.album.strike import strike
from gallery.contributions.erase import erase
from gallery.contributions.models import Contribution, Rendition
from gallery.contributions.own import own_garment
from gallery.contributions.permissions import withdraw_all


def erase_everywhere(garment: Contribution) -> tuple[int, int]:
    """Erase a garment with its photos, the film parts that show it and the films it is in; give
    how many photos and films there were.

    Every permission is taken back first, so that the ledger says so and nothing shows it while its
    files go; of the ledger the proof stays, naming nobody.
    """
    withdraw_all(garment)
    photos = [photo.public_id for photo in garment.photos.all()]
    pictures = Rendition.objects.filter(photo__contribution=garment)
    shown = list(pictures.values_list("sha256", flat=True))
    number = erase(garment)
    films = strike(photos)  # only now: no film can take the photos in any more
    for sha256 in shown:
        forget_picture(sha256)
    return number, films


@require_http_methods(["GET", "HEAD", "POST"])
def erase_mine(request: HttpRequest, public_id: str) -> HttpResponse:
    """The sender erases what she sent: one page that says what happens, one button."""
    garment = own_garment(request, public_id)
    if request.method != "POST":
        return keep_private(render(request, "contributions/erase.html", {"garment": garment}))
    series = garment.series
    erase_everywhere(garment)
    messages.success(request, _("It is erased: pictures, numbers, words, name and address."))
    answer = redirect("call", slug=series.slug)
    answer.status_code = 303
    return keep_private(answer)
