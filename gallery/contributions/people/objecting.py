"""Somebody objects to a public picture: it is hidden at once, until the teacher has looked."""

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from gallery.contributions.models import Objection, Photo


@transaction.atomic
def object_to(photo: Photo, words: str) -> None:
    """Keep the objection; from this moment the photo is cleared for nothing.

    One that is hidden for good stays so, and nothing is added to it.
    """
    Photo.objects.select_for_update().get(pk=photo.pk)
    if not photo.objections.filter(upheld=True).exists():
        Objection.objects.create(photo=photo, words=words)


@transaction.atomic
def resolve(photo: Photo, by: User, *, upheld: bool, seen: int) -> int:
    """Answer every open objection to a photo that the teacher saw; give how many.

    `seen` is the newest one on her page: one that came after it stays open and hides on.
    """
    Photo.objects.select_for_update().get(pk=photo.pk)
    waiting = photo.objections.filter(resolved_at__isnull=True, pk__lte=seen)
    return waiting.update(resolved_at=timezone.now(), resolved_by=by, upheld=upheld)


@transaction.atomic
def confirm_seen(photo: Photo, by: User) -> bool:
    """The teacher has seen that the other grown-ups agree; kept once, with the day and who."""
    waiting = Photo.objects.filter(
        pk=photo.pk, people=Photo.People.OTHERS, others_agree=True, people_seen_at__isnull=True
    )
    return bool(waiting.update(people_seen_at=timezone.now(), people_seen_by=by))
