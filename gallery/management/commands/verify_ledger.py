"""`manage.py verify_ledger`: is everything in the ledger what was written?"""

from typing import Any

from django.core.management.base import CommandError

from gallery.management.ready import ReadyCommand
from gallery.proof import check


class Command(ReadyCommand):
    """Check the ledger, its wordings and the guardians' answers."""

    help = "Check the chain of the ledger and name everything in it that was changed."

    def handle(self, *args: Any, **options: Any) -> None:
        found = check()
        if found.faults:
            lines = "\n".join(f"  {one}" for one in found.faults.splitlines())
            raise CommandError(f"The ledger was changed:\n{lines}")
        self.stdout.write(f"All {found.entries} entries are what was written.")
