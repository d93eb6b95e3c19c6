"""A picture is turned a quarter at a time, and cut on a page of its own, before it is sent."""

import tempfile
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from django.conf import settings
from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods, require_safe

from gallery.access import keep_private
from gallery.contributions import drafts
from gallery.contributions.fields import NumberField
from gallery.contributions.forms import SendingForm
from gallery.contributions.framing import CannotFrameError, frame
from gallery.contributions.models import Photo
from gallery.contributions.photos.framing import WHOLE, Framing
from gallery.contributions.photos.safely import PictureRefused, remake_safely
from gallery.contributions.pictures import original_path
from gallery.series.models import Series

QUARTER = 90
MOST_PERCENT = "95"
SIDES = ("left", "top", "right", "bottom")


def turn_on(photo: Photo) -> None:
    """Turn a picture a quarter further, clockwise, its cut with it; raises CannotFrameError."""
    frame(photo, turned_on(photo), turned_cut(photo.crop))


def turned_on(photo: Photo) -> int:
    """Degrees clockwise after one more quarter."""
    return (photo.turn + QUARTER) % 360


def turned_cut(cut: Sequence[int]) -> list[int]:
    """The same cut after a quarter turn clockwise: what was the bottom is now on the left."""
    if not cut:
        return []
    left, top, right, bottom = cut
    return [WHOLE - bottom, left, WHOLE - top, right]


@dataclass(frozen=True)
class Cutting:
    """One picture on the page: where its whole is shown, where one goes back to, the deed."""

    photo: Photo
    whole: str
    back: str
    deed: Callable[[Photo, int, Sequence[int]], None]


def _side(label: Any) -> NumberField:
    return NumberField(label=label, example="10", least="0", most=MOST_PERCENT, places=1)


class CutForm(SendingForm):
    """How much is cut away on each side, in percent of the picture as it is turned now."""

    left = _side(gettext_lazy("From the left, in %"))
    top = _side(gettext_lazy("From the top, in %"))
    right = _side(gettext_lazy("From the right, in %"))
    bottom = _side(gettext_lazy("From the bottom, in %"))

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        for one, other in (("left", "right"), ("top", "bottom")):
            both = (cleaned.get(one) or 0) + (cleaned.get(other) or 0)
            if both >= 100:
                self.add_error(other, _("Together with the side across nothing would be left."))
        return cleaned

    @property
    def cut(self) -> list[int]:
        """Left, top, right, bottom in ten-thousandths; empty where nothing is cut away."""
        away = {side: round((self.cleaned_data[side] or 0) * 100) for side in SIDES}
        if not any(away.values()):
            return []
        return [away["left"], away["top"], WHOLE - away["right"], WHOLE - away["bottom"]]


def percents(cut: Sequence[int]) -> dict[str, str]:
    """A kept cut as the texts of the form's fields."""
    if not cut:
        return {}
    left, top, right, bottom = cut
    away = dict(zip(SIDES, (left, top, WHOLE - right, WHOLE - bottom), strict=True))
    return {side: f"{hundredths / 100:g}" for side, hundredths in away.items() if hundredths}


@require_http_methods(["GET", "HEAD", "POST"])
def cut_picture(request: HttpRequest, slug: str, public_id: str) -> HttpResponse:
    """The page on which a picture of a draft is cut; the whole of it is always there again."""
    photo = _own_photo(request, get_object_or_404(Series, slug=slug), public_id)
    cutting = Cutting(
        photo,
        whole=reverse("whole_picture", args=[slug, public_id]),
        back=f"{reverse('send', args=[slug])}?again=1#picture-{public_id}",
        deed=frame,
    )
    return cutting_page(request, cutting)


def cutting_page(request: HttpRequest, cutting: Cutting) -> HttpResponse:
    """The page for one picture, of a draft or of a garment that was sent."""
    form = CutForm(request.POST or None, initial=percents(cutting.photo.crop))
    if request.method == "POST" and _was_framed(request, cutting, form):
        return redirect(request.path if "turn" in request.POST else cutting.back)
    facts = {"form": form, "cutting": cutting}
    return keep_private(render(request, "contributions/cut.html", facts))


def _was_framed(request: HttpRequest, cutting: Cutting, form: CutForm) -> bool:
    photo = cutting.photo
    turn, cut, words = photo.turn, [], _("The picture is whole again.")
    if "turn" in request.POST:
        turn, cut, words = turned_on(photo), turned_cut(photo.crop), _("The picture is turned.")
    elif "whole" not in request.POST:
        if not form.is_valid():
            return False
        cut, words = form.cut, _("The picture is cut.")
    try:
        cutting.deed(photo, turn, cut)
    except CannotFrameError as trouble:
        form.add_error(None, str(trouble))
        return False
    messages.success(request, words)
    return True


@require_safe
def whole_picture(request: HttpRequest, slug: str, public_id: str) -> HttpResponse:
    """The picture as it is turned, without its cut, for the page on which it is cut."""
    photo = _own_photo(request, get_object_or_404(Series, slug=slug), public_id)
    return whole_answer(photo)


def whole_answer(photo: Photo) -> HttpResponse:
    """The whole picture as it is turned, made anew from its pixels."""
    return keep_private(HttpResponse(_whole(photo), content_type="image/jpeg"))


def _whole(photo: Photo) -> bytes:
    with tempfile.TemporaryDirectory(dir=settings.FILE_UPLOAD_TEMP_DIR) as folder:
        try:
            (made,) = remake_safely(
                original_path(photo), Path(folder), {"whole": 1000}, Framing(photo.turn)
            )
            return made.path.read_bytes()
        except (PictureRefused, OSError) as trouble:
            raise Http404 from trouble


def _own_photo(request: HttpRequest, series: Series, public_id: str) -> Photo:
    draft = drafts.of_browser(request, series)
    if draft is None or draft.row is None or draft.is_sent:
        raise Http404
    return get_object_or_404(draft.row.photos, public_id=public_id)
