"""Makes a film in short steps that may be killed, repeated and cancelled at any point."""

import logging
import time
from pathlib import Path

from django.conf import settings
from django.contrib.auth.models import AbstractBaseUser
from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from gallery import jobs
from gallery.album.asking import as_allowed
from gallery.album.film import make, planfile, render, segments
from gallery.album.film.errors import Cancelled, FilmError
from gallery.album.film.plan import FilmPlan
from gallery.album.gather import plan_of
from gallery.album.models import Album, Render
from gallery.album.publish import publish
from gallery.vault import VaultError

logger = logging.getLogger(__name__)
STEP_SECONDS = 20  # no part is begun after that; well below the queue's own limit
WORKERS = 2


@transaction.atomic
def ask_for_film(album: Album, by: AbstractBaseUser) -> Render:
    """Wish for a film of the album as it is now; raises FilmError where it cannot be filmed."""
    plan = plan_of(album)
    render.refuse_problems(plan)
    wish = Render.objects.create(
        album=album,
        requested_by=by,
        plan=planfile.to_text(plan),
        parts_total=len(segments.parts(plan)),
    )
    jobs.later(render_step, wish.pk)
    return wish


@transaction.atomic
def go_on(wish: Render) -> None:
    """Take up a cancelled, failed or silent render; parts made before are used again."""
    Render.objects.filter(pk=wish.pk, film__isnull=True).update(
        cancelled_at=None, failed_at=None, trouble="", touched_at=timezone.now()
    )
    jobs.later(render_step, wish.pk)


def cancel(wish: Render) -> None:
    """Stop after the part at hand; what was made is kept."""
    open_ones = Render.objects.filter(pk=wish.pk, film__isnull=True, failed_at__isnull=True)
    open_ones.update(cancelled_at=timezone.now())


def render_step(render_id: int) -> None:
    """Job: make parts of the film for a while, then ask for the next step or publish."""
    wish = _open(render_id)
    if wish is None:
        return
    try:
        _work(wish)
    except Cancelled:
        return
    except (FilmError, VaultError) as error:
        _fail(render_id, str(error))
    except Exception:
        logger.exception("Render %s failed.", wish.public_id)
        _fail(render_id, _("Something went wrong that the site did not expect. Try again."))


def _open(render_id: int) -> Render | None:
    return (
        Render.objects.select_related("album__series")
        .filter(pk=render_id, cancelled_at__isnull=True, failed_at__isnull=True, film__isnull=True)
        .first()
    )


def _work(wish: Render) -> None:
    plan = _plan_for(wish)
    Render.objects.filter(pk=wish.pk, started_at__isnull=True).update(started_at=timezone.now())
    left = make.encode_missing(
        plan,
        settings.SEGMENTS_DIR,
        workers=WORKERS,
        until=time.monotonic() + STEP_SECONDS,
        should_stop=lambda: _open(wish.pk) is None,
        progress=lambda done, total: _note(wish.pk, done, total),
    )
    if left or not _finish(wish, plan):
        jobs.later(render_step, wish.pk)


def _plan_for(wish: Render) -> FilmPlan:
    """The wished plan with what is allowed now; a photo taken back leaves the cache as well."""
    plan = planfile.from_text(wish.plan)
    allowed = as_allowed(plan)
    if allowed == plan:
        return plan
    still_shown = {getattr(slide, "photo_sha256", "") for slide in allowed.slides}
    for slide in plan.slides:
        sha256 = getattr(slide, "photo_sha256", "")
        if sha256 not in still_shown:
            segments.forget_photo(settings.SEGMENTS_DIR, sha256)
    render.refuse_problems(allowed)
    Render.objects.filter(pk=wish.pk).update(
        plan=planfile.to_text(allowed), parts_total=len(segments.parts(allowed))
    )
    return allowed


def _finish(wish: Render, plan: FilmPlan) -> bool:
    """Join, read back and publish; False where a permission was taken back meanwhile."""
    settings.FILMS_DIR.mkdir(parents=True, exist_ok=True)
    out: Path = settings.FILMS_DIR / f"{wish.public_id}.new.mp4"
    try:
        made = render.finish(
            plan, settings.SEGMENTS_DIR, out, should_stop=lambda: _open(wish.pk) is None
        )
        return publish(wish, plan, made)
    finally:
        out.unlink(missing_ok=True)


def _note(render_id: int, done: int, total: int) -> None:
    Render.objects.filter(pk=render_id).update(
        parts_done=done, parts_total=total, touched_at=timezone.now()
    )


def _fail(render_id: int, sentence: str) -> None:
    Render.objects.filter(pk=render_id).update(failed_at=timezone.now(), trouble=sentence)
