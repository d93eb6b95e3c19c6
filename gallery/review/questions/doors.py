"""Doors of the desk: the words of the questions, asking again, an answer told outside the site."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods

from gallery.access import keep_private, signed_in
from gallery.consent.purposes import PURPOSES, QUESTIONS
from gallery.consent.texts import wordings
from gallery.contributions import permissions
from gallery.contributions.models import Contribution
from gallery.review.questions.again import ask_again, asking_about
from gallery.review.questions.told import ToldForm, record_told
from gallery.review.questions.words import (
    WordsForm,
    back_to_standard,
    keep_words,
    questions_of,
)
from gallery.review.whose import own_garment, own_series
from gallery.series.models import Series


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def series_questions(request: HttpRequest, slug: str) -> HttpResponse:
    """The words of each question; new words are kept one question at a time."""
    series = own_series(request, slug)
    came_back: dict[str, WordsForm] = {}
    if request.method == "POST":
        purpose = _purpose(request.POST.get("purpose", ""))
        form = WordsForm(request.POST, prefix=purpose)
        if "standard" in request.POST:
            return _kept(request, series, purpose, is_new=back_to_standard(series, purpose))
        if form.is_valid() and not form.is_looked_at:
            words = form.cleaned_data
            is_new = keep_words(series, purpose, words["sentence"], words["meaning"])
            return _kept(request, series, purpose, is_new=is_new)
        came_back[purpose] = form
    facts = {
        "series": series,
        "questions": questions_of(series, came_back),
        "came_back": next(iter(came_back.values()), None),
    }
    return keep_private(render(request, "review/questions.html", facts))


def _kept(request: HttpRequest, series: Series, purpose: str, *, is_new: bool) -> HttpResponse:
    if is_new:
        words = _("Kept. Answers given before stay with the words they were given to.")
        messages.success(request, words)
    else:
        messages.info(request, _("These are the words in force already; nothing was changed."))
    page = reverse("series_questions", args=[series.slug])
    return redirect(f"{page}#{purpose}")


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def ask_again_page(request: HttpRequest, slug: str, purpose: str) -> HttpResponse:
    """Who would be written to, and the one button that does it."""
    series = own_series(request, slug)
    text = wordings(_purpose(purpose), series.slug)[0]
    if request.method == "POST":
        if request.POST.get("text") != str(text.pk):
            messages.warning(request, _("The words have changed meanwhile. Please look again."))
            return redirect("ask_again", series.slug, purpose)
        count = ask_again(series, text)
        words = ngettext("%d letter is on its way.", "%d letters are on their way.", count) % count
        messages.success(request, words)
        return redirect(f"{reverse('series_questions', args=[series.slug])}#{purpose}")
    facts = {
        "series": series,
        "text": text,
        "label": next(one.label for one in QUESTIONS if one.purpose == purpose),
        "asking": asking_about(series, text),
    }
    return keep_private(render(request, "review/ask_again.html", facts))


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def told(request: HttpRequest, public_id: str) -> HttpResponse:
    """Write into the ledger what a sender told by letter, on paper or spoken."""
    garment = own_garment(request, public_id)
    form = ToldForm(garment, request.POST if request.method == "POST" else None)
    if request.method == "POST" and form.is_valid():
        if _written(garment, form, request):
            return redirect("desk_garment", public_id)
        form.see_again()
    facts = {
        "garment": garment,
        "series": garment.series,
        "form": form,
        "permissions": permissions.standing(garment),
        "told": garment.told_answers.select_related("entry__text", "by"),
        "wordings": [texts for texts in form.wordings.values() if len(texts) > 1],
    }
    return keep_private(render(request, "review/told.html", facts))


def _written(garment: Contribution, form: ToldForm, request: HttpRequest) -> bool:
    try:
        record_told(garment, form, signed_in(request))
    except permissions.ChangedMeanwhileError:
        return False
    messages.success(request, _("Written down. It counts from this moment on."))
    return True


def _purpose(given: str) -> str:
    if given not in PURPOSES:
        raise Http404
    return given
