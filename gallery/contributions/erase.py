"""Removes a garment for good: rows, original photos and the sizes made from them."""

from django.db import transaction

from gallery.contributions.editing.history import sheets_before
from gallery.contributions.models import Contribution, Photo, Rendition
from gallery.contributions.pictures import originals, safe_pictures


def erase(garment: Contribution) -> int:
    """Erase the garment with everything that shows it; give how many photos there were.

    Of the ledger only the proof stays: which question, which answer, when; it names nobody. Rows
    go first: a file without a row is swept up later, a row without its file would be a lie.
    """
    photos = list(garment.photos.prefetch_related("renditions"))
    kept_originals = {photo.original_sha256 for photo in photos}
    kept_sizes = {made.sha256 for photo in photos for made in photo.renditions.all()}
    with transaction.atomic():
        sheets = [garment.sheet, *sheets_before(garment)]
        garment.delete()
        for sheet in sheets:
            if sheet is not None:
                sheet.delete()
    forget_files(kept_originals, kept_sizes)
    return len(photos)


def forget_files(kept_originals: set[str], kept_sizes: set[str]) -> None:
    """Remove the files no other garment holds as well."""
    for sha256 in kept_originals:
        if not Photo.objects.filter(original_sha256=sha256).exists():
            originals().remove(sha256)
    for sha256 in kept_sizes:
        if not Rendition.objects.filter(sha256=sha256).exists():
            safe_pictures().remove(sha256)
