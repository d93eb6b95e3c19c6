"""Doors of the teacher to one pattern she writes in the browser."""

import secrets

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.safestring import mark_safe
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_POST, require_safe

from alterations.errors import PatternFileError
from alterations.pattern import EDGES
from gallery.access import signed_in
from gallery.series.editor import drafts
from gallery.series.editor.blocks import PasteError
from gallery.series.editor.checking import Checked, check, drawings
from gallery.series.editor.document import Document, size_names
from gallery.series.editor.grid import grid_of
from gallery.series.editor.page import pieces_of, tables_of
from gallery.series.editor.pasting import pasted
from gallery.series.editor.shelf import never_kept, own_draft
from gallery.series.editor.structure import changed, from_post
from gallery.series.editor.told import fields_with_notes, told
from gallery.series.models import PatternDraft


@login_required
@never_kept
def pattern_draft(request: HttpRequest, public_id: str) -> HttpResponse:
    """The pattern as it is typed; every button keeps it first."""
    draft = own_draft(request, public_id)
    if request.method != "POST":
        return _page(request, draft, draft.typed)
    typed = from_post(request.POST.dict())
    deed = _deed(request)
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


def _deed(request: HttpRequest) -> str:
    """What the pressed button asks for; which size it is about stands in a field of its own."""
    deed = request.POST.get("do", "keep")
    return f"{deed}:{request.POST.get('which_size', '')}" if deed == "remove-size" else deed


def _seen(request: HttpRequest) -> drafts.Seen:
    page = request.POST.get("page", "")[:20]
    return drafts.Seen(_count(request, "times_kept"), page, max(0, _count(request, "turn")))


def _count(request: HttpRequest, name: str) -> int:
    text = request.POST.get(name, "")
    return int(text) if text.isdecimal() and len(text) < 10 else -1


def _anchor(deed: str) -> str:
    name, *numbers = deed.split(":")
    if name.endswith("section") and numbers:
        return f"piece-{numbers[0]}"
    anchors = {"paste": "numbers", "add-size": "numbers", "remove-size": "numbers"}
    return {**anchors, "check": "checked", "keep": "checked"}.get(name, "page")


def _with_block(typed: Document, request: HttpRequest) -> Document:
    """The document with a pasted block in its rows."""
    posted = request.POST.dict()
    start, block, size = (posted.get(f"paste_{name}", "") for name in ("at", "block", "size"))
    filled = pasted(typed, start, block, size)
    rows = ngettext("One row is filled.", "%(n)s rows are filled.", len(filled)) % {
        "n": len(filled)
    }
    kept = _("Empty lines and cells left what stood there.")
    messages.success(request, f"{rows} {kept}")
    return from_post({**posted, **filled})


def _outdated(request: HttpRequest, draft: PatternDraft, typed: Document) -> HttpResponse:
    aside = drafts.set_aside(signed_in(request), draft, typed)
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
    return redirect(f"{reverse('new_series')}?pattern={version.pk}")


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
        "edges": EDGES,
        "page": secrets.token_urlsafe(9),
        "paste_trouble": paste_trouble,
        # A block that did not fit is not lost.
        "pasting": request.POST if paste_trouble else {},
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
    """What is typed now, kept and checked: notes beside the numbers, and drawings."""
    draft = own_draft(request, public_id)
    typed = from_post(request.POST.dict())
    is_outdated = False
    try:
        drafts.keep(draft, typed, _seen(request))
    except drafts.OutdatedError:
        is_outdated = True
    checked = check(typed)
    facts = _facts(request, draft, typed, checked)
    facts["is_outdated"] = is_outdated
    facts["fields"] = fields_with_notes(typed, checked.notes)
    return render(request, "series/pattern_checked_live.html", facts)


@login_required
@require_safe
@never_kept
def draft_file(request: HttpRequest, public_id: str) -> HttpResponse:
    """The draft as the text of a pattern file, finished or not."""
    draft = own_draft(request, public_id)
    answer = HttpResponse(check(draft.typed).text, content_type="application/toml")
    answer["Content-Disposition"] = 'attachment; filename="pattern-draft.toml"'
    return answer
