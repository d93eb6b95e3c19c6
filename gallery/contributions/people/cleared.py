"""Which photos and garments the people in them, guardians and objectors leave free to be used.

The one place for it: everything public asks here besides the ledger and the desk.
"""

from django.db.models import Exists, F, OuterRef, Q, QuerySet, Subquery, Value
from django.db.models.functions import Coalesce

from gallery.contributions.models import Contribution, GuardianAnswer, Objection, Photo

People = Photo.People


def cleared_garments(purpose: str) -> QuerySet[Contribution]:
    """Garments whose sender is old enough, or whose guardian said yes to that purpose.

    A guardian's yes is to what she saw: with something added to it, it counts no more.
    """
    seen = Coalesce(_guardians_answer(purpose, "edition"), Value(1))
    return Contribution.objects.annotate(
        guardian=_guardians_answer(purpose), guardian_saw=seen
    ).filter(Q(is_younger=False) | Q(guardian=True, guardian_saw__gte=F("guardian_edition")))


def cleared_photos(purpose: str) -> QuerySet[Photo]:
    """Photos that may be used for a purpose as far as the people in them are concerned.

    Nobody or the sender herself; other grown-ups once the teacher has seen that they agree; a
    child once a guardian said yes. Never one whose question is open, and none objected to.
    """
    return cleared_but_for_objections(purpose).filter(~Exists(_hiding()))


def cleared_but_for_objections(purpose: str) -> QuerySet[Photo]:
    """As above, with those that an objection hides: only to answer a second objection alike."""
    alone = Q(people__in=(People.NOBODY, People.ME))
    others = Q(people=People.OTHERS, others_agree=True, people_seen_at__isnull=False)
    child = Q(people=People.CHILD, guardian=True)
    return Photo.objects.annotate(guardian=_guardians_answer(purpose)).filter(
        alone | others | child,
        contribution__in=cleared_garments(purpose).values("pk"),
    )


def _hiding() -> QuerySet[Objection]:
    """Objections that hide the photo: not looked at yet, or upheld."""
    return Objection.objects.filter(photo=OuterRef("pk")).exclude(upheld=False)


def _guardians_answer(purpose: str, what: str = "is_yes") -> Subquery:
    """The newest answer of a guardian about a thing; None where none was given."""
    newest = GuardianAnswer.objects.filter(about=OuterRef("public_id"), purpose=purpose)
    return Subquery(newest.order_by("-pk").values(what)[:1])
