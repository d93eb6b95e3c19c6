"""Who is looking: the teacher, the sender with a private link, or anybody."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeVar

from django.conf import settings
from django.contrib.auth.models import AbstractBaseUser, AnonymousUser, User
from django.http import Http404, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.urls import translate_url
from django.utils.translation import get_language

Answer = TypeVar("Answer", bound=HttpResponseBase)

_MINE = "mine"
_MOST_OWN = 40
SENDERS_SESSION = 24 * 60 * 60  # seconds; a teacher's is shorter (settings)


@dataclass(frozen=True)
class PageLanguage:
    """The page at hand in one language: its code, its own name, the address there."""

    code: str
    name: str
    address: str
    is_now: bool


def languages(request: HttpRequest) -> tuple[PageLanguage, ...]:
    """The page at hand in every language the site speaks."""
    now = get_language()
    return tuple(
        PageLanguage(code, name, translate_url(request.get_full_path(), code), code == now)
        for code, name in settings.LANGUAGES
    )


def site(request: HttpRequest) -> dict[str, object]:
    """What every page knows: the site's name, whom to ask, when backups have aged out."""
    return {
        "site_name": settings.SITE_NAME,
        "contact_email": settings.CONTACT_EMAIL,
        "base_url": settings.BASE_URL,
        "backup_days": settings.BACKUP_DAYS,
        "languages": languages(request),
    }


def is_keeper(user: AbstractBaseUser | AnonymousUser) -> bool:
    """Whether that user keeps the whole site (an account made by createsuperuser)."""
    return user.is_active and bool(getattr(user, "is_superuser", False))


def is_teacher(user: AbstractBaseUser | AnonymousUser, teacher_id: int) -> bool:
    """Whether that user is the teacher a thing belongs to, or keeps the site."""
    return is_keeper(user) or (user.is_authenticated and user.pk == teacher_id)


def open_as_own(request: HttpRequest, public_id: str) -> None:
    """Remember in this browser's session that the sender of that garment is looking."""
    if _MINE not in request.session:
        request.session.cycle_key()  # nobody else may have planted this session's key
    others = [known for known in request.session.get(_MINE, []) if known != public_id]
    request.session[_MINE] = [*others, public_id][-_MOST_OWN:]
    if not request.user.is_authenticated:
        # Nobody who writes slowly is cut off: WCAG 2.2, 2.2.1 asks for twenty hours.
        request.session.set_expiry(SENDERS_SESSION)


def own_ids(request: HttpRequest) -> list[str]:
    """The garments whose sender this browser is, the latest last."""
    return list(request.session.get(_MINE, []))


def is_own(request: HttpRequest, public_id: str) -> bool:
    """Whether this browser came in by the private link of that garment."""
    return public_id in request.session.get(_MINE, [])


def signed_in(request: HttpRequest) -> User:
    """The person at the desk; every door of the desk asks for the password first."""
    if not isinstance(request.user, User):
        raise Http404
    return request.user


def keep_private(response: Answer) -> Answer:
    """Mark an answer as one that no cache may keep."""
    response["Cache-Control"] = "private, no-store"
    return response


class RefuseHugeRequests:
    """Middleware: a request larger than a sending may be is answered before it is read."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        declared = request.META.get("CONTENT_LENGTH") or "0"
        if declared.isdigit() and int(declared) > settings.UPLOAD_MAX_REQUEST_BYTES:
            limit = settings.UPLOAD_MAX_REQUEST_BYTES // (1024 * 1024)
            return render(request, "413.html", {"limit_mib": limit}, status=413)
        return self.get_response(request)
