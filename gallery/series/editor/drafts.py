"""Deeds of a draft: begun, kept as typed, used; two editors never overwrite each other."""

from django.contrib.auth.models import User
from django.db import transaction

from alterations.records.load import load_pattern
from alterations.records.models import PatternVersion
from gallery.series.editor.checking import Checked
from gallery.series.editor.document import Document, blank, from_toml
from gallery.series.models import PatternDraft, Series


class OutdatedError(Exception):
    """Somebody kept the draft since this page was fetched."""


def begin(owner: User, text: str = "", series: Series | None = None) -> PatternDraft:
    """A new draft: blank, or of a pattern file's text (ValueError where that is no TOML)."""
    typed = from_toml(text) if text else blank()
    return PatternDraft.objects.create(owner=owner, series=series, typed=typed)


@transaction.atomic
def keep(draft: PatternDraft, typed: Document, seen: int) -> None:
    """Keeps what was typed; raises OutdatedError where the draft was kept by somebody since."""
    kept = PatternDraft.objects.filter(pk=draft.pk, times_kept=seen).update(
        typed=typed, times_kept=seen + 1
    )
    if not kept:
        raise OutdatedError
    draft.refresh_from_db()


def set_aside(draft: PatternDraft, typed: Document) -> PatternDraft:
    """Keeps what was typed on an outdated page as a draft of its own, so that nothing is lost."""
    return PatternDraft.objects.create(owner=draft.owner, series=draft.series, typed=typed)


@transaction.atomic
def use(draft: PatternDraft, checked: Checked) -> PatternVersion:
    """Keeps the pattern as a version, and makes it the one of the draft's series.

    Raises PatternFileError where it is none. Garments sent before keep the numbers of theirs.
    """
    version = load_pattern(checked.text)
    draft.kept_as = version
    draft.save(update_fields=["kept_as"])
    if draft.series is not None:
        draft.series.pattern_version = version
        draft.series.save(update_fields=["pattern_version"])
    return version
