"""`manage.py verify_ledger`: is everything in the ledger what was written?"""

from typing import Any

from django.core.management.base import CommandError

from gallery.consent.models import Entry
from gallery.management.ready import ReadyCommand
from gallery.proof import faults


class Command(ReadyCommand):
    """Check the ledger, its wordings and the guardians' answers."""

    help = "Check the chain of the ledger and name everything in it that was changed."

    def handle(self, *args: Any, **options: Any) -> None:
        found = faults()
        if found:
            raise CommandError("The ledger was changed:\n" + "\n".join(f"  {one}" for one in found))
        self.stdout.write(f"All {Entry.objects.count()} entries are what was written.")
