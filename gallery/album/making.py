"""Makes a film in short steps that may be killed, repeated and cancelled at any point."""

import logging
import time
from pathlib import Path

from django.conf import settings
from django.contrib.auth.models import User
from django.db import transaction
from django.db.models import F, QuerySet
from django.utils import timezone
from django.utils.translation import gettext as _

from gallery import jobs
from gallery.album.asking import as_allowed
from gallery.album.film import make, planfile, render, segments
from gallery.album.film.errors import Cancelled, FilmError
from gallery.album.film.plan import FilmPlan, PhotoSlide
from gallery.album.forget import forget_all_not_allowed, forget_picture
from gallery.album.gather import placed, plan_of
from gallery.album.hindrances import hindrances
from gallery.album.models import Album, Film, Render
from gallery.album.pack import pack_sha256
from gallery.album.publish import publish
from gallery.vault import VaultError

logger = logging.getLogger(__name__)
LONGEST_BEFORE_FINISH = 5  # seconds
STEP_SECONDS = 20  # no part is begun after that; well below the queue's own limit
WORKERS = 2
MOST_TRIES = 3


@transaction.atomic
def ask_for_film(album: Album, by: User) -> Render:
    """Wish for a film of the album as it is now; raises FilmError where it cannot be filmed.

    Asked twice for the same film it gives the wish under way; an older wish for another film of
    this album is stopped, its parts are used again.
    """
    album = Album.objects.select_for_update(of=("self",)).select_related("series").get(pk=album.pk)
    slides = placed(album)
    found = hindrances(album, slides)
    if found:
        raise FilmError(" ".join(found))
    plan = plan_of(album, slides)
    text = planfile.to_text(plan)
    under_way = _open_ones().filter(album=album)
    same = next((wish for wish in under_way if wish.plan == text), None)
    under_way.exclude(pk=same.pk if same else 0).update(cancelled_at=timezone.now())
    wish = same or Render.objects.create(
        album=album,
        requested_by=by,
        plan=text,
        album_version=album.version,
        parts_total=len(segments.parts(plan)),
    )
    jobs.later(forget_all_not_allowed)
    if same is None:  # else its own steps are under way already
        jobs.later(render_step, wish.pk)
    return wish


@transaction.atomic
def go_on(wish: Render) -> None:
    """Take up a cancelled, failed or silent render; parts made before are used again."""
    Render.objects.filter(pk=wish.pk, film__isnull=True).update(
        cancelled_at=None,
        failed_at=None,
        started_at=None,
        trouble="",
        tries=0,
        touched_at=timezone.now(),
    )
    jobs.later(render_step, wish.pk)


def cancel(wish: Render) -> None:
    """Stop it; the parts made so far are kept."""
    _open_ones().filter(pk=wish.pk).update(cancelled_at=timezone.now())


def render_step(render_id: int) -> None:
    """Job: make parts of the film for a while, then ask for the next step or publish.

    A step that breaks off is tried again; the third one in a row ends the render with a sentence.
    """
    wish = _begun(render_id)
    if wish is None:
        return
    try:
        is_done = _work(wish)
    except Cancelled:
        return
    except (FilmError, VaultError) as error:
        _try_again(wish, str(error))
    except Exception:
        logger.exception("Render %s broke off.", wish.public_id)
        _try_again(wish, _("Something went wrong that the site did not expect. Try again."))
    else:
        _open_ones().filter(pk=wish.pk).update(tries=0)
        if not is_done:
            jobs.later(render_step, wish.pk)


def _open_ones() -> QuerySet[Render]:
    """Renders that somebody still has to work at."""
    return Render.objects.filter(
        cancelled_at__isnull=True, failed_at__isnull=True, film__isnull=True
    )


def _is_over(render_id: int) -> bool:
    return not _open_ones().filter(pk=render_id).exists()


def _begun(render_id: int) -> Render | None:
    """The render with one more try counted; None where nothing is left to do."""
    found = _open_ones().filter(pk=render_id)
    found.update(tries=F("tries") + 1, touched_at=timezone.now())
    wish: Render | None = found.select_related("album__series").first()
    if wish is None or wish.tries == 1:
        return wish
    # The last step broke off: the time until now tells nothing about the time to come.
    found.update(started_at=None)
    if wish.tries <= MOST_TRIES:
        return wish
    # A worker that is killed says nothing: only the count tells that it happened again and again.
    _fail(wish, _("The work was broken off three times. Is there room on the disk and in memory?"))
    return None


def _work(wish: Render) -> bool:
    """Make parts for a while; True where nothing is left to do."""
    plan = _plan_for(wish)
    began = time.monotonic()
    left = make.encode_missing(
        plan,
        settings.SEGMENTS_DIR,
        workers=WORKERS,
        until=began + STEP_SECONDS,
        should_stop=lambda: _is_over(wish.pk),
        progress=lambda done, total: _note(wish.pk, done, total),
    )
    # Joining and reading a long film back takes its time: it gets a step of its own.
    if left or time.monotonic() - began > LONGEST_BEFORE_FINISH:
        return False
    return _finish(wish, plan)


def _plan_for(wish: Render) -> FilmPlan:
    """The wished plan with what is allowed now; a photo taken back leaves the cache as well."""
    plan = planfile.from_text(wish.plan)
    allowed = as_allowed(plan)
    if allowed == plan:
        return plan
    for sha256 in _pictures(plan) - _pictures(allowed):
        forget_picture(sha256)
    if not _pictures(allowed):
        raise FilmError(_("Nothing that this film should show is allowed any more."))
    render.refuse_problems(allowed)
    Render.objects.filter(pk=wish.pk).update(
        plan=planfile.to_text(allowed), replanned_at=timezone.now()
    )
    return allowed


def _pictures(plan: FilmPlan) -> set[str]:
    return {slide.photo_sha256 for slide in plan.slides if isinstance(slide, PhotoSlide)}


def _finish(wish: Render, plan: FilmPlan) -> bool:
    """Join, read back and publish; False where a permission was taken back meanwhile."""
    folder = Path(settings.FILMS_DIR) / "making"
    folder.mkdir(mode=0o750, parents=True, exist_ok=True)
    out = folder / f"{wish.public_id}.mp4"
    try:
        made = render.finish(
            plan, settings.SEGMENTS_DIR, out, should_stop=lambda: _is_over(wish.pk)
        )
        is_settled = publish(wish, plan, made)
    finally:
        out.unlink(missing_ok=True)
    for film in Film.objects.filter(render=wish):
        pack_sha256(film)  # kept while its files and words are surely there
    return is_settled


def _note(render_id: int, done: int, total: int) -> None:
    now = timezone.now()
    _open_ones().filter(pk=render_id, started_at=None).update(started_at=now, parts_found=done)
    Render.objects.filter(pk=render_id).update(parts_done=done, parts_total=total, touched_at=now)


def _try_again(wish: Render, sentence: str) -> None:
    if wish.tries >= MOST_TRIES:
        _fail(wish, sentence)
    else:
        jobs.later(render_step, wish.pk)


def _fail(wish: Render, sentence: str) -> None:
    _open_ones().filter(pk=wish.pk).update(failed_at=timezone.now(), trouble=sentence)
