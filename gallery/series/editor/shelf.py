"""Doors to all the patterns a teacher is writing: listed, begun, thrown away."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.cache import cache_control
from django.views.decorators.http import require_POST

from alterations.fileform import form_in_words
from alterations.patternfile import LARGEST_BYTES
from gallery.access import signed_in
from gallery.series.desk import own_series
from gallery.series.editor import drafts
from gallery.series.editor.importing import left_out
from gallery.series.models import PatternDraft

never_kept = cache_control(private=True, no_store=True)


def own_draft(request: HttpRequest, public_id: str) -> PatternDraft:
    """The draft of that name if she may open it; else the answer is as for one that is not
    there."""
    draft = get_object_or_404(PatternDraft.objects.select_related("series"), public_id=public_id)
    if not drafts.may_open(signed_in(request), draft):
        raise Http404
    return draft


@login_required
@never_kept
def pattern_drafts(request: HttpRequest) -> HttpResponse:
    """Her drafts, and the ways to begin one: blank, or from a pattern file."""
    trouble = ""
    if request.method == "POST":
        try:
            text = _text_of(request)
            draft = drafts.begin(signed_in(request), text)
            for sentence in left_out(draft.typed, text) if text else ():
                messages.warning(request, sentence)
            return redirect("pattern_draft", draft.public_id)
        except ValueError as error:
            trouble = _("This file cannot be read as a pattern file: %(why)s.") % {"why": error}
    mine = drafts.drafts_of(signed_in(request))
    facts = {
        "drafts": [(draft, drafts.can_go(draft)) for draft in mine],
        "trouble": trouble,
        "format_words": form_in_words(),
    }
    return render(request, "series/pattern_drafts.html", facts)


def _text_of(request: HttpRequest) -> str:
    """The text of an uploaded pattern file; nothing where none was chosen."""
    file = request.FILES.get("pattern_file")
    if file is None:
        return ""
    if (file.size or 0) > LARGEST_BYTES:
        raise ValueError(_("it is larger than a pattern file can be"))
    try:
        return file.read().decode("utf-8-sig")
    except UnicodeDecodeError as trouble:
        raise ValueError(_("it is not plain text; save it again as text in UTF-8")) from trouble


@login_required
@require_POST
def edit_pattern(request: HttpRequest, slug: str) -> HttpResponse:
    """A draft of a version of a series' pattern, to be changed and used: the one in use unless
    another one is named."""
    series = own_series(request.user, slug)
    number = request.POST.get("version", "")
    versions = series.pattern_version.pattern.versions
    named = versions.filter(number=int(number)).first() if number.isdecimal() else None
    version = named or series.pattern_version
    draft = drafts.begin(signed_in(request), version.text, series)
    return redirect("pattern_draft", draft.public_id)


@login_required
@require_POST
def throw_away(request: HttpRequest, public_id: str) -> HttpResponse:
    """Forget a draft."""
    draft = own_draft(request, public_id)
    if drafts.can_go(draft):
        messages.success(request, _("“%(name)s” is thrown away.") % {"name": draft})
    drafts.throw_away(draft)
    return redirect("pattern_drafts")
