"""The sender answers later what she left open about the people in a sent picture."""

from django.db import transaction

from gallery.consent.texts import current_texts
from gallery.contributions.models import Contribution, Photo
from gallery.contributions.people.guardian import answer_as_sender, ask_guardians
from gallery.contributions.people.said import PeopleSaid, is_complete


@transaction.atomic
def say(garment: Contribution, photo: Photo, said: PeopleSaid) -> bool:
    """Keep a late answer; False where one is complete already, and then nothing changes.

    A complete answer is never changed by the sender: a guardian's or teacher's word rests on it.
    """
    kept = Photo.objects.select_for_update().get(pk=photo.pk)
    if is_complete(kept):
        return False
    Photo.objects.filter(pk=photo.pk).update(**said.facts)
    kept.refresh_from_db()
    if kept.sender_is_guardian:
        answer_as_sender(garment, kept, current_texts(scope=garment.series.slug))
    ask_guardians(garment)
    return True
