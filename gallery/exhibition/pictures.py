"""The one door through which a photo leaves the house: it asks who is looking."""

import zlib

from csp.decorators import csp_replace
from django.http import FileResponse, Http404, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.utils.cache import get_conditional_response
from django.views.decorators.http import require_safe

from gallery.access import is_own, keep_private
from gallery.contributions.models import Photo, Rendition
from gallery.contributions.people.doors import may_see
from gallery.contributions.pictures import FILM, SIZES, originals, safe_pictures
from gallery.contributions.shown import alt_of
from gallery.exhibition.photofields import PhotoFields, packet_of, with_fields
from gallery.exhibition.showing import may_show_name, may_show_photo
from gallery.review.whose import series_of
from gallery.vault import Vault, VaultError

ENDINGS = {"jpeg": "jpg", "png": "png", "webp": "webp", "heif": "heic", "avif": "avif"}


@require_safe
def picture(request: HttpRequest, public_id: str, size: str) -> HttpResponseBase:
    """One safe size of a photo: to everybody where it may be shown, else to teacher and sender.

    A child's guardian sees it too, to be able to answer; not its original, not the film's size.
    """
    photo = _photo(public_id)
    rendition = photo.renditions.filter(size=size).first() if size in SIZES else None
    if rendition is None:
        raise Http404
    is_public = size != FILM and may_show_photo(photo)
    if not (is_public or _is_hers(request, photo) or (size != FILM and may_see(request, photo))):
        raise Http404
    if not is_public:
        return keep_private(_own(_file(safe_pictures(), rendition.sha256, "image/jpeg")))
    return _public(request, photo, rendition)


def _public(request: HttpRequest, photo: Photo, rendition: Rendition) -> HttpResponseBase:
    """The picture for everybody, with the credit inside where the name may be shown.

    The mark changes with the credit, so that a cache never keeps a name that was taken back.
    """
    packet = _packet(photo)
    suffix = f"-{zlib.crc32(packet):08x}" if packet else ""
    mark = f'"{rendition.sha256}{suffix}"'
    answer: HttpResponseBase | None = get_conditional_response(request, etag=mark)
    if answer is None and packet:
        jpeg = _bytes(safe_pictures(), rendition.sha256)
        answer = HttpResponse(with_fields(jpeg, packet), content_type="image/jpeg")
    answer = _own(answer or _file(safe_pictures(), rendition.sha256, "image/jpeg"))
    answer["ETag"] = mark
    # A withdrawn picture is gone from caches within a minute.
    answer["Cache-Control"] = "public, max-age=60, must-revalidate"
    return answer


def _packet(photo: Photo) -> bytes:
    garment = photo.contribution
    if not garment.credit_name or not may_show_name(garment):
        return b""
    shows_people = photo.people != Photo.People.NOBODY
    return packet_of(PhotoFields(garment.credit_name, alt_of(photo), shows_people))


# The decorator's own hint knows only views without arguments.
@csp_replace({"default-src": ["'none'"], "sandbox": [""]})  # type: ignore[arg-type]
@require_safe
def original(request: HttpRequest, public_id: str) -> HttpResponseBase:
    """A photo as it was sent, to be kept: for the series' teacher and the sender alone."""
    photo = _photo(public_id)
    if not _is_hers(request, photo):
        raise Http404
    answer = _file(originals(), photo.original_sha256, "application/octet-stream")
    name = f"photo-{photo.public_id}.{ENDINGS.get(photo.kind, 'bin')}"
    answer["Content-Disposition"] = f'attachment; filename="{name}"'
    answer["Cross-Origin-Resource-Policy"] = "same-origin"
    keep_private(answer)
    return answer


def _photo(public_id: str) -> Photo:
    photo = Photo.objects.select_related("contribution__series").filter(public_id=public_id).first()
    if photo is None:
        raise Http404
    return photo


def _is_hers(request: HttpRequest, photo: Photo) -> bool:
    """Whether the sender herself is looking, or whoever has the sent garment on the desk."""
    garment = photo.contribution
    if is_own(request, garment.public_id):
        return True
    return garment.sent_at is not None and series_of(request.user).contains(garment.series)


def _file(vault: Vault, sha256: str, content_type: str) -> FileResponse:
    try:
        return FileResponse(vault.open(sha256), content_type=content_type)
    except VaultError as error:
        raise Http404 from error


def _bytes(vault: Vault, sha256: str) -> bytes:
    """A picture's bytes; they are few, since it is a size of our own making."""
    try:
        with vault.open(sha256) as file:
            return file.read()
    except VaultError as error:
        raise Http404 from error


def _own(answer: HttpResponseBase) -> HttpResponseBase:
    answer["Cross-Origin-Resource-Policy"] = "same-origin"
    return answer
