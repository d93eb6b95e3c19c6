"""Doors of the teacher to the patterns she writes in the browser."""

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.safestring import mark_safe
from django.utils.translation import gettext as _
from django.views.decorators.cache import cache_control
from django.views.decorators.http import require_POST, require_safe

from alterations.errors import PatternFileError
from alterations.fileform import FORM
from alterations.pattern import EDGES
from alterations.patternfile import LARGEST_BYTES
from gallery.access import is_keeper, signed_in
from gallery.series.desk import own_series
from gallery.series.editor import drafts
from gallery.series.editor.checking import Checked, check, drawings
from gallery.series.editor.document import Document, size_names
from gallery.series.editor.grid import PasteError, grid_of, pasted
from gallery.series.editor.page import choices_of, pieces_of, tables_of, told
from gallery.series.editor.structure import changed, from_post
from gallery.series.models import PatternDraft

never_kept = cache_control(private=True, no_store=True)


@login_required
@never_kept
def pattern_drafts(request: HttpRequest) -> HttpResponse:
    """Her drafts, and the ways to begin one: blank, or from a pattern file."""
    trouble = ""
    if request.method == "POST":
        try:
            draft = drafts.begin(signed_in(request), _text_of(request))
            return redirect("pattern_draft", draft.public_id)
        except ValueError as error:
            trouble = _("This file cannot be read as a pattern file: %(why)s.") % {"why": error}
    mine = PatternDraft.objects.filter(owner=signed_in(request)).select_related("series")
    facts = {"drafts": mine, "trouble": trouble, "format_words": FORM}
    return render(request, "series/pattern_drafts.html", facts)


def _text_of(request: HttpRequest) -> str:
    """The text of an uploaded pattern file; nothing where none was chosen."""
    file = request.FILES.get("pattern_file")
    if file is None:
        return ""
    if (file.size or 0) > LARGEST_BYTES:
        raise ValueError(_("it is larger than a pattern file can be"))
    return file.read().decode("utf-8-sig")


@login_required
@require_POST
def edit_pattern(request: HttpRequest, slug: str) -> HttpResponse:
    """A draft of the pattern a series uses now, to be changed and used in its place."""
    series = own_series(request.user, slug)
    draft = drafts.begin(signed_in(request), series.pattern_version.text, series)
    return redirect("pattern_draft", draft.public_id)


def _own_draft(request: HttpRequest, public_id: str) -> PatternDraft:
    draft = get_object_or_404(PatternDraft.objects.select_related("series"), public_id=public_id)
    if draft.owner_id != signed_in(request).pk and not is_keeper(request.user):
        raise Http404
    return draft


@login_required
@never_kept
def pattern_draft(request: HttpRequest, public_id: str) -> HttpResponse:
    """The pattern as it is typed; every button keeps it first."""
    draft = _own_draft(request, public_id)
    if request.method != "POST":
        return _page(request, draft, draft.typed)
    typed = from_post(request.POST.dict())
    deed = request.POST.get("do", "keep")
    trouble = ""
    if deed == "paste":
        try:
            typed = _with_block(typed, request)
        except PasteError as error:
            trouble = str(error)
    typed = changed(typed, deed)
    try:
        drafts.keep(draft, typed, _seen(request))
    except drafts.OutdatedError:
        return _outdated(request, draft, typed)
    if trouble:
        return _page(request, draft, typed, paste_trouble=trouble)
    if deed == "use":
        return _used(request, draft, typed)
    return redirect(f"{request.path}#{_anchor(deed)}")


def _seen(request: HttpRequest) -> int:
    text = request.POST.get("times_kept", "")
    return int(text) if text.isdigit() and len(text) < 10 else -1


def _anchor(deed: str) -> str:
    name, *numbers = deed.split(":")
    if name.endswith("section") and numbers:
        return f"piece-{numbers[0]}"
    return {"paste": "numbers", "add-size": "numbers", "check": "checked"}.get(name, "page")


def _with_block(typed: Document, request: HttpRequest) -> Document:
    """The document with a pasted block in its rows."""
    start, block = request.POST.get("paste_at", ""), request.POST.get("paste_block", "")
    posted = request.POST.dict()
    return from_post({**posted, **pasted(typed, start, block)})


def _outdated(request: HttpRequest, draft: PatternDraft, typed: Document) -> HttpResponse:
    aside = drafts.set_aside(draft, typed)
    facts = {"draft": draft, "aside": aside}
    return render(request, "series/pattern_outdated.html", facts, status=409)


def _used(request: HttpRequest, draft: PatternDraft, typed: Document) -> HttpResponse:
    checked = check(typed)
    if checked.wrong or (checked.doubtful and request.POST.get("is_meant") != "yes"):
        return _page(request, draft, typed, asked_to_use=True)
    try:
        version = drafts.use(draft, checked)
    except PatternFileError:  # the text changed in between: it is checked again
        return _page(request, draft, typed, asked_to_use=True)
    messages.success(request, _("Version %(number)s is kept.") % {"number": version.number})
    if draft.series is not None:
        return redirect("pattern_numbers", draft.series.slug)
    return redirect("new_series")


def _page(
    request: HttpRequest,
    draft: PatternDraft,
    typed: Document,
    *,
    paste_trouble: str = "",
    asked_to_use: bool = False,
) -> HttpResponse:
    checked = check(typed)
    facts = {
        **_facts(request, draft, typed, checked),
        "pieces": pieces_of(typed, checked.notes),
        "tables": tables_of(typed, checked.notes),
        "choices": choices_of(typed),
        "edges": EDGES,
        "paste_trouble": paste_trouble,
        "asked_to_use": asked_to_use,
        "typed": typed,
    }
    return render(request, "series/pattern_editor.html", facts)


def _facts(
    request: HttpRequest, draft: PatternDraft, typed: Document, checked: Checked
) -> dict[str, object]:
    shown = request.POST.get("shown_size") or request.GET.get("size", "")
    drawn = drawings(checked.pattern, shown) if checked.pattern else []
    return {
        "draft": draft,
        "checked": checked,
        "grid": grid_of(typed, checked.notes),
        "wrong": told(typed, checked.wrong),
        "doubtful": told(typed, checked.doubtful),
        "sizes": size_names(typed),
        "shown_size": shown,
        # The drawing escapes all it is given.
        "drawings": [(title, mark_safe(svg)) for title, svg in drawn],  # noqa: S308
    }


@login_required
@require_POST
@never_kept
def check_pattern(request: HttpRequest, public_id: str) -> HttpResponse:
    """What is typed now, checked: notes beside the numbers, and drawings; nothing is kept."""
    draft = _own_draft(request, public_id)
    typed = from_post(request.POST.dict())
    facts = _facts(request, draft, typed, check(typed))
    return render(request, "series/pattern_checked_live.html", facts)


@login_required
@require_safe
@never_kept
def draft_file(request: HttpRequest, public_id: str) -> HttpResponse:
    """The draft as the text of a pattern file, finished or not."""
    draft = _own_draft(request, public_id)
    answer = HttpResponse(check(draft.typed).text, content_type="application/toml")
    answer["Content-Disposition"] = 'attachment; filename="pattern-draft.toml"'
    return answer
