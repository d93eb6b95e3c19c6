"""The sender changes what she sent: the one page for it, and a picture's leaving everywhere."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from django.conf import settings
from django.contrib import messages
from django.db.models import F
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from gallery.access import keep_private
from gallery.album.arrange import renumber
from gallery.album.forget import forget_picture
from gallery.album.models import Album
from gallery.album.strike import strike
from gallery.contributions import arrivals
from gallery.contributions.arrivals import OK, Arrived
from gallery.contributions.cutting import Cutting, cutting_page, whole_answer
from gallery.contributions.drafts import Draft
from gallery.contributions.editing import keep
from gallery.contributions.editing.history import since
from gallery.contributions.editing.page import EVERYTHING, Editing
from gallery.contributions.erase import forget_files
from gallery.contributions.framing import framed
from gallery.contributions.models import Contribution, Photo
from gallery.contributions.one_picture import status_of, what_came
from gallery.contributions.own import own_garment
from gallery.contributions.part_picker import pieces_to_pick
from gallery.contributions.sending import NOTHING, NUMBERS
from gallery.contributions.views import files_of, with_new_descriptions

CHECKED_BY = {"save": EVERYTHING, "work_out": NUMBERS}
MOVES = {"earlier": -1, "later": 1}
CONFLICT = 409


@dataclass(frozen=True)
class Answering:
    """What the page is shown with: the edition it is about, and how it is answered."""

    edition: int
    status: int = OK
    is_conflict: bool = False


@require_http_methods(["GET", "HEAD", "POST"])
def edit_mine(request: HttpRequest, public_id: str) -> HttpResponse:
    """Everything she sent in the forms she sent it with; what was typed stays until it is kept."""
    garment = own_garment(request, public_id)
    if request.method == "POST":
        return _posted(request, garment)
    return _page(request, Editing(garment), Answering(garment.edition))


def take_out_everywhere(garment: Contribution, public_id: str) -> bool:
    """Take one picture out for good, of the album, of cached parts and of films too; False where
    it is not there (any more)."""
    photo = garment.photos.filter(public_id=public_id).first()
    if photo is None:
        return False
    sizes = set(photo.renditions.values_list("sha256", flat=True))
    albums = list(Album.objects.filter(slides__photo=photo))
    if not keep.take_out(garment, public_id):
        return False
    for album in albums:
        renumber(album)
    _tell_albums(garment, albums)
    forget_files({photo.original_sha256}, sizes)
    strike([public_id])  # only now: no film can take the picture in any more
    for sha256 in sizes:
        forget_picture(sha256)
    return True


def frame_everywhere(photo: Photo, turn: int, crop: Sequence[int]) -> None:
    """Turn or cut a picture of a sent garment; the old one is gone from albums and films too."""
    made = framed(photo, turn, crop)
    garment, sizes = photo.contribution, set(photo.renditions.values_list("sha256", flat=True))
    keep.frame(garment, photo, made)
    _tell_albums(garment)
    forget_files(set(), sizes - {made.small.sha256})
    strike([photo.public_id])
    for sha256 in sizes:
        forget_picture(sha256)


@require_http_methods(["GET", "HEAD", "POST"])
def cut_mine(request: HttpRequest, public_id: str, photo_id: str) -> HttpResponse:
    """The page on which a picture of a sent garment is turned or cut."""
    photo = get_object_or_404(own_garment(request, public_id).photos, public_id=photo_id)
    cutting = Cutting(
        photo,
        whole=reverse("whole_mine", args=[public_id, photo_id]),
        back=f"{reverse('mine', args=[public_id])}#pictures",
        deed=frame_everywhere,
    )
    return cutting_page(request, cutting)


@require_safe
def whole_mine(request: HttpRequest, public_id: str, photo_id: str) -> HttpResponse:
    """A picture of a sent garment without its cut, for her own eyes."""
    garment = own_garment(request, public_id)
    return whole_answer(get_object_or_404(garment.photos, public_id=photo_id))


def _tell_albums(garment: Contribution, albums: Iterable[Album] = ()) -> None:
    """A page of an album opened before this is out of date: what is typed there is not kept unseen,
    because it may tell what was corrected just now."""
    keys = {album.pk for album in albums}
    keys |= set(
        Album.objects.filter(slides__photo__contribution=garment).values_list("pk", flat=True)
    )
    Album.objects.filter(pk__in=keys).update(version=F("version") + 1)


@require_POST
def add_picture_mine(request: HttpRequest, public_id: str) -> HttpResponse:
    """Take in one more picture of a sent garment by itself; the other fields stay as typed."""
    garment = own_garment(request, public_id)
    files = files_of(request)[:1]
    address = request.META["REMOTE_ADDR"]
    arrived = arrivals.take_in(Draft("", garment), garment.series, files, address, keep.add)
    garment.refresh_from_db()
    editing = Editing(garment)
    facts = _facts(editing, Answering(garment.edition))
    said = {**what_came(request, arrived, editing, facts), "edition": garment.edition}
    return keep_private(JsonResponse(said, status=status_of(arrived)))


def _posted(request: HttpRequest, garment: Contribution) -> HttpResponse:
    before, seen = garment.edition, _seen(request)
    _change_at_once(request, garment)
    files, address = files_of(request), request.META["REMOTE_ADDR"]
    arrived = arrivals.take_in(Draft("", garment), garment.series, files, address, keep.add)
    garment.refresh_from_db()
    if seen == before:  # her own pictures just now are no conflict
        seen = garment.edition
    button = next((name for name in CHECKED_BY if name in request.POST), "")
    editing = _editing(request, garment, arrived, button)
    if button == "save" and editing.is_valid():
        return _save(request, editing, seen)
    return _page(request, editing, Answering(seen, arrived.status))


def _seen(request: HttpRequest) -> int:
    """The edition the page showed; a damaged number fits none."""
    text = request.POST.get("edition", "")
    return int(text) if text.isascii() and text.isdecimal() and len(text) < 10 else 0


def _change_at_once(request: HttpRequest, garment: Contribution) -> None:
    """Taking a picture out and moving one count from this moment, whatever else is typed."""
    wanted = request.POST.get("take_out", "")
    if wanted and take_out_everywhere(garment, wanted):
        messages.success(request, _("The picture is taken out and shown nowhere any more."))
    for name, places in MOVES.items():
        if name in request.POST and keep.move(garment, request.POST[name], places):
            messages.success(request, _("The pictures have their new order."))


def _editing(request: HttpRequest, garment: Contribution, arrived: Arrived, button: str) -> Editing:
    """The page of what was posted, with every mistake beside its field."""
    posted = with_new_descriptions(request.POST, arrived)
    editing = Editing(garment, posted, CHECKED_BY.get(button, NOTHING))
    for sentence in arrived.refused:
        editing.pictures.add_error("pictures", sentence)
    for words in arrived.told:
        messages.info(request, words)
    if button == "save":
        editing.ask_about_people()
    if button:
        editing.work_out()
    return editing


def _save(request: HttpRequest, editing: Editing, seen: int) -> HttpResponse:
    try:
        changed = keep.save(editing.row, editing.edited(), seen)
    except keep.ChangedMeanwhileError:
        now = Contribution.objects.get(pk=editing.row.pk).edition
        return _page(request, editing, Answering(now, CONFLICT, is_conflict=True), seen)
    if changed:
        _tell_albums(editing.row)
        messages.success(request, _("Your changes are kept."))
    else:
        messages.info(request, _("Nothing was different, so everything stays as it was."))
    answer = redirect("mine", public_id=editing.row.public_id)
    answer.status_code = 303
    return keep_private(answer)


def _page(
    request: HttpRequest, editing: Editing, answering: Answering, seen: int = 0
) -> HttpResponse:
    facts = {
        **_facts(editing, answering),
        "meanwhile": since(editing.row, seen) if answering.is_conflict else None,
    }
    answer = render(request, "contributions/edit.html", facts, status=answering.status)
    return keep_private(answer)


def _facts(editing: Editing, answering: Answering) -> dict[str, Any]:
    garment = editing.row
    return {
        "garment": garment,
        "series": editing.series,
        "sending": editing,
        "edits": True,
        "edition": answering.edition,
        "is_conflict": answering.is_conflict,
        "pieces": pieces_to_pick(editing.pattern, editing.changes.groups),
        "add_to": reverse("add_picture_mine", args=[garment.public_id]),
        "room_left": settings.UPLOAD_MAX_PICTURES - len(editing.photos),
    }
