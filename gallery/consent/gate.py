"""May this be used for that? The one question everything public asks.

It asks for the purpose, never for the wording. The four purposes are fixed in code and the site
does what each names and nothing more, so a yes to older words goes on for what these said, and a
no stays a no, whatever newer words say. There is no mark "this wording asks for something else":
what is really something else is a purpose of its own, with entries of its own.
"""

from dataclasses import dataclass

from django.db.models import OuterRef, QuerySet, Subquery

from gallery.consent.models import Agreement, Entry


@dataclass(frozen=True)
class Permission:
    """What stands for one purpose: the answer and the entry it rests on."""

    purpose: str
    is_given: bool
    entry: Entry | None


def agreements_allowing(purpose: str) -> QuerySet[Agreement]:
    """The agreements whose newest answer for that purpose is "given"."""
    newest = (
        Entry.objects.filter(agreement=OuterRef("pk"), purpose=purpose)
        .order_by("-seq")
        .values("answer")[:1]
    )
    return Agreement.objects.annotate(standing=Subquery(newest)).filter(standing=Entry.Answer.GIVEN)


def may_use(agreement: Agreement | int | None, purpose: str) -> bool:
    """Whether that purpose is allowed at this moment; no agreement allows nothing."""
    if agreement is None:
        return False
    key = agreement if isinstance(agreement, int) else agreement.pk
    return agreements_allowing(purpose).filter(pk=key).exists()


def standing_permission(agreement: Agreement, purpose: str) -> Permission:
    """The newest answer for one purpose, with the entry that says so."""
    entry = (
        Entry.objects.filter(agreement=agreement, purpose=purpose)
        .select_related("text")
        .order_by("-seq")
        .first()
    )
    is_given = entry is not None and entry.answer == Entry.Answer.GIVEN
    return Permission(purpose=purpose, is_given=is_given, entry=entry)
