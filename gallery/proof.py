"""Is all that proves a permission what was written? For the command and the health page."""

import datetime

from django.utils import timezone

from gallery import jobs
from gallery.consent import ledger
from gallery.consent.models import Check, Entry
from gallery.contributions.people import answers

LONG_QUEUE = 20
CHECK_AFTER = datetime.timedelta(hours=1)
MOST_CHECKS = 100  # kept, the newest


def faults() -> list[str]:
    """Everything that was changed, each in a few words; empty where all is well."""
    found = [f"entry {number}: {fault}" for number, fault in ledger.broken_entries()]
    found += ledger.broken_texts()
    found += [f"guardian's answer {number}: {fault}" for number, fault in answers.broken_answers()]
    missing = (*ledger.missing_guards(), *answers.missing_guards())
    return found + [f"the guard {name} is missing" for name in missing]


def check() -> Check:
    """Look over everything and keep what was found."""
    kept = Check.objects.create(entries=Entry.objects.count(), faults="\n".join(faults()))
    Check.objects.filter(pk__lte=kept.pk - MOST_CHECKS).delete()
    return kept


def check_if_old() -> None:
    """Job: a look, unless there was one just now."""
    newest = Check.objects.last()
    if newest is None or newest.at < timezone.now() - CHECK_AFTER:
        check()


def last_check() -> Check | None:
    """The newest look; an old one is repeated by a job, so that no page waits for it."""
    newest = Check.objects.last()
    is_old = newest is None or newest.at < timezone.now() - CHECK_AFTER
    if is_old and jobs.waiting() < LONG_QUEUE:  # whoever looks often makes no long queue longer
        jobs.later(check_if_old)
    return newest
