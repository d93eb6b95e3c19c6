"""The lines of a garment's history, for its sender's page and for the desk."""

from typing import Any

from django import template

from gallery.contributions.models import Contribution
from gallery.review.standing import changes_to_look_at

register = template.Library()


@register.inclusion_tag("review/history.html")
def history_of(garment: Contribution) -> dict[str, Any]:
    """What was changed after sending, the newest first, and what the teacher still has to see."""
    waiting = set(changes_to_look_at().filter(contribution=garment).values_list("pk", flat=True))
    lines = [(line, line.pk in waiting) for line in garment.history.order_by("-pk")]
    return {"lines": lines}
