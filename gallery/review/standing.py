"""What stands on the desk: the newest verdict on each photo, on each garment's words, on a name.

A verdict is about an edition of the garment. What its sender changed in a later edition it does
not cover: that waits again, as if nothing had been decided on it.
"""

from typing import Any

from django.db.models import Exists, OuterRef, Q, QuerySet, Subquery

from gallery.contributions.arrived import arrived
from gallery.contributions.editing.history import OF_PHOTO, OF_WORDS, What
from gallery.contributions.models import Change, Contribution, Photo
from gallery.review.models import Verdict

OF_GARMENT = (What.NAME, What.ADDED, What.REMOVED)


def _newest(**about: Any) -> Subquery:
    """The newest decision about a photo, about a garment's words, or about its name."""
    decisions = Verdict.objects.filter(**about).order_by("-pk").values("decision")
    return Subquery(decisions[:1])


def judged_photos() -> QuerySet[Any]:
    """Photos of sent garments, each with `verdict`: the newest decision that covers it or None."""
    newest = _newest(photo=OuterRef("pk"), edition__gte=OuterRef("edition"))
    return Photo.objects.annotate(verdict=newest).filter(arrived("contribution__"))


def judged_words() -> QuerySet[Any]:
    """Sent garments, each with `verdict`: the newest decision that covers its words and numbers,
    or None."""
    newest = _newest(
        contribution=OuterRef("pk"),
        photo__isnull=True,
        of_name=False,
        edition__gte=OuterRef("words_edition"),
    )
    return Contribution.objects.annotate(verdict=newest).filter(arrived())


def approved_photos() -> QuerySet[Photo]:
    """Photos whose newest verdict is an approval, of garments that were sent."""
    return judged_photos().filter(verdict=Verdict.Decision.APPROVE)


def described_photos() -> QuerySet[Photo]:
    """Approved photos whose description is the one that was approved with them."""
    seen = Verdict.objects.filter(photo=OuterRef("pk"), edition__gte=OuterRef("words_edition"))
    return approved_photos().filter(Exists(seen))


def approved_words() -> QuerySet[Contribution]:
    """Garments whose notes and numbers were approved."""
    return judged_words().filter(verdict=Verdict.Decision.APPROVE)


def named_garments() -> QuerySet[Contribution]:
    """Garments whose name the teacher has no more to look at.

    It is the name she knew from the beginning, or a changed one that she approved.
    """
    newest = _newest(
        contribution=OuterRef("pk"), of_name=True, edition__gte=OuterRef("name_edition")
    )
    known = Q(name_approved=Verdict.Decision.APPROVE) | ~Exists(_before("name_edition"))
    return Contribution.objects.annotate(name_approved=newest).filter(known)


def garments_with_new_names() -> QuerySet[Contribution]:
    """Garments with a changed name on which the teacher has not decided."""
    decided = Verdict.objects.filter(
        contribution=OuterRef("pk"), of_name=True, edition__gte=OuterRef("name_edition")
    )
    return Contribution.objects.filter(Exists(_before("name_edition")), ~Exists(decided)).exclude(
        credit_name=""
    )


def photos_with_new_words() -> QuerySet[Photo]:
    """Photos with another description than the one the teacher approved or asked about; one
    that was only emptied leaves nothing to approve."""
    seen = Verdict.objects.filter(photo=OuterRef("pk"), edition__gte=OuterRef("words_edition"))
    open_ones = (Verdict.Decision.APPROVE, Verdict.Decision.ASK)
    return judged_photos().filter(~Exists(seen), verdict__in=open_ones).exclude(description="")


def waiting_photos() -> QuerySet[Photo]:
    """Photos of sent garments on which nothing was decided yet."""
    return judged_photos().filter(verdict__isnull=True)


def changes_to_look_at() -> QuerySet[Change]:
    """Lines of history about things the teacher had decided on before they were changed."""
    earlier = Verdict.objects.filter(
        contribution=OuterRef("contribution"), edition__lt=OuterRef("edition")
    )
    on_words = earlier.filter(photo__isnull=True, of_name=False)
    on_photo = earlier.filter(photo__public_id=OuterRef("photo_id_then"))
    of_photo = [what for what in OF_PHOTO if what not in OF_GARMENT]
    return Change.objects.filter(
        Q(Exists(on_words), what__in=OF_WORDS)
        | Q(Exists(on_photo), what__in=of_photo)
        | Q(Exists(earlier), what__in=OF_GARMENT),
        seen_at__isnull=True,
    )


def verdict_on(
    contribution: Contribution, photo: Photo | None, *, of_name: bool = False
) -> Verdict | None:
    """The newest verdict that covers one photo, the garment's words, or its name, as it is now."""
    newest = newest_verdict(contribution, photo, of_name=of_name)
    if newest is None:
        return None
    # Asked of the database: the row in hand may be older than the last change.
    if photo is not None:
        covered = Photo.objects.filter(pk=photo.pk, edition__lte=newest.edition)
        return newest if covered.exists() else None
    place = "name_edition" if of_name else "words_edition"
    same = Contribution.objects.filter(pk=contribution.pk, **{f"{place}__lte": newest.edition})
    return newest if same.exists() else None


def newest_verdict(
    contribution: Contribution, photo: Photo | None, *, of_name: bool = False
) -> Verdict | None:
    """The newest verdict on a thing, whatever was changed since."""
    about = Verdict.objects.filter(contribution=contribution, photo=photo, of_name=of_name)
    return about.order_by("-pk").first()


def _before(place: str) -> QuerySet[Verdict]:
    """Verdicts on anything of a garment, older than the edition that stands in that field."""
    return Verdict.objects.filter(contribution=OuterRef("pk"), edition__lt=OuterRef(place))
