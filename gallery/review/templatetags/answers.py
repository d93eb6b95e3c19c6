"""The teacher's answer on one photo, for the sender's private page."""

from typing import Any

from django import template

from gallery.contributions.models import Photo
from gallery.review.models import Verdict
from gallery.review.standing import verdict_on

register = template.Library()
STATES = {
    Verdict.Decision.APPROVE: "approved",
    Verdict.Decision.ASK: "asked",
    Verdict.Decision.DECLINE: "declined",
}


@register.inclusion_tag("review/answer.html")
def answer_on(photo: Photo) -> dict[str, Any]:
    """State and note of the newest verdict; waiting where there is none."""
    verdict = verdict_on(photo.contribution, photo)
    if verdict is None:
        return {"state": "waiting", "note": ""}
    return {"state": STATES[Verdict.Decision(verdict.decision)], "note": verdict.note}
