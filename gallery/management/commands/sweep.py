"""`manage.py sweep`: what nobody refers to any more leaves the disk."""

import datetime
from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand
from django.utils import timezone

from gallery.contributions.models import Contribution, Photo, Rendition
from gallery.contributions.pictures import originals, safe_pictures

DAY = 24 * 60 * 60
DRAFT_DAYS = 60


class Command(BaseCommand):
    """Remove drafts that were never sent and files nobody refers to."""

    help = "Remove drafts older than sixty days and files nobody refers to for a day."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument(
            "--older-than", type=int, default=DAY, help="seconds; a day if left out"
        )

    def handle(self, *args: Any, **options: Any) -> None:
        before = timezone.now() - datetime.timedelta(days=DRAFT_DAYS)
        old = Contribution.objects.filter(sent_at__isnull=True, started_at__lt=before)
        drafts = old.count()
        old.delete()
        kept = set(Photo.objects.values_list("original_sha256", flat=True))
        files = originals().sweep(kept, options["older_than"])
        kept = set(Rendition.objects.values_list("sha256", flat=True))
        files += safe_pictures().sweep(kept, options["older_than"])
        self.stdout.write(f"Removed {drafts} old drafts and {files} forgotten files.")
