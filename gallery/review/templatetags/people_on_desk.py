"""The people in the pictures, for the desk: beside each photo, and what waits on top."""

from typing import Any

from django import template
from django.template.context import RequestContext

from gallery.contributions.models import Photo
from gallery.contributions.people.standing import (
    TEACHER,
    open_objections,
    standing_of,
    standing_of_garment,
)
from gallery.contributions.shown import small
from gallery.review.people import waiting_objections

register = template.Library()


@register.inclusion_tag("review/people.html", takes_context=True)
def people_on_desk(context: RequestContext, photo: Photo) -> dict[str, Any]:
    """How it stands with the people in a photo, with the buttons the teacher has."""
    objections = open_objections(photo)
    standing = standing_of(photo)
    waits_for_seen = not objections and standing.for_whom == TEACHER
    return {
        "photo": photo,
        "garment": photo.contribution,
        "standing": standing,
        "of_garment": standing_of_garment(photo.contribution),
        "objections": objections,
        "newest": objections[-1].pk if objections else 0,
        "waits_for_seen": waits_for_seen,
        "csrf_token": context.get("csrf_token"),
    }


@register.inclusion_tag("review/objections.html", takes_context=True)
def objections_on_desk(context: RequestContext) -> dict[str, Any]:
    """Photos that somebody objected to, for the top of the desk."""
    waiting = waiting_objections(context["request"].user)
    return {"waiting": [(one, small(one.photo)) for one in waiting]}
