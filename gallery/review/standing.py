"""What stands on the desk: the newest verdict on each photo and on each garment's words."""

from typing import Any

from django.db.models import OuterRef, QuerySet, Subquery

from gallery.contributions.models import Contribution, Photo
from gallery.review.models import Verdict


def _newest(**about: Any) -> Subquery:
    """The newest decision about a photo, or about a garment's words."""
    decisions = Verdict.objects.filter(**about).order_by("-pk").values("decision")
    return Subquery(decisions[:1])


def judged_photos() -> QuerySet[Any]:
    """Photos of sent garments, each with `verdict`: the newest decision or None."""
    newest = _newest(photo=OuterRef("pk"))
    return Photo.objects.annotate(verdict=newest).filter(contribution__sent_at__isnull=False)


def judged_words() -> QuerySet[Any]:
    """Sent garments, each with `verdict`: the newest decision on its words and numbers, or None."""
    newest = _newest(contribution=OuterRef("pk"), photo__isnull=True)
    return Contribution.objects.annotate(verdict=newest).filter(sent_at__isnull=False)


def approved_photos() -> QuerySet[Photo]:
    """Photos whose newest verdict is an approval, of garments that were sent."""
    return judged_photos().filter(verdict=Verdict.Decision.APPROVE)


def approved_words() -> QuerySet[Contribution]:
    """Garments whose notes and numbers were approved."""
    return judged_words().filter(verdict=Verdict.Decision.APPROVE)


def waiting_photos() -> QuerySet[Photo]:
    """Photos of sent garments on which nothing was decided yet."""
    return judged_photos().filter(verdict__isnull=True)


def verdict_on(contribution: Contribution, photo: Photo | None) -> Verdict | None:
    """The newest verdict on one photo, or on the garment's words where photo is None."""
    return Verdict.objects.filter(contribution=contribution, photo=photo).order_by("-pk").first()
