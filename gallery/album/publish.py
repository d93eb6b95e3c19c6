"""Publishes a finished film: permissions are asked once more in the transaction that lists it."""

import tempfile
from collections.abc import Iterator
from pathlib import Path

from django.conf import settings
from django.db import transaction

from gallery.album.asking import as_allowed
from gallery.album.film import still
from gallery.album.film.plan import FilmPlan, PhotoSlide
from gallery.album.film.render import Film as MadeFilm
from gallery.album.models import Film, FilmItem, Render
from gallery.consent.gate import standing_permission
from gallery.consent.purposes import FILM, NAME, NOTES
from gallery.contributions.models import Contribution, Photo
from gallery.vault import Vault


def films() -> Vault:
    """Where finished films and their posters lie."""
    return Vault(settings.FILMS_DIR)


def publish(wish: Render, plan: FilmPlan, made: MadeFilm) -> bool:
    """List the film; False, and nothing is listed, where the plan is no longer allowed as it is.

    The file is kept before the rows; asked twice, it publishes once.
    """
    kept = films().put_file(made.path)
    poster = _poster(plan)
    with transaction.atomic():
        # Of two steps that finish together the second waits here and then finds the film.
        current = Render.objects.select_for_update().get(pk=wish.pk)
        if hasattr(current, "film") or current.cancelled_at:
            return True
        if as_allowed(plan) != plan:
            return False
        film = Film.objects.create(
            render=current,
            sha256=kept.sha256,
            bytes=kept.size,
            frames=made.frames,
            seconds=round(float(made.seconds), 3),
            poster_sha256=poster,
        )
        FilmItem.objects.bulk_create(_items(film, plan))
    return True


def _poster(plan: FilmPlan) -> str:
    with tempfile.TemporaryDirectory(dir=settings.FILE_UPLOAD_TEMP_DIR) as folder:
        path = Path(folder) / "poster.jpg"
        still.poster(plan, path)
        return films().put_file(path).sha256


def _items(film: Film, plan: FilmPlan) -> Iterator[FilmItem]:
    slides = [slide for slide in plan.slides if isinstance(slide, PhotoSlide)]
    photos = Photo.objects.select_related("contribution__agreement").in_bulk(
        [slide.ref for slide in slides], field_name="public_id"
    )
    for slide in slides:
        garment = photos[slide.ref].contribution
        yield FilmItem(
            film=film,
            photo=photos[slide.ref],
            photo_public_id=slide.ref,
            agreement_uuid=garment.agreement.uuid,
            entry_seqs=_rests_on(garment),
            caption=slide.caption,
            credit=slide.credit,
        )


def _rests_on(garment: Contribution) -> list[int]:
    """The ledger entries that stand for the film, the numbers and the name of one garment."""
    standing = (standing_permission(garment.agreement, one) for one in (FILM, NOTES, NAME))
    return [one.entry.seq for one in standing if one.entry is not None]
