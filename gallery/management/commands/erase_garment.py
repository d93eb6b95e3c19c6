"""`manage.py erase_garment ID`: a garment leaves for good when its sender asks for it."""

from argparse import ArgumentParser
from typing import Any

from django.core.management.base import CommandError

from gallery.contributions.models import Contribution
from gallery.erasing import erase_everywhere
from gallery.management.ready import ReadyCommand


class Command(ReadyCommand):
    """Erase one garment with its photos and the film parts that show it."""

    help = "Erase one garment with its photos; the ledger's proof of past consent stays."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("id", help="the garment's id, as in its address")
        parser.add_argument("--yes", action="store_true", help="do not ask")

    def handle(self, *args: Any, **options: Any) -> None:
        garment = Contribution.objects.filter(public_id=options["id"]).first()
        if garment is None:
            raise CommandError("There is no garment with that id. It stands in its address.")
        if not (options["yes"] or self._is_meant(garment)):
            raise CommandError("Nothing was erased.")
        number, films = erase_everywhere(garment)
        self.stdout.write(f"Erased the garment, its {number} photos and {films} films with it.")
        self.stdout.write("Make those films again on the desk.")

    def _is_meant(self, garment: Contribution) -> bool:
        """Ask once, with enough to know it by: this cannot be undone."""
        name = garment.credit_name or "no name given"
        self.stdout.write(
            f"{garment} of {garment.series} ({name}), {garment.photos.count()} photos."
        )
        try:
            return input("Erase it for good? Type yes: ").strip().lower() == "yes"
        except EOFError:
            return False
