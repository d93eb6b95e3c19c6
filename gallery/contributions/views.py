"""Doors of the knitter: the page on which a garment is sent, and the thanks afterwards."""

from django.conf import settings
from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect, QueryDict
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.gzip import gzip_page
from django.views.decorators.http import require_http_methods, require_safe

from gallery.access import keep_private
from gallery.contributions import again, arrivals, drafts, intake, keeping, rounds, suspicion
from gallery.contributions.arrivals import OK, Arrived, Arriving
from gallery.contributions.cutting import turn_on
from gallery.contributions.draft_links import NotPostedError, ask_for_link
from gallery.contributions.drafts import Draft
from gallery.contributions.framing import CannotFrameError
from gallery.contributions.intake import Coming
from gallery.contributions.links import garment_behind
from gallery.contributions.models import Photo
from gallery.contributions.page import closed_words, facts_of, is_open, reasons_not_to_send
from gallery.contributions.people.cares import addressed
from gallery.contributions.people.guardian import LIFE
from gallery.contributions.rounds import Round
from gallery.contributions.sending import EVERYTHING, NOTHING, NUMBERS, Sending, prefix_of
from gallery.contributions.tokens import link_token
from gallery.contributions.typed import MOVES, keep_what_was_said, put_in_order
from gallery.letters import address
from gallery.series.models import Series

CHECKED_BY = {"send": EVERYTHING, "work_out": NUMBERS, "look": EVERYTHING}
LEADS_TO = {"work_out": "#worked-out", "look": "#look"}
LEADS_TO |= {"post_link": "#you", "take_over": "#garment"}
LEADS_TO |= dict.fromkeys(("add", "take_out", "turn", *MOVES), "#pictures")


@require_http_methods(["GET", "HEAD", "POST"])
@gzip_page
def send(request: HttpRequest, slug: str) -> HttpResponse:
    """The sending page: one plain form; whatever was given stays until it is sent."""
    series = get_object_or_404(Series.objects.select_related("pattern_version"), slug=slug)
    if request.method == "POST":
        return _posted(request, series)
    draft = drafts.open_or_new(request, series)
    given = rounds.last(request, series) if "again" in request.GET else None
    if given is not None:
        return _page(request, _sending(series, draft, given), draft)
    if draft.row is None and not is_open(series):
        return _closed(request, series)
    sending = Sending(series, draft.row.typed if draft.row else {})
    sending.show_pictures(draft)
    return _page(request, sending, draft)


def _posted(request: HttpRequest, series: Series) -> HttpResponse:
    draft = drafts.of_form(request, series)
    if draft.is_sent:
        return _to_thanks(request, draft)
    if "take_over" in request.POST:
        _take_over(request, series)
    arrived = arrivals.take_in(draft, series, files_of(request), request.META["REMOTE_ADDR"])
    if arrived.draft.was_sent_meanwhile():  # by the first click of a double one
        return _to_thanks(request, arrived.draft)
    _change_pictures(request, arrived)
    given = _round(request, arrived)
    sending = _sending(series, arrived.draft, given)
    keep_what_was_said(sending, arrived.draft)
    if given.button == "send" and sending.is_valid():
        if not suspicion.is_stale(request.POST):
            return _send(request, sending, arrived.draft)
        messages.warning(
            request,
            _(
                "This page was open for more than a day. Please look it over and press “Send my "
                "garment” once more."
            ),
        )
    for words in arrived.told:
        messages.info(request, words)
    if "post_link" in request.POST:
        _post_link(request, arrived, sending)
    if "cut" in request.POST and arrived.draft.row is not None:
        return _to_cutting(request, series, arrived.draft, request.POST["cut"])
    return _again(request, sending, arrived, given)


def _take_over(request: HttpRequest, series: Series) -> None:
    """Fill in what was told of the last garment, as if it had been typed."""
    last = again.last_sent(request, series)
    if last is not None:
        wanted = tuple(name for name in request.POST.getlist("over") if name in again.NAMES)
        posted = request.POST.copy()
        for name, text in again.taken_over(last, wanted).items():
            posted[name] = text
        request.POST = posted  # type: ignore[assignment]


def _post_link(request: HttpRequest, arrived: Arrived, sending: Sending) -> None:
    """A link to go on elsewhere, to the address that was typed."""
    email = request.POST.get("email", "").strip()
    series, came_from = sending.series, request.META["REMOTE_ADDR"]
    try:
        ask_for_link(arrived.draft, series, email, came_from)
    except NotPostedError as reason:
        messages.warning(request, str(reason))
        return
    arrived.draft = drafts.of_form(request, series)
    keep_what_was_said(sending, arrived.draft)
    messages.success(
        request, _("A letter with a link is on its way to %(address)s.") % {"address": email}
    )


def _change_pictures(request: HttpRequest, arrived: Arrived) -> None:
    """What the small buttons beside the pictures ask for."""
    row = arrived.draft.row
    if row is None:
        return
    put_in_order(row, request.POST)
    if wanted := request.POST.get("take_out", ""):
        keeping.take_out(row, wanted)
    if photo := row.photos.filter(public_id=request.POST.get("turn", "")).first():
        try:
            turn_on(photo)
        except CannotFrameError as trouble:
            arrived.refused.append(str(trouble))


