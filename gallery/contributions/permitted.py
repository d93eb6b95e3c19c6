"""What the sender allows at this moment: each answer is asked of the ledger's gate."""

from django.db.models import QuerySet

from gallery.consent import gate
from gallery.consent.purposes import NAME
from gallery.contributions.models import Contribution


def allows(contribution: Contribution, purpose: str) -> bool:
    """Whether the sender allows that purpose now."""
    return gate.may_use(contribution.agreement_id, purpose)


def allowing(purpose: str) -> QuerySet[Contribution]:
    """All sent garments whose senders allow that purpose now."""
    return Contribution.objects.filter(
        sent_at__isnull=False, agreement__in=gate.agreements_allowing(purpose)
    )


def credit_of(contribution: Contribution) -> str:
    """The name exactly as written where it may be shown, else an empty string."""
    return contribution.credit_name if allows(contribution, NAME) else ""
