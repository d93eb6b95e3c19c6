"""What stands on the desk: the newest verdict on each photo and on each garment's words."""

from django.db.models import OuterRef, QuerySet, Subquery

from gallery.contributions.models import Contribution, Photo
from gallery.review.models import Verdict

_NEWEST = Verdict.objects.order_by("-pk").values("decision")[:1]


def approved_photos() -> QuerySet[Photo]:
    """Photos whose newest verdict is an approval, of garments that were sent."""
    newest = Subquery(_NEWEST.filter(photo=OuterRef("pk")))
    return Photo.objects.annotate(verdict=newest).filter(
        verdict=Verdict.Decision.APPROVE, contribution__sent_at__isnull=False
    )


def approved_words() -> QuerySet[Contribution]:
    """Garments whose notes and numbers were approved."""
    newest = Subquery(_NEWEST.filter(contribution=OuterRef("pk"), photo__isnull=True))
    return Contribution.objects.annotate(verdict=newest).filter(
        verdict=Verdict.Decision.APPROVE, sent_at__isnull=False
    )


def waiting_photos() -> QuerySet[Photo]:
    """Photos of sent garments on which nothing was decided yet."""
    newest = Subquery(_NEWEST.filter(photo=OuterRef("pk")))
    return Photo.objects.annotate(verdict=newest).filter(
        verdict__isnull=True, contribution__sent_at__isnull=False
    )


def verdict_on(contribution: Contribution, photo: Photo | None) -> Verdict | None:
    """The newest verdict on one photo, or on the garment's words where photo is None."""
    return Verdict.objects.filter(contribution=contribution, photo=photo).order_by("-pk").first()
