"""`manage.py erase_garment ID`: a garment leaves for good when its sender asks for it."""

from argparse import ArgumentParser
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError

from gallery.album.film.segments import forget_photo
from gallery.contributions.erase import erase
from gallery.contributions.models import Contribution, Rendition


class Command(BaseCommand):
    """Erase one garment with its photos and the film parts that show it."""

    help = "Erase one garment with its photos; the ledger's proof of past consent stays."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("id", help="the garment's id, as in its address")

    def handle(self, *args: Any, **options: Any) -> None:
        garment = Contribution.objects.filter(public_id=options["id"]).first()
        if garment is None:
            raise CommandError("There is no garment with that id. It stands in its address.")
        masters = list(
            Rendition.objects.filter(photo__contribution=garment).values_list("sha256", flat=True)
        )
        number = erase(garment)
        parts = sum(forget_photo(settings.SEGMENTS_DIR, sha256) for sha256 in masters)
        self.stdout.write(f"Erased the garment, {number} photos and {parts} parts of films.")
        self.stdout.write("Films that show it are closed on the desk; make them again there.")
