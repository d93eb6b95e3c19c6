"""Another garment of the same person: what she told of the last one is offered, never asked twice.

WCAG 2.2, success criterion 3.3.7 (redundant entry). Permissions and ticks about age are never
taken over: each garment has its own.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.http import HttpRequest
from django.utils.translation import gettext_lazy

from gallery.access import own_ids
from gallery.contributions.change_form import YARN_CHOICE
from gallery.contributions.editing.page import kept_as_typed
from gallery.contributions.making_groups import YARN_STEMS
from gallery.contributions.models import Contribution
from gallery.series.models import Series

NAMES: Mapping[str, Any] = {
    "person": gettext_lazy("name and address"),
    "tool": gettext_lazy("machine or needles"),
    "swatch": gettext_lazy("swatch"),
    "yarn": gettext_lazy("yarn"),
}
FIELDS = {
    "person": ("credit_name", "email"),
    "tool": ("tool", "machine", "machine_pitch_mm", "machine_needles", "bed", "needle_mm"),
    "swatch": ("swatch_counted_", "keeps"),
    "yarn": (YARN_CHOICE, *YARN_STEMS.values()),
}
PRESET = {"keeps"}  # chosen beforehand, so it tells nothing by itself


@dataclass(frozen=True)
class Offer:
    """One thing that can be taken over: the name of its tick, its words."""

    name: str
    words: Any


def last_sent(request: HttpRequest, series: Series) -> Contribution | None:
    """The last garment this browser sent, or came to by its private link."""
    own = Contribution.objects.filter(public_id__in=own_ids(request), sent_at__isnull=False)
    return (
        own.filter(series=series).order_by("-sent_at").first() or own.order_by("-sent_at").first()
    )


def offered(row: Contribution | None) -> list[Offer]:
    """What that garment tells that another one may tell too."""
    if row is None:
        return []
    told = taken_over(row, tuple(NAMES))
    return [
        Offer(name, words)
        for name, words in NAMES.items()
        if any(_belongs(field, name) for field in told if field not in PRESET)
    ]


def taken_over(row: Contribution, wanted: tuple[str, ...]) -> dict[str, str]:
    """The texts of the fields, by their names, for the ticks that were set."""
    typed, _left_over = kept_as_typed(row)
    told = {**typed, "email": row.email}
    return {
        field: text
        for field, text in told.items()
        if text and any(_belongs(field, name) for name in wanted)
    }


def _belongs(field: str, name: str) -> bool:
    return any(
        field == one or (one.endswith("_") and field.startswith(one)) for one in FIELDS[name]
    )
