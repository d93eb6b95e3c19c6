"""Publishes a finished film: permissions are asked once more in the transaction that lists it."""

import tempfile
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal
from pathlib import Path
from typing import Any

from django.conf import settings
from django.db import transaction
from django.db.models import Q

from gallery.album.asking import as_allowed, photo_behind
from gallery.album.film import still
from gallery.album.film.plan import FilmPlan, PhotoSlide
from gallery.album.film.render import Film as MadeFilm
from gallery.album.models import Film, FilmItem, Render, Slide
from gallery.consent.models import Entry
from gallery.consent.purposes import FILM, NAME, NOTES
from gallery.contributions.models import GuardianAnswer, Photo
from gallery.review.models import Verdict
from gallery.review.standing import verdict_on
from gallery.vault import Vault


def films() -> Vault:
    """Where finished films and their posters lie."""
    return Vault(settings.FILMS_DIR)


def publish(wish: Render, plan: FilmPlan, made: MadeFilm) -> bool:
    """List the film; False, and nothing is listed, where the plan is no longer allowed as it is.

    The files are kept before the rows; asked twice, it publishes once.
    """
    kept, poster = films().put_file(made.path), _poster(plan)
    facts = {
        "sha256": kept.sha256,
        "poster_sha256": poster,
        "bytes": kept.size,
        "frames": made.frames,
        "seconds": round(Decimal(made.seconds.numerator) / made.seconds.denominator, 3),
    }
    is_settled = _list(wish, plan, facts)
    for sha256 in (kept.sha256, poster):
        if not Film.objects.filter(Q(sha256=sha256) | Q(poster_sha256=sha256)).exists():
            films().remove(sha256)
    return is_settled


@transaction.atomic
def _list(wish: Render, plan: FilmPlan, facts: dict[str, Any]) -> bool:
    # Of two steps that finish together the second waits here and then finds the film.
    current = Render.objects.select_for_update().get(pk=wish.pk)
    if Film.objects.filter(render=current).exists() or current.cancelled_at:
        return True
    if as_allowed(plan) != plan:
        return False
    film = Film.objects.create(render=current, **facts)
    FilmItem.objects.bulk_create(_items(film, plan))
    return True


def _poster(plan: FilmPlan) -> str:
    with tempfile.TemporaryDirectory(dir=settings.FILE_UPLOAD_TEMP_DIR) as folder:
        path = Path(folder) / "poster.jpg"
        still.poster(plan, path)
        return films().put_file(path).sha256


def _items(film: Film, plan: FilmPlan) -> Iterator[FilmItem]:
    slides = [(n, one) for n, one in enumerate(plan.slides) if isinstance(one, PhotoSlide)]
    photos = Photo.objects.select_related("contribution__agreement").in_bulk(
        [photo_behind(slide) for _, slide in slides], field_name="public_id"
    )
    rests_on = _yes_entries(photos.values())
    guardians = {photo.pk: _guardian_seqs(photo) for photo in photos.values()}
    nameless = set(
        Slide.objects.filter(album=film.render.album_id, names_nobody=True).values_list(
            "photo", flat=True
        )
    )
    for position, slide in slides:
        photo = photos[photo_behind(slide)]
        agreement = photo.contribution.agreement
        if agreement is None:  # the gate let it in, so there is one
            raise TypeError("A slide of a film rests on no agreement.")
        yield FilmItem(
            film=film,
            photo=photo,
            photo_public_id=photo.public_id,
            agreement_uuid=agreement.uuid,
            entry_seqs=_relied_on(rests_on[agreement.pk], slide),
            position=position,
            caption=slide.caption,
            credit=slide.credit,
            people=photo.people,
            people_seen_at=photo.people_seen_at,
            guardian_seqs=guardians[photo.pk],
            verdicts=_approvals(photo),
            names_nobody=not slide.credit and photo.pk in nameless,
        )


def _relied_on(given: Mapping[str, int], slide: PhotoSlide) -> list[int]:
    """Numbers of the entries the slide rests on; the name's only where the slide shows it."""
    return sorted(seq for purpose, seq in given.items() if purpose != NAME or slide.credit)


def _approvals(photo: Photo) -> list[dict[str, Any]]:
    """The approvals that stand for the photo, for its garment's words and for a changed name."""
    garment = photo.contribution
    newest = {
        "photo": verdict_on(garment, photo),
        "words": verdict_on(garment, None),
        "name": verdict_on(garment, None, of_name=True),
    }
    return [
        {"about": about, "verdict": one.pk, "at": one.at.isoformat(), "by": one.by.get_username()}
        for about, one in newest.items()
        if one is not None and one.decision == Verdict.Decision.APPROVE
    ]


def _guardian_seqs(photo: Photo) -> list[int]:
    """Numbers of the guardians' answers that stand about the photo and its garment."""
    about = (photo.public_id, photo.contribution.public_id)
    answers = GuardianAnswer.objects.filter(about__in=about).order_by("seq")
    newest = {(one.about, one.purpose): one for one in answers}
    return sorted(one.seq for one in newest.values() if one.is_yes)


def _yes_entries(photos: Iterable[Photo]) -> dict[int, dict[str, int]]:
    """For each agreement the numbers of the entries that say yes now to film, numbers and name."""
    agreements = {photo.contribution.agreement_id for photo in photos}
    entries = Entry.objects.filter(agreement__in=agreements, purpose__in=(FILM, NOTES, NAME))
    newest: dict[tuple[int, str], Entry] = {
        (entry.agreement_id, entry.purpose): entry for entry in entries.order_by("seq")
    }
    given: dict[int, dict[str, int]] = defaultdict(dict)
    for (agreement, purpose), entry in newest.items():
        if entry.answer == Entry.Answer.GIVEN:
            given[agreement][purpose] = entry.seq
    return given
