"""How a garment stands, worked out from what was decided and what is still allowed."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from django.db.models import QuerySet
from django.utils.translation import gettext as _

from gallery.consent import gate
from gallery.consent.models import Entry
from gallery.consent.purposes import PURPOSES
from gallery.contributions.models import Contribution
from gallery.review.models import Verdict
from gallery.review.standing import changes_to_look_at, judged_photos, judged_words

APPROVE, ASK, DECLINE = Verdict.Decision


class State(StrEnum):
    """Where a garment stands as a whole."""

    CHANGED = "changed"
    WAITING = "waiting"
    PARTLY = "partly"
    APPROVED = "approved"
    ASKED = "asked"
    DECLINED = "declined"
    TAKEN_BACK = "withdrawn"


@dataclass(frozen=True)
class Standing:
    """The newest decision on each photo and on the words (None: nothing yet), and its state."""

    decisions: Sequence[str | None]
    is_taken_back: bool = False
    is_changed: bool = False

    @property
    def waiting(self) -> int:
        """How many photos and words wait; none where nothing is allowed any more."""
        return 0 if self.is_taken_back else list(self.decisions).count(None)

    @property
    def state(self) -> State:
        """Taken back, then changed, then undecided, then asked; one approval outweighs what was
        declined."""
        if self.is_taken_back:
            return State.TAKEN_BACK
        if self.is_changed:
            return State.CHANGED
        if None in self.decisions:
            return State.PARTLY if any(self.decisions) else State.WAITING
        if ASK in self.decisions:
            return State.ASKED
        return State.APPROVED if APPROVE in self.decisions else State.DECLINED

    @property
    def sign(self) -> str:
        """The sign in parts/state.html: what is half decided or changed still waits."""
        still_waits = self.state in (State.PARTLY, State.CHANGED)
        return State.WAITING if still_waits else self.state

    @property
    def words(self) -> str:
        """The state as the teacher reads it."""
        if self.state is State.APPROVED and DECLINE in self.decisions:
            return _("Approved in part")
        return {
            State.CHANGED: _("Changed since you looked"),
            State.WAITING: _("Waits for you"),
            State.PARTLY: _("Partly decided"),
            State.APPROVED: _("Approved"),
            State.ASKED: _("You asked its knitter"),
            State.DECLINED: _("Declined"),
            State.TAKEN_BACK: _("Nothing of it is allowed any more"),
        }[self.state]


def standings_of(garments: QuerySet[Contribution]) -> dict[int, Standing]:
    """How each of these sent garments stands, by its key, oldest first."""
    decisions: defaultdict[int, list[str | None]] = defaultdict(list)
    photos = judged_photos().filter(contribution__in=garments.order_by())
    for garment, verdict in photos.values_list("contribution", "verdict"):
        decisions[garment].append(verdict)
    words = judged_words().filter(pk__in=garments.order_by()).order_by("sent_at", "pk")
    taken_back = _taken_back(garments)
    looked_at = changes_to_look_at().filter(contribution__in=garments.order_by())
    changed = set(looked_at.values_list("contribution", flat=True))
    return {
        key: Standing((*decisions[key], verdict), key in taken_back, key in changed)
        for key, verdict in words.values_list("pk", "verdict")
    }


def _taken_back(garments: QuerySet[Contribution]) -> set[int]:
    """Garments of which something was withdrawn and nothing is allowed any more.

    A garment whose knitter never allowed anything is not among them: it was sent for the
    teacher's eyes, and may get her answer.
    """
    withdrawn = Entry.objects.filter(answer=Entry.Answer.WITHDRAWN).values("agreement")
    left = garments.order_by().filter(agreement__in=withdrawn)
    for purpose in PURPOSES:
        left = left.exclude(agreement__in=gate.agreements_allowing(purpose))
    return set(left.values_list("pk", flat=True))
