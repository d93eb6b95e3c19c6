"""How a garment behaved, as a small table of what was told."""

from typing import Any

from django import template

from alterations.wear import Wear
from gallery.contributions.garment_told import wear_rows

register = template.Library()


@register.inclusion_tag("contributions/behaved.html")
def behaved(wear: Wear) -> dict[str, Any]:
    """Only what was told; nothing at all where nothing was."""
    return {"rows": wear_rows(wear)}
