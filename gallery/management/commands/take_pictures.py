"""`manage.py take_pictures`: the README's pictures, taken of the demo site by a real browser."""

import os
from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError
from django.urls import reverse

from gallery.album.models import Album
from gallery.contributions.models import Contribution
from gallery.demo.fill import SLUG
from gallery.demo.screenshots import View, take
from gallery.series.models import Series


class Command(BaseCommand):
    """Take the README's pictures of a site that `demo` has filled."""

    help = "Take the README's pictures of a site that `demo` has filled (needs Chromium)."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--to", type=Path, default=settings.CHECKOUT / ".readme")

    def handle(self, *args: Any, **options: Any) -> None:
        # The browser's driver runs an event loop beside our plain database calls.
        os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "1"
        series = Series.objects.filter(slug=SLUG).first()
        album = Album.objects.filter(series__slug=SLUG).first()
        if series is None or album is None:
            raise CommandError("Fill the site first: manage.py demo --no-serve")
        call_command("collectstatic", verbosity=0, interactive=False)
        try:
            for path in take(_views(album), options["to"], series.teacher):
                self.stdout.write(f"{path.name}  {path.stat().st_size // 1024} kB")
        except OSError as error:
            raise CommandError(str(error)) from error


def _views(album: Album) -> list[View]:
    garment = Contribution.objects.filter(sent_at__isnull=False, verdicts__isnull=True).first()
    shown = garment or Contribution.objects.filter(sent_at__isnull=False).first()
    assert shown is not None  # noqa: S101 (a filled demo has garments)
    return [
        View("garments", reverse("garments", args=[SLUG])),
        View("send-phone", reverse("send", args=[SLUG]), width=390, height=844),
        View("desk", reverse("desk_garment", args=[shown.public_id]), as_teacher=True),
        View("album", reverse("album", args=[album.public_id]), as_teacher=True),
    ]
