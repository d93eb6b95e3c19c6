"""Drafts: a garment not sent yet, found again by the token its browser holds."""

import datetime
import hashlib
import json
from dataclasses import dataclass

from django.db import transaction
from django.db.models import QuerySet
from django.http import HttpRequest, HttpResponse
from django.utils import timezone

from gallery.access import open_as_own
from gallery.contributions.erase import forget_files
from gallery.contributions.models import Contribution, PrivateLink
from gallery.contributions.tokens import is_token, kept_of, new_token
from gallery.series.models import Series

COOKIE = "draft-"  # and the series' slug: one draft for each series in each browser
LIFE = datetime.timedelta(days=60)  # since somebody touched it last
COOKIE_AGE = LIFE.days * 24 * 60 * 60  # seconds
SENT_COOKIE_AGE = 60 * 60  # seconds: so long the thanks can be seen again with the private link


@dataclass(frozen=True)
class Draft:
    """A token and, once a picture was kept, the row that belongs to it."""

    token: str
    row: Contribution | None

    @property
    def is_sent(self) -> bool:
        """Whether the garment of this token was sent already."""
        return self.row is not None and self.row.sent_at is not None

    def was_sent_meanwhile(self) -> bool:
        """Whether it is sent by now, whatever this request knew of it."""
        sent = Contribution.objects.filter(sent_at__isnull=False)
        return self.row is not None and sent.filter(pk=self.row.pk).exists()


def of_form(request: HttpRequest, series: Series) -> Draft:
    """The draft a posted form belongs to; a form without a good token starts a new one."""
    token = request.POST.get("draft", "")
    return _draft(token, series) if is_token(token) else _of_cookie_or_new(request, series)


def of_browser(request: HttpRequest, series: Series) -> Draft | None:
    """The draft this browser holds the cookie of, sent or not."""
    token = request.COOKIES.get(COOKIE + series.slug, "")
    draft = _draft(token, series) if is_token(token) else None
    return draft if draft and draft.row else None


def open_or_new(request: HttpRequest, series: Series) -> Draft:
    """The draft to go on with: the browser's own where it is still open, else a new one."""
    return _of_cookie_or_new(request, series)


def begin(draft: Draft, series: Series) -> Contribution:
    """The draft's row; made when the first picture is to be kept."""
    if draft.row is not None:
        return draft.row
    row, _ = Contribution.objects.get_or_create(
        draft_sha256=kept_of(draft.token), defaults={"series": series}
    )
    return row


def hand_over(request: HttpRequest, response: HttpResponse, draft: Draft) -> HttpResponse:
    """Give the browser the cookie of its draft, and the right to see its own pictures."""
    if draft.row is None:
        return response
    open_as_own(request, draft.row.public_id)
    response.set_cookie(
        COOKIE + draft.row.series.slug,
        draft.token,
        max_age=SENT_COOKIE_AGE if draft.was_sent_meanwhile() else COOKIE_AGE,
        path="/",  # the page has an address in each language
        secure=request.is_secure(),
        httponly=True,
        samesite="Lax",
    )
    return response


def keep_typed(draft: Draft, typed: dict[str, str], seen: str = "") -> None:
    """Remember what was typed so far in a draft that is not sent.

    `seen` says which state of the draft the page knew (as_of). Where the draft was changed
    elsewhere since, what is typed here is added, and nothing typed there is emptied.
    """
    if draft.row is None:
        return
    unsent = Contribution.objects.filter(pk=draft.row.pk, sent_at__isnull=True)
    with transaction.atomic():
        row = unsent.select_for_update().first()
        if row is None:
            return
        knows_all = seen == as_of(row) or not row.typed
        draft.row.typed = typed if knows_all else {**row.typed, **typed}
        draft.row.touched_at = timezone.now()
        unsent.update(typed=draft.row.typed, touched_at=draft.row.touched_at)


def as_of(row: Contribution) -> str:
    """The state of a draft's words, as a page remembers it."""
    words = json.dumps(row.typed, sort_keys=True, ensure_ascii=False)
    return hashlib.sha256(words.encode()).hexdigest()[:16]


def kept_until(row: Contribution) -> datetime.date:
    """The day until which a draft nobody touches is kept."""
    return timezone.localdate(row.touched_at + LIFE)


def throw_away(row: Contribution) -> None:
    """Forget a draft with its pictures; of a sent garment nothing is touched."""
    photos = list(row.photos.prefetch_related("renditions"))
    originals = {photo.original_sha256 for photo in photos}
    sizes = {made.sha256 for photo in photos for made in photo.renditions.all()}
    gone, _ = Contribution.objects.filter(pk=row.pk, sent_at__isnull=True).delete()
    if gone:
        forget_files(originals, sizes)


def _of_cookie_or_new(request: HttpRequest, series: Series) -> Draft:
    draft = of_browser(request, series)
    return draft if draft and not draft.is_sent else Draft(new_token(), None)


def _draft(token: str, series: Series) -> Draft:
    row = _row_behind(token)
    if row and row.series_id != series.pk:
        return Draft(new_token(), None)
    return Draft(token, row)


def _row_behind(token: str) -> Contribution | None:
    """The draft of that key: its first browser's own, or the link its sender had posted."""
    rows = Contribution.objects.select_related("series")
    key = kept_of(token)
    return rows.filter(draft_sha256=key).first() or rows.filter(links__in=good_links(key)).first()


def good_links(key: str) -> QuerySet[PrivateLink]:
    """The posted link of that key, as long as it is good."""
    return PrivateLink.objects.filter(
        purpose=PrivateLink.Purpose.DRAFT,
        token_sha256=key,
        revoked_at__isnull=True,
        expires_at__gt=timezone.now(),
    )