def _round(request: HttpRequest, arrived: Arrived) -> Round:
    buttons = (*CHECKED_BY, *LEADS_TO)
    return Round(
        posted=with_new_descriptions(request.POST, arrived),
        button=next((name for name in buttons if name in request.POST), ""),
        refused=tuple(arrived.refused),
    )


def _sending(series: Series, draft: Draft, given: Round) -> Sending:
    """The page of one round, with every mistake beside its field."""
    sending = Sending(series, {}, given.posted, CHECKED_BY.get(given.button, NOTHING))
    sending.show_pictures(draft)
    for sentence in given.refused:
        sending.pictures.add_error("pictures", sentence)
    if given.button in ("send", "look"):
        reasons_not_to_send(sending)
    if given.button in CHECKED_BY:
        sending.work_out()
    if given.button == "look":
        sending.look_over()
    return sending


def _send(request: HttpRequest, sending: Sending, draft: Draft) -> HttpResponse:
    if draft.row is None:  # cannot be: without a picture the form was refused
        raise Http404
    why = suspicion.suspicion(request.POST, request.META["REMOTE_ADDR"])
    coming = Coming(held_because=why)
    intake.take_in(draft.row, sending.garment_as_sent(), draft.token, coming)
    rounds.forget(request, sending.series)
    return _to_thanks(request, draft)


def _again(request: HttpRequest, sending: Sending, arrived: Arrived, given: Round) -> HttpResponse:
    """Show the page again: fetched afresh where that is possible, else as the direct answer."""
    draft, series = arrived.draft, sending.series
    if arrived.status != OK or not rounds.remember(request, series, given):
        return _page(request, sending, draft, arrived.status)
    place = LEADS_TO.get(given.button, "") if sending.is_valid() else ""
    answer = HttpResponseRedirect(f"{reverse('send', args=[series.slug])}?again=1{place}")
    answer.status_code = 303
    return keep_private(drafts.hand_over(request, answer, draft))


def _to_thanks(request: HttpRequest, draft: Draft) -> HttpResponse:
    answer = redirect("sent", slug=draft.row.series.slug if draft.row else "")
    answer.status_code = 303
    return keep_private(drafts.hand_over(request, answer, draft))


def _to_cutting(request: HttpRequest, series: Series, draft: Draft, public_id: str) -> HttpResponse:
    if draft.row is None or not draft.row.photos.filter(public_id=public_id).exists():
        raise Http404
    answer = redirect("cut_picture", slug=series.slug, public_id=public_id)
    answer.status_code = 303
    return keep_private(drafts.hand_over(request, answer, draft))


def _closed(request: HttpRequest, series: Series) -> HttpResponse:
    facts = {
        "series": series,
        "opens_later": timezone.localdate() < series.opens_on,
        "closed_words": closed_words(series),
    }
    return render(request, "contributions/closed.html", facts)


def _page(request: HttpRequest, sending: Sending, draft: Draft, status: int = OK) -> HttpResponse:
    facts = facts_of(request, sending, draft)
    answer = render(request, "contributions/send.html", facts, status=status)
    # Not "no-store": the browser's back button should bring back what was typed.
    answer["Cache-Control"] = "private, no-cache"
    return drafts.hand_over(request, answer, draft)


def files_of(request: HttpRequest) -> list[Arriving]:
    """The files of the form, each with its description where one was typed before sending."""
    files = request.FILES.getlist("pictures")
    said = request.POST.getlist("new_description")
    stages = request.POST.getlist("new_stage")
    people = request.POST.getlist("new_people")
    if len(people) != len(files):
        people = [Photo.People.UNSAID] * len(files)
    if not len(files) == len(said) == len(stages):
        return [Arriving(file, people=one) for file, one in zip(files, people, strict=True)]
    return [Arriving(*one) for one in zip(files, said, stages, people, strict=True)]


def with_new_descriptions(posted: QueryDict, arrived: Arrived) -> QueryDict:
    """What was posted, with the words about new pictures set where those of kept ones stand."""
    said = posted.copy()
    for photo, file in arrived.kept:
        said[f"{prefix_of(photo)}-description"] = file.description
        said[f"{prefix_of(photo)}-stage"] = file.stage
        said[f"{prefix_of(photo)}-people"] = file.people
    return said


@require_safe
def sent(request: HttpRequest, slug: str) -> HttpResponse:
    """Thanks, and the private link; shown only to the browser that sent the garment."""
    series = get_object_or_404(Series, slug=slug)
    draft = drafts.of_browser(request, series)
    if draft is None or draft.row is None or not draft.is_sent:
        raise Http404
    token = link_token(draft.token)
    is_good = garment_behind(token) == draft.row
    facts = {
        "series": series,
        "garment": draft.row,
        "posts_letters": settings.POSTS_LETTERS,
        "guardians": sorted({one for one, care in addressed(draft.row) if care.is_open}),
        "guardian_days": LIFE.days,
        "link": address(reverse("private_link", args=[token])) if is_good else "",
    }
    return keep_private(render(request, "contributions/sent.html", facts))
