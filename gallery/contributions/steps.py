"""The door at which a step of the sending page asks whether it is good; what is typed is kept."""

from collections.abc import Iterator
from dataclasses import dataclass

from django.forms import BoundField, Form
from django.forms.utils import ErrorList
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import get_object_or_404
from django.template.loader import render_to_string
from django.urls import reverse
from django.views.decorators.http import require_POST

from gallery.access import keep_private
from gallery.contributions import drafts
from gallery.contributions.drafts import Draft
from gallery.contributions.page import facts_of, reasons_not_to_send
from gallery.contributions.sending import EVERYTHING, NOTHING, NUMBERS, Sending
from gallery.contributions.typed import keep_what_was_said, put_in_order
from gallery.series.models import Series

SENT_ALREADY = 409
CHECKS = {
    "keep": NOTHING,
    "pictures": NOTHING,
    "garment": NUMBERS,
    "changes": NUMBERS | {"words"},
    "permissions": frozenset({"permissions", "sender"}),
    "look": EVERYTHING,
}
TEMPLATES = {
    "pictures": "contributions/kept_pictures.html",
    "garment": "contributions/step_garment.html",
    "changes": "contributions/step_changes.html",
    "permissions": "contributions/step_permissions.html",
    "look": "contributions/send_look.html",
}


@dataclass(frozen=True)
class FormPart:
    """Some fields of a form, as the list of mistakes needs them; all where none are named."""

    form: Form
    names: frozenset[str] = frozenset()
    but: frozenset[str] = frozenset()

    def __iter__(self) -> Iterator[BoundField]:
        names = (self.names or set(self.form.fields)) - self.but
        return (self.form[name] for name in self.form.fields if name in names)

    @property
    def non_field_errors(self) -> ErrorList:
        """What is wrong with the whole form."""
        return self.form.non_field_errors()

    @property
    def has_mistakes(self) -> bool:
        """Whether one of these fields, or the whole form, has a mistake."""
        return bool(self.non_field_errors) or any(field.errors for field in self)


@dataclass(frozen=True)
class StepForms:
    """The forms a step was checked by, as the list of mistakes needs them."""

    parts: tuple[FormPart, ...]
    is_bound: bool = True

    def __iter__(self) -> Iterator[FormPart]:
        return iter(self.parts)

    def is_valid(self) -> bool:
        """Whether nothing in them has a mistake."""
        return not any(part.has_mistakes for part in self.parts)


@require_POST
def check_step(request: HttpRequest, slug: str) -> HttpResponse:
    """Check one step and keep what is typed; the pieces of the page that changed, as JSON."""
    series = get_object_or_404(Series.objects.select_related("pattern_version"), slug=slug)
    step = request.POST.get("step", "")
    if step not in CHECKS:
        step = "keep"
    draft = drafts.of_form(request, series)
    if draft.is_sent:
        sent = {"sent": reverse("sent", args=[series.slug])}
        return keep_private(JsonResponse(sent, status=SENT_ALREADY))
    put_in_order(draft.row, request.POST)
    sending = checked(request, series, draft, step)
    keep_what_was_said(sending, draft)
    told = _told(request, sending, draft, step)
    if draft.row is not None:
        told["as_of"] = drafts.as_of(draft.row)
    answer = JsonResponse(told)
    return keep_private(drafts.hand_over(request, answer, draft))


def checked(request: HttpRequest, series: Series, draft: Draft, step: str) -> Sending:
    """The page as it was posted, with the mistakes of that step beside their fields."""
    sending = Sending(series, {}, request.POST, CHECKS[step])
    sending.show_pictures(draft)
    if step in ("pictures", "look"):
        reasons_not_to_send(sending, only_pictures=step == "pictures")
    if step == "permissions":
        sending.ask_about_people()
    if step in ("changes", "look"):
        sending.work_out()
    if step == "look":
        sending.look_over()
    return sending


def _told(request: HttpRequest, sending: Sending, draft: Draft, step: str) -> dict[str, object]:
    if step == "keep":
        return {"good": True, "parts": {}}
    found = StepForms(tuple(_forms_of(sending, step)))
    facts = facts_of(request, sending, draft)
    shown = {
        name for name, forms in _by_step(sending).items() if any(f.has_mistakes for f in forms)
    }
    shown |= {step} if step == "look" or not found.is_valid() else set()
    parts = {
        name: render_to_string(
            TEMPLATES[name], {**facts, "checked": found if name == step else None}, request
        )
        for name in sorted(shown)
    }
    return {"good": found.is_valid(), "parts": parts}


def _by_step(sending: Sending) -> dict[str, tuple[FormPart, ...]]:
    """Which fields stand in which step."""
    yarn = sending.changes.garment_fields
    return {
        "pictures": tuple(FormPart(picture.form) for picture in sending.photos),
        "garment": (FormPart(sending.garment), FormPart(sending.changes, yarn)),
        "changes": (FormPart(sending.changes, but=yarn), FormPart(sending.words)),
        "permissions": (FormPart(sending.permissions), FormPart(sending.sender)),
    }


def _forms_of(sending: Sending, step: str) -> Iterator[FormPart]:
    """What counts for one step: its own forms, and what an answer in it asks for elsewhere."""
    by_step = _by_step(sending)
    if step == "look":
        yield FormPart(sending.pictures)
        for parts in by_step.values():
            yield from parts
        return
    if step in ("pictures", "permissions"):
        yield FormPart(sending.pictures)
        yield from by_step["pictures"]
    if step == "changes":
        yield from by_step["garment"]
    if step != "pictures":
        yield from by_step[step]
