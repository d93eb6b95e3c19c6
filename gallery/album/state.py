"""Where a render stands, worked out from its dates."""

import datetime
from dataclasses import dataclass

from django.utils import timezone
from django.utils.translation import gettext as _

from gallery.album.models import Render

STILL_AFTER = datetime.timedelta(seconds=45)  # one part takes some seconds
SILENT_AFTER = datetime.timedelta(minutes=4)  # longer than the queue takes to try again


@dataclass(frozen=True)
class Standing:
    """One word for the page's sign, a sentence, and whether it is still going on."""

    sign: str
    words: str
    is_going_on: bool = False
    may_go_on: bool = False


def standing_of(wish: Render) -> Standing:
    """What to tell the teacher about a render."""
    if hasattr(wish, "film"):
        return Standing("done", _("The film is ready."))
    if wish.failed_at:
        return Standing("failed", wish.trouble, may_go_on=True)
    if wish.cancelled_at:
        return Standing("withdrawn", _("Stopped. What was made is kept."), may_go_on=True)
    silence = _silence(wish)
    silent = silence > SILENT_AFTER
    if silent:
        words = _("Nobody has worked at it for some minutes. It may be taken up by hand.")
    elif wish.started_at is None:
        words = _("Waiting for its turn.")
    else:
        words = _progress(wish, silence)
    sign = "waiting" if silent or wish.started_at is None else "making"
    return Standing(sign, words, is_going_on=True, may_go_on=silent)


def _silence(wish: Render) -> datetime.timedelta:
    """How long nobody has worked at it."""
    return timezone.now() - (wish.touched_at or wish.started_at or wish.requested_at)


def _progress(wish: Render, silence: datetime.timedelta) -> str:
    if wish.parts_total and wish.parts_done >= wish.parts_total:
        return _("Every part is made; the film is joined and read back.")
    words = _("Part %(done)s of %(total)s") % {
        "done": wish.parts_done,
        "total": wish.parts_total,
    }
    if silence > STILL_AFTER:
        again = _("the work broke off; it is taken up again by itself within three minutes")
        return f"{words}, {again}"
    left = seconds_left(wish)
    return f"{words}, {in_words(left)}" if left is not None else words


def seconds_left(wish: Render) -> float | None:
    """A guess from the parts made in this run; None while there is nothing to go by."""
    made = wish.parts_done - wish.parts_found
    if not (wish.started_at and wish.touched_at and made > 0):
        return None
    gone = (wish.touched_at - wish.started_at).total_seconds()
    return gone / made * (wish.parts_total - wish.parts_done)


def in_words(seconds: float) -> str:
    """About how long: in minutes, or less than one."""
    minutes = round(seconds / 60)
    if minutes < 1:
        return _("less than a minute to go")
    return _("about %(minutes)s min to go") % {"minutes": minutes}
