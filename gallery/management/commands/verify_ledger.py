"""`manage.py verify_ledger`: is every entry of the ledger what was written?"""

from typing import Any

from django.core.management.base import CommandError

from gallery.consent.ledger import broken_entries, missing_guards
from gallery.consent.models import Entry
from gallery.contributions.models import GuardianAnswer
from gallery.management.ready import ReadyCommand


class Command(ReadyCommand):
    """Check the chain of the ledger."""

    help = "Check the chain of the ledger and name every entry that was changed."

    def handle(self, *args: Any, **options: Any) -> None:
        broken = [f"  entry {number}: {fault}" for number, fault in broken_entries()]
        missing = missing_guards(GuardianAnswer._meta.db_table)
        broken += [f"  the guard {name} is missing" for name in missing]
        if broken:
            raise CommandError("The ledger was changed:\n" + "\n".join(broken))
        self.stdout.write(f"All {Entry.objects.count()} entries are what was written.")
