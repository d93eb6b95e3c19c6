"""`manage.py erase_garment ID`: a garment leaves for good when its sender asks for it."""

from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand, CommandError

from gallery.album.strike import strike
from gallery.contributions.erase import erase
from gallery.contributions.models import Contribution


class Command(BaseCommand):
    """Erase one garment with its photos and the film parts that show it."""

    help = "Erase one garment with its photos; the ledger's proof of past consent stays."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("id", help="the garment's id, as in its address")

    def handle(self, *args: Any, **options: Any) -> None:
        garment = Contribution.objects.filter(public_id=options["id"]).first()
        if garment is None:
            raise CommandError("There is no garment with that id. It stands in its address.")
        films = strike([photo.public_id for photo in garment.photos.all()])
        number = erase(garment)
        self.stdout.write(f"Erased the garment, its {number} photos and {films} films with it.")
        self.stdout.write("Make those films again on the desk.")
