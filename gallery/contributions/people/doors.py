"""Doors of a parent or guardian: the link of her own, what she is asked, her yes or no."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from gallery.access import keep_private
from gallery.contributions.models import Contribution, Photo, PrivateLink
from gallery.contributions.people import guardian
from gallery.contributions.people.cares import cares_of
from gallery.contributions.people.table import as_asked

_CARES_FOR = "cares_for"
_MOST = 20
ANSWERS = {"yes": True, "no": False}


@require_safe
def guardian_link(request: HttpRequest, token: str) -> HttpResponse:
    """Open what a guardian's link is about; following it changes nothing that is kept."""
    link = guardian.link_behind(token)
    if link is None:
        raise Http404
    _remember(request, link)
    answer = redirect("guardian", public_id=link.contribution.public_id)
    answer.status_code = 303
    answer["Referrer-Policy"] = "no-referrer"  # this address holds the token
    return keep_private(answer)


@require_http_methods(["GET", "HEAD", "POST"])
def guardians_page(request: HttpRequest, public_id: str) -> HttpResponse:
    """The pictures and the exact questions; each thing is answered by a button of its own."""
    link = _link(request, public_id)
    if request.method == "POST":
        return _answered(request, link)
    facts = {
        "garment": link.contribution,
        "series": link.contribution.series,
        "things": [as_asked(care) for care in cares_of(link)],
    }
    return keep_private(render(request, "contributions/guardian.html", facts))


def may_see(request: HttpRequest, photo: Photo) -> bool:
    """Whether this browser belongs to a guardian who is asked about that photo."""
    if _CARES_FOR not in request.session:
        return False
    pk = request.session[_CARES_FOR].get(photo.contribution.public_id, 0)
    link = guardian.good_link(pk, photo.contribution.public_id)
    if link is None:
        return False
    things = [care.photo for care in cares_of(link)]
    return None in things or photo in things


def _answered(request: HttpRequest, link: PrivateLink) -> HttpResponse:
    is_yes = ANSWERS.get(request.POST.get("answer", ""))
    if is_yes is None:
        messages.warning(request, _("Please press one of the two buttons: yes or no."))
        return _back(link.contribution)
    # The answer is to the questions this page showed, and to no other.
    said = dict.fromkeys(request.POST.getlist("asked"), is_yes)
    about, edition = request.POST.get("about", ""), request.POST.get("edition", "")
    seen = int(edition) if edition.isascii() and edition.isdecimal() and len(edition) < 10 else None
    if not guardian.answer(link, about, said, seen):
        words = _("Something has changed meanwhile. Please look at it and answer again.")
        messages.warning(request, words)
        return _back(link.contribution)
    words = _("Kept: yes. Thank you.") if is_yes else _("Kept: no. It is not used.")
    messages.success(request, words)
    return _back(link.contribution)


def _back(garment: Contribution) -> HttpResponse:
    answer = redirect("guardian", public_id=garment.public_id)
    answer.status_code = 303
    return keep_private(answer)


def _remember(request: HttpRequest, link: PrivateLink) -> None:
    """Bind this browser's session to one guardian's link; it is looked up anew each time."""
    if _CARES_FOR not in request.session:
        request.session.cycle_key()  # nobody else may have planted this session's key
    others = dict(request.session.get(_CARES_FOR, {}))
    others.pop(link.contribution.public_id, None)
    kept = [*others.items(), (link.contribution.public_id, link.pk)][-_MOST:]
    request.session[_CARES_FOR] = dict(kept)


def _link(request: HttpRequest, public_id: str) -> PrivateLink:
    pk = request.session.get(_CARES_FOR, {}).get(public_id, 0)
    link = guardian.good_link(pk, public_id)
    if link is None:
        raise Http404
    return link
