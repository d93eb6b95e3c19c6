"""What a guardian's page shows of one thing: its pictures, its words and how her answer stands."""

from collections.abc import Sequence
from dataclasses import dataclass

from alterations.records import store
from gallery.consent.purposes import NAME, NOTES
from gallery.contributions.people.cares import Care
from gallery.contributions.shown import ShownPicture, shown


@dataclass(frozen=True)
class AskedThing:
    """A photo or the whole garment as the guardian sees it."""

    care: Care
    pictures: Sequence[ShownPicture]
    numbers: store.Summary | None
    shows_notes: bool
    shows_name: bool


def as_asked(care: Care) -> AskedThing:
    """Only what the sender allows is laid before the guardian."""
    garment = care.garment
    photos = [care.photo] if care.photo else garment.photos.prefetch_related("renditions")
    asked = {one.purpose for one in care.questions}
    has_words = care.photo is None and NOTES in asked
    return AskedThing(
        care=care,
        pictures=[shown(photo, "large") for photo in photos],
        numbers=store.summary_of(garment.sheet) if has_words and garment.sheet else None,
        shows_notes=has_words and bool(garment.notes),
        shows_name=care.photo is None and NAME in asked and bool(garment.credit_name),
    )
