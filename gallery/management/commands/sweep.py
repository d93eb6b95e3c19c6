"""`manage.py sweep`: what nobody refers to any more leaves the disk."""

import datetime
import shutil
import time
from argparse import ArgumentParser
from typing import Any

from django.conf import settings
from django.core.management import call_command
from django.utils import timezone

from gallery import jobs
from gallery.album.forget import forget_all_not_allowed
from gallery.contributions import draft_links, drafts
from gallery.contributions.keeping import make_sizes
from gallery.contributions.models import Photo, Rendition
from gallery.contributions.pictures import originals, safe_pictures
from gallery.management.ready import ReadyCommand

DAY = 24 * 60 * 60


class Command(ReadyCommand):
    """Remove drafts that were never sent and files nobody refers to."""

    help = "Write before a draft ends; remove drafts untouched for sixty days and forgotten files."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument(
            "--older-than", type=int, default=DAY, help="seconds; a day if left out"
        )

    def handle(self, *args: Any, **options: Any) -> None:
        warned = sum(draft_links.warn(row) for row in draft_links.to_warn())
        old = draft_links.forgotten()
        for row in old:
            drafts.throw_away(row)
        kept = set(Photo.objects.values_list("original_sha256", flat=True))
        files = originals().sweep(kept, options["older_than"])
        kept = set(Rendition.objects.values_list("sha256", flat=True))
        files += safe_pictures().sweep(kept, options["older_than"])
        call_command("clearsessions")
        files += _sweep_unfinished(options["older_than"])
        parts = forget_all_not_allowed()
        again = _ask_again_for_sizes()
        self.stdout.write(f"Removed {parts} parts of films that may not be shown any more.")
        self.stdout.write(f"Wrote {warned} letters about drafts that end soon.")
        self.stdout.write(f"Asked again for the sizes of {again} photos.")
        self.stdout.write(f"Removed {len(old)} old drafts and {files} forgotten files.")


def _ask_again_for_sizes() -> int:
    """Photos of sent garments whose sizes were never made, because the disk failed for long."""
    before = timezone.now() - datetime.timedelta(hours=1)
    waiting = Photo.objects.filter(
        safe_at__isnull=True, trouble="", contribution__sent_at__lt=before
    )
    for photo in waiting:
        jobs.later(make_sizes, photo.pk)
    return len(waiting)


def _sweep_unfinished(older_than: int) -> int:
    """Uploads and films that a killed process left half done."""
    before = time.time() - older_than
    folders = (settings.FILE_UPLOAD_TEMP_DIR, settings.FILMS_DIR / "making")
    left = [one for folder in folders for one in folder.glob("*") if one.stat().st_mtime < before]
    for one in left:
        if one.is_dir():
            shutil.rmtree(one, ignore_errors=True)
        else:
            one.unlink(missing_ok=True)
    return len(left)
