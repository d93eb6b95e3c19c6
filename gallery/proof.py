"""Is all that proves a permission what was written? For the command and the health page."""

from gallery.consent import ledger
from gallery.contributions.people import answers


def faults() -> list[str]:
    """Everything that was changed, each in a few words; empty where all is well."""
    found = [f"entry {number}: {fault}" for number, fault in ledger.broken_entries()]
    found += ledger.broken_texts()
    found += [f"guardian's answer {number}: {fault}" for number, fault in answers.broken_answers()]
    missing = (*ledger.missing_guards(), *answers.missing_guards())
    return found + [f"the guard {name} is missing" for name in missing]
