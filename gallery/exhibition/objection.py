"""Door for somebody who finds herself in a public picture: one button hides it at once."""

from dataclasses import replace

from django import forms
from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods

from gallery.access import keep_private
from gallery.contributions.forms import SendingForm
from gallery.contributions.limits import may_object
from gallery.contributions.models import Photo
from gallery.contributions.people.objecting import object_to
from gallery.contributions.shown import ShownPicture, neutral_alt, small
from gallery.contributions.writing import refuse_control_in_lines
from gallery.exhibition.showing import known_photos, may_show_photo
from gallery.review.standing import described_photos

TOO_MANY = 429


class ObjectionForm(SendingForm):
    """One field, which may stay empty."""

    words = forms.CharField(
        label=gettext_lazy("Anything the teacher should know"),
        required=False,
        max_length=2000,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text=gettext_lazy("May be left empty. Only the teacher reads it."),
        validators=[refuse_control_in_lines],
        error_messages={
            "max_length": gettext_lazy("Please keep your words to %(limit_value)d letters.")
        },
    )


@require_http_methods(["GET", "HEAD", "POST"])
def objection(request: HttpRequest, public_id: str) -> HttpResponse:
    """The question, and after the button the one answer, whether it was hidden already or not."""
    photos = known_photos().select_related("contribution__series")
    photo = get_object_or_404(photos.prefetch_related("renditions"), public_id=public_id)
    if request.method != "POST":
        return _page(request, photo, ObjectionForm())
    form = ObjectionForm(request.POST)
    if not form.is_valid():
        return _page(request, photo, form)
    if not may_object(request.META["REMOTE_ADDR"]):
        return _page(request, photo, form, has_sent_many=True, status=TOO_MANY)
    object_to(photo, form.cleaned_data["words"])
    return keep_private(render(request, "exhibition/objected.html", _facts(photo)))


def _page(
    request: HttpRequest,
    photo: Photo,
    form: ObjectionForm,
    *,
    has_sent_many: bool = False,
    status: int = 200,
) -> HttpResponse:
    facts = {
        **_facts(photo),
        "form": form,
        # A hidden picture is not shown here either: whoever opens this page may be anybody.
        "picture": _picture(photo) if may_show_photo(photo) else None,
        "has_sent_many": has_sent_many,
        "contact_email": settings.CONTACT_EMAIL,
    }
    return keep_private(render(request, "exhibition/objection.html", facts, status=status))


def _picture(photo: Photo) -> ShownPicture:
    is_described = described_photos().filter(pk=photo.pk).exists()
    return small(photo) if is_described else replace(small(photo), alt=neutral_alt(photo))


def _facts(photo: Photo) -> dict[str, object]:
    return {"photo": photo, "series": photo.contribution.series}
