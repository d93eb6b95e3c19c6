"""Deeds of a draft: begun, kept as typed, used, thrown away; two editors never overwrite each
other."""

from dataclasses import dataclass

from django.contrib.auth.models import User
from django.db import transaction
from django.db.models import Q, QuerySet

from alterations.records.load import load_pattern
from alterations.records.models import PatternVersion
from gallery.access import is_keeper, is_teacher
from gallery.series.editor.checking import Checked
from gallery.series.editor.document import Document, blank, from_toml
from gallery.series.models import PatternDraft, Series


class OutdatedError(Exception):
    """Somebody kept the draft since this page was fetched."""


def may_open(user: User, draft: PatternDraft) -> bool:
    """A draft of a series is its teacher's, also when the series has changed hands; one without a
    series is its writer's."""
    if draft.series is not None:
        return is_teacher(user, draft.series.teacher_id)
    return draft.owner_id == user.pk or is_keeper(user)


def drafts_of(user: User) -> QuerySet[PatternDraft]:
    """What that teacher is writing, the newest first."""
    mine = Q(series__teacher=user) | Q(series=None, owner=user)
    return PatternDraft.objects.filter(mine).select_related("series", "kept_as")


def begin(owner: User, text: str = "", series: Series | None = None) -> PatternDraft:
    """A new draft: blank, or of a pattern file's text (ValueError where that is no TOML)."""
    typed = from_toml(text) if text else blank()
    return PatternDraft.objects.create(owner=owner, series=series, typed=typed)


@dataclass(frozen=True)
class Seen:
    """What a page knows of the draft it shows: how often it was kept then, the page's own name, and
    how many times this page has sent what was typed."""

    times_kept: int
    page: str = ""
    turn: int = 0


@transaction.atomic
def keep(draft: PatternDraft, typed: Document, seen: Seen) -> None:
    """Keeps what was typed; raises OutdatedError where another page kept the draft since."""
    now = PatternDraft.objects.select_for_update().get(pk=draft.pk)
    is_own = bool(seen.page) and now.page == seen.page
    if now.times_kept != seen.times_kept and not is_own:
        raise OutdatedError
    if is_own and seen.turn < now.turn:
        return  # a later sending of the same page was here first
    now.typed, now.page, now.turn = typed, seen.page, seen.turn
    now.times_kept += 1
    now.save(update_fields=["typed", "page", "turn", "times_kept", "kept_at"])
    draft.refresh_from_db()


def set_aside(owner: User, draft: PatternDraft, typed: Document) -> PatternDraft:
    """Keeps what was typed on an outdated page as a draft of its own, so that nothing is lost."""
    return PatternDraft.objects.create(owner=owner, series=draft.series, typed=typed)


def can_go(draft: PatternDraft) -> bool:
    """Whether a draft may be thrown away: not the one by which a kept version is found again."""
    return draft.kept_as is None or draft.series is not None


def throw_away(draft: PatternDraft) -> None:
    """Forgets a draft; versions that were made of it stay."""
    if can_go(draft):
        draft.delete()


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
