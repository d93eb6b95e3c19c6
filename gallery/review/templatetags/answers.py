"""The teacher's answers, for the sender's private page."""

from typing import Any

from django import template

from gallery.contributions.models import Contribution, Photo
from gallery.review.models import Verdict
from gallery.review.standing import garments_with_new_names, verdict_on

register = template.Library()
STATES = {
    Verdict.Decision.APPROVE: "approved",
    Verdict.Decision.ASK: "asked",
    Verdict.Decision.DECLINE: "declined",
}


@register.inclusion_tag("review/answer.html")
def answer_on(photo: Photo) -> dict[str, Any]:
    """State and note of the newest verdict on a photo; waiting where there is none."""
    return _answer(verdict_on(photo.contribution, photo))


@register.inclusion_tag("review/answer.html")
def answer_on_words(garment: Contribution) -> dict[str, Any]:
    """State and note of the newest verdict on a garment's words and numbers."""
    return _answer(verdict_on(garment, None))


@register.inclusion_tag("review/answer_on_name.html")
def answer_on_name(garment: Contribution) -> dict[str, Any]:
    """State and note of the verdict on a name that was changed; nothing where none is needed."""
    verdict = verdict_on(garment, None, of_name=True)
    waits = garments_with_new_names().filter(pk=garment.pk).exists()
    return {"is_new": waits or verdict is not None, **_answer(verdict)}


def _answer(verdict: Verdict | None) -> dict[str, Any]:
    if verdict is None:
        return {"state": "waiting", "note": ""}
    return {"state": STATES[Verdict.Decision(verdict.decision)], "note": verdict.note}
