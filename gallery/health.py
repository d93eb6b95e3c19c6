"""How the site is: a few signs in words, for the teacher and whoever keeps the server."""

import datetime
import shutil
from collections.abc import Iterator
from dataclasses import dataclass

from django.conf import settings
from django.contrib.auth.decorators import login_required
from django.db import DatabaseError, connection, transaction
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe
from django_q.models import Failure, OrmQ

from gallery.access import keep_private
from gallery.consent.models import Check
from gallery.proof import last_check

LEAST_FREE_BYTES, LEAST_FREE_PART = 2 * 1024**3, 0.05
LONGEST_WAIT = datetime.timedelta(minutes=5)
A_DAY = datetime.timedelta(days=1)
GIB = 1024**3


@dataclass(frozen=True)
class Sign:
    """One thing looked at; the words say what it is and, where it is not well, what to do."""

    name: str
    title: str
    is_well: bool
    words: str


def signs() -> list[Sign]:
    """Everything that is looked at, quickly."""
    return list(_signs())


def _signs() -> Iterator[Sign]:
    can_write = _can_write()
    yield can_write
    yield _space()
    yield _letters()
    if can_write.is_well:
        yield _jobs()
        yield _failed()
        yield _proof(last_check())


def _can_write() -> Sign:
    """Writes a row and takes it back at once."""
    try:
        with transaction.atomic():
            Check.objects.create(entries=0)
            transaction.set_rollback(True)
    except DatabaseError:
        words = _("Nothing can be kept just now. Is the disk full, or the database down?")
        return Sign("database", _("Database"), is_well=False, words=words)
    words = _("Kept and read without trouble (%(kind)s).") % {"kind": connection.display_name}
    return Sign("database", _("Database"), is_well=True, words=words)


def _space() -> Sign:
    disk = shutil.disk_usage(settings.DATA_DIR)
    least = max(LEAST_FREE_BYTES, LEAST_FREE_PART * disk.total)
    free = {"free": f"{disk.free / GIB:.1f}", "least": f"{least / GIB:.1f}"}
    if disk.free >= least:
        words = _("%(free)s GiB are free.") % free
        return Sign("space", _("Room on the disk"), is_well=True, words=words)
    words = _("Only %(free)s GiB are free; make room until it is %(least)s GiB or more.") % free
    return Sign("space", _("Room on the disk"), is_well=False, words=words)


def _letters() -> Sign:
    if settings.POSTS_LETTERS:
        return Sign("letters", _("Letters"), is_well=True, words=_("A mail server is set."))
    words = _("No letter leaves this site. Whoever keeps the server can set GALLERY_SMTP_HOST.")
    return Sign("letters", _("Letters"), is_well=settings.DEBUG, words=words)


def _jobs() -> Sign:
    """The job that has waited longest; one at work is held until it should be done."""
    now = timezone.now()
    oldest = OrmQ.objects.filter(lock__lte=now).order_by("lock").first()
    title = _("Work that waits")
    if oldest is None:
        return Sign("jobs", title, is_well=True, words=_("None."))
    waited = now - oldest.lock
    minutes = {"minutes": int(waited.total_seconds() // 60)}
    if waited < LONGEST_WAIT:
        return Sign("jobs", title, is_well=True, words=_("Some, and it is being done."))
    words = _("The oldest has waited for %(minutes)s minutes. Is the worker running?") % minutes
    return Sign("jobs", title, is_well=False, words=words)


def _failed() -> Sign:
    """Steps that broke within a day and were not done since by another try."""
    failed = Failure.objects.filter(stopped__gte=timezone.now() - A_DAY).count()
    title = _("Work that went wrong")
    if not failed:
        return Sign("failed", title, is_well=True, words=_("None within a day."))
    words = _("%(count)s steps within a day; they are tried again. The log says more.")
    return Sign("failed", title, is_well=False, words=words % {"count": failed})


def _proof(newest: Check | None) -> Sign:
    title = _("Permissions")
    if newest is None:
        words = _("They are being looked over for the first time; look again in a minute.")
        return Sign("ledger", title, is_well=True, words=words)
    facts = {"count": newest.entries, "faults": newest.faults}
    if not newest.faults:
        words = _("All %(count)s answers are what was written.") % facts
        return Sign("ledger", title, is_well=True, words=words)
    words = _(
        "Something in the proof was changed from outside. Do not repair it by hand; keep a copy "
        "of the database and ask whoever keeps the server. What was found: %(faults)s"
    )
    return Sign("ledger", title, is_well=False, words=words % facts)


@login_required
@require_safe
def health(request: HttpRequest) -> HttpResponse:
    """The signs in words, for anyone who may sign in."""
    found = signs()
    facts = {"signs": found, "is_well": all(one.is_well for one in found)}
    return keep_private(render(request, "health.html", facts))


@require_safe
def healthz(request: HttpRequest) -> HttpResponse:
    """The signs for a watching program: names and yes or no, nothing else; 503 where one is bad."""
    found = {one.name: one.is_well for one in signs()}
    is_well = all(found.values())
    answer = JsonResponse({"well": is_well, **found}, status=200 if is_well else 503)
    return keep_private(answer)
