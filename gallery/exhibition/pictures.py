"""The one door through which a photo leaves the house: it asks who is looking."""

from csp.decorators import csp_replace
from django.http import FileResponse, Http404, HttpRequest
from django.http.response import HttpResponseBase
from django.utils.cache import get_conditional_response
from django.views.decorators.http import require_safe

from gallery.access import is_own, keep_private
from gallery.contributions.models import Photo, Rendition
from gallery.contributions.people.doors import may_see
from gallery.contributions.pictures import FILM, SIZES, originals, safe_pictures
from gallery.exhibition.showing import may_show_photo
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
    known = get_conditional_response(request, etag=_mark(rendition)) if is_public else None
    answer = known or _file(safe_pictures(), rendition.sha256, "image/jpeg")
    return _with_headers(answer, rendition, is_public)


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


def _mark(rendition: Rendition) -> str:
    return f'"{rendition.sha256}"'


def _with_headers(
    answer: HttpResponseBase, rendition: Rendition, is_public: bool
) -> HttpResponseBase:
    answer["Cross-Origin-Resource-Policy"] = "same-origin"
    if not is_public:
        return keep_private(answer)
    answer["ETag"] = _mark(rendition)
    # A withdrawn picture is gone from caches within a minute.
    answer["Cache-Control"] = "public, max-age=60, must-revalidate"
    return answer
