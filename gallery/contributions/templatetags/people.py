"""How it stands with the people in a picture, for the sender's private page."""

from typing import Any

from django import template

from gallery.contributions.models import Contribution, Photo
from gallery.contributions.people.standing import standing_of, standing_of_garment

register = template.Library()


@register.inclusion_tag("contributions/people_state.html")
def people_of(photo: Photo) -> dict[str, Any]:
    """One line about the people in a photo, and the way to the open question if there is one."""
    return {"standing": standing_of(photo), "garment": photo.contribution}


@register.inclusion_tag("contributions/people_state.html")
def guardian_of(garment: Contribution) -> dict[str, Any]:
    """One line about a young sender's guardian; nothing for a grown-up."""
    return {"standing": standing_of_garment(garment), "garment": garment}
