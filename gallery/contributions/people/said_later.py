"""The sender's page about the people in her pictures: what is still open, and who is waited for."""

from dataclasses import dataclass

from django.conf import settings
from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from gallery.access import keep_private
from gallery.contributions.keeping import kept_photos
from gallery.contributions.models import Contribution, Photo
from gallery.contributions.own import own_garment
from gallery.contributions.people import guardian
from gallery.contributions.people.forms import AddressForm, PeopleForm
from gallery.contributions.people.said import is_complete, said_of
from gallery.contributions.people.say import say
from gallery.contributions.people.standing import (
    GUARDIAN,
    Standing,
    standing_of,
    standing_of_garment,
)
from gallery.contributions.shown import ShownPicture, small


@dataclass(frozen=True)
class Row:
    """One photo of the page: how it stands, and the form where something is open."""

    photo: Photo
    shown: ShownPicture
    standing: Standing
    form: PeopleForm | None
    may_ask_again: bool


@require_http_methods(["GET", "HEAD", "POST"])
def say_people(request: HttpRequest, public_id: str) -> HttpResponse:
    """Answer what was left open about a picture, or have a guardian written to again."""
    garment = own_garment(request, public_id)
    if request.method == "POST":
        return _posted(request, garment)
    return _page(request, garment, None)


def _posted(request: HttpRequest, garment: Contribution) -> HttpResponse:
    if "again" in request.POST:
        return _ask_again(request, garment)
    if "correct" in request.POST:
        return _correct(request, garment)
    photo = garment.photos.filter(public_id=request.POST.get("photo", "")).first()
    if photo is None or is_complete(photo):
        raise Http404
    form = PeopleForm(request.POST, prefix=photo.public_id)
    form.is_valid()
    form.require_answers(sender_is_younger=garment.is_younger)
    if form.errors:
        return _page(request, garment, (photo, form))
    say(garment, photo, form.said)
    messages.success(request, _("Kept. Thank you."))
    return _back(garment)


def _ask_again(request: HttpRequest, garment: Contribution) -> HttpResponse:
    address = guardian.address_for(garment, request.POST["again"])
    if not address:
        raise Http404
    if not settings.POSTS_LETTERS:
        messages.warning(request, _no_letters())
        return _back(garment)
    if guardian.letters_since(garment, address, timezone.now() - guardian.AT_MOST_EVERY):
        words = _("A letter left within the last hour. Please give it a little time.")
        messages.warning(request, words)
        return _back(garment)
    guardian.ask(garment, address)
    messages.success(request, _("A new letter is on its way."))
    return _back(garment)


def _correct(request: HttpRequest, garment: Contribution) -> HttpResponse:
    """Ask at another address, while nobody has answered at the old one."""
    about = request.POST["correct"]
    if not guardian.address_for(garment, about):
        raise Http404
    form = AddressForm(request.POST)
    if not form.is_valid():
        messages.warning(request, str(form.errors.as_data()["guardian_email"][0].message))
    elif form.cleaned_data["guardian_email"] == garment.email.lower():
        words = _("This is your own address. Please give the parent's or guardian's.")
        messages.warning(request, words)
    else:
        _keep_address(request, garment, about, form.cleaned_data["guardian_email"])
    return _back(garment)


def _keep_address(request: HttpRequest, garment: Contribution, about: str, address: str) -> None:
    try:
        is_kept = guardian.correct_address(garment, about, address)
    except guardian.TooManyCorrectionsError:
        words = _(
            "Other addresses were given several times today, so this one was not kept. Please "
            "check it with them, and give it again tomorrow."
        )
        messages.warning(request, words)
        return
    if not is_kept:
        messages.info(request, _("They have answered already, so the address stays."))
    elif settings.POSTS_LETTERS:
        messages.success(request, _("Kept. A letter is on its way to the new address."))
    else:
        messages.warning(request, _("The address is kept.") + " " + _no_letters())


def _no_letters() -> str:
    return _("This site cannot send letters at the moment. Please have it written again later.")


def _page(
    request: HttpRequest, garment: Contribution, came_back: tuple[Photo, PeopleForm] | None
) -> HttpResponse:
    rows = [_row(photo, came_back) for photo in kept_photos(garment)]
    facts = {
        "garment": garment,
        "rows": rows,
        "garment_standing": standing_of_garment(garment),
        "came_back": came_back[1] if came_back else None,
        "posts_letters": settings.POSTS_LETTERS,
    }
    return keep_private(render(request, "contributions/people.html", facts))


def _row(photo: Photo, came_back: tuple[Photo, PeopleForm] | None) -> Row:
    form = None
    if came_back and came_back[0] == photo:
        form = came_back[1]
    elif not is_complete(photo):
        form = PeopleForm(prefix=photo.public_id, initial=said_of(photo).facts)
    standing = standing_of(photo)
    is_waiting = standing.for_whom == GUARDIAN and bool(photo.guardian_email)
    return Row(photo, small(photo), standing, form, is_waiting)


def _back(garment: Contribution) -> HttpResponse:
    answer = redirect("say_people", public_id=garment.public_id)
    answer.status_code = 303
    return keep_private(answer)
