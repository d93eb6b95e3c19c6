"""How it stands with the people in one picture, in words for its sender and for the teacher."""

from dataclasses import dataclass

from django.conf import settings
from django.utils.translation import gettext as _

from gallery.contributions.models import Contribution, Objection, Photo
from gallery.contributions.people.cares import Care, care_of
from gallery.contributions.people.said import is_complete

YES, NO, WAITING, WITHDRAWN = "yes", "no", "waiting", "withdrawn"


@dataclass(frozen=True)
class Standing:
    """A sign of parts/state.html with words; `for_whom` says who has to do the next thing."""

    sign: str
    words: str
    for_whom: str = ""


SENDER, TEACHER, GUARDIAN = "sender", "teacher", "guardian"


def standing_of(photo: Photo) -> Standing:
    """An objection first, then the people in the picture."""
    hiding = photo.objections.exclude(upheld=False)
    if hiding.filter(upheld=True).exists():
        return Standing(NO, _("Hidden for good: somebody in it objected"))
    if hiding.exists():
        return Standing(WAITING, _("Hidden: somebody says it shows them"), TEACHER)
    return _of_people(photo)


def _of_people(photo: Photo) -> Standing:
    words = Photo.People(photo.people).label
    if not is_complete(photo):
        return Standing(WAITING, _("Not said yet who can be recognised in it"), SENDER)
    if photo.people == Photo.People.OTHERS and photo.people_seen_at is None:
        return Standing(WAITING, _("Other grown-ups, who agree, says its sender"), TEACHER)
    if photo.people == Photo.People.OTHERS:
        return Standing(YES, _("Other grown-ups, who agree; the teacher has seen it"))
    if photo.people == Photo.People.CHILD:
        return _of_care(care_of(photo.contribution, photo), _("A child"))
    return Standing(YES, _("In it: %(who)s") % {"who": words})


def standing_of_garment(garment: Contribution) -> Standing | None:
    """How it stands with the guardian of a young sender; None for a grown-up one."""
    if not garment.is_younger:
        return None
    return _of_care(care_of(garment, None), _("A young sender"))


def _of_care(care: Care, who: str) -> Standing:
    if care.is_refused:
        return Standing(NO, _("%(who)s; the parent or guardian said no") % {"who": who})
    if care.questions and care.is_confirmed:
        return Standing(YES, _("%(who)s; the parent or guardian agreed") % {"who": who})
    words = _("%(who)s; waits for the parent or guardian") % {"who": who}
    if not settings.POSTS_LETTERS:
        words = _("%(waits)s, whom this site cannot write to at the moment") % {"waits": words}
    return Standing(WAITING, words, GUARDIAN)


def open_objections(photo: Photo) -> list[Objection]:
    """Objections nobody has looked at yet, the oldest first."""
    return list(photo.objections.filter(resolved_at__isnull=True))
