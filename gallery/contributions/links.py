"""Private links: the sender's way back to her garment, without account or password."""

import datetime

from django.db.models import Q
from django.utils import timezone

from gallery.contributions.models import Contribution, PrivateLink
from gallery.contributions.tokens import is_token, kept_of

LIFE = datetime.timedelta(days=400)


def open_link(contribution: Contribution, token: str) -> PrivateLink:
    """Add a way in; only the token's hash is kept."""
    return contribution.links.create(token_sha256=kept_of(token), expires_at=timezone.now() + LIFE)


def garment_behind(token: str) -> Contribution | None:
    """The garment a token leads to; None alike for a wrong, expired or revoked one."""
    if not is_token(token):
        return None
    good = Q(
        purpose=PrivateLink.Purpose.OWN,
        token_sha256=kept_of(token),
        revoked_at__isnull=True,
        expires_at__gt=timezone.now(),
    )
    link = PrivateLink.objects.filter(good).select_related("contribution").first()
    return link.contribution if link else None
