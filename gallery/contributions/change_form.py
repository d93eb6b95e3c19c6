"""What was changed: groups of fields, read into the library's own classes."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from django import forms
from django.forms import BoundField
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from alterations.errors import AlterationsError
from alterations.kinds import AnyAlteration
from alterations.lines import Line
from alterations.pattern import Pattern
from gallery.contributions import making_groups as making
from gallery.contributions.change_fields import ChoiceOf
from gallery.contributions.change_groups import Asked, Group, anything_else, groups_for
from gallery.contributions.forms import SendingForm

SHOWN_IN = "shown_in"
NOTHING_CHANGED = "nothing_changed"
OfEach = Sequence[tuple[AnyAlteration, tuple[Line, ...]]]
UNITS = [("cm", gettext_lazy("centimetres")), ("in", gettext_lazy("inches"))]


@dataclass(frozen=True)
class ShownRow:
    """Fields beside each other on the page."""

    lead: Any
    fields: tuple[BoundField, ...]


@dataclass(frozen=True)
class ShownGroup:
    """One group on the page."""

    stem: str
    title: Any
    rows: tuple[ShownRow, ...]
    is_open: bool
    lines: tuple[Line, ...] = ()


@dataclass(frozen=True)
class Section:
    """Groups under one heading."""

    heading: str
    groups: tuple[ShownGroup, ...]


class ChangesForm(SendingForm):
    """Everything a knitter may have changed; a group left empty is nothing changed there."""

    def __init__(self, *args: Any, pattern: Pattern, size_name: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.pattern, self.size_name = pattern, size_name
        self.groups: tuple[Group, ...] = (
            *groups_for(pattern),
            *making.edge_groups(pattern),
            *making.yarn_groups(),
            *making.making_groups(pattern),
            *making.counted_groups(pattern),
            anything_else(),
        )
        self.fields.update(making.all_fields(self.groups))
        self.fields[NOTHING_CHANGED] = forms.BooleanField(
            label=gettext_lazy("I changed nothing: it is as in the pattern"), required=False
        )
        self.fields[SHOWN_IN] = ChoiceOf(gettext_lazy("Show lengths in"), UNITS)
        self._read_from: list[tuple[AnyAlteration, Group]] = []

    @property
    def alterations(self) -> tuple[AnyAlteration, ...]:
        """What was changed, in the order of the page."""
        return tuple(alteration for alteration, _group in self._read_from)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        self._read_from = list(self._read())
        told = [group for _, group in self._read_from if group.heading != making.YARN_HEADING]
        if cleaned.get(NOTHING_CHANGED) and told:
            words = _("You also told a change: %(title)s. Please untick this, or empty that field.")
            self.add_error(NOTHING_CHANGED, words % {"title": told[0].title})
        return cleaned

    def field_of(self, alteration: AnyAlteration | None) -> str:
        """The field beside which a refusal of that alteration is shown."""
        for known, group in self._read_from:
            if known == alteration:
                return group.error_field
        return "free_note"

    def _group_of(self, alteration: AnyAlteration) -> str:
        return next((group.stem for known, group in self._read_from if known == alteration), "")

    def _read(self) -> Iterator[tuple[AnyAlteration, Group]]:
        for group in self.groups:
            if any(name in self.errors for name in group.fields):
                continue
            asked = Asked(self.cleaned_data, self.pattern, self.size_name)
            try:
                found = group.read(asked)
            except AlterationsError as error:
                self.add_error(group.error_field, str(error))
            else:
                yield from [(found, group)] if found else []

    def open_groups(self, told: set[str]) -> set[str]:
        """The stems of groups that hold something or have a mistake, and so stay open."""
        wrong = set(self.errors)
        return {
            group.stem
            for group in self.groups
            if any(name in wrong or name in told - group.quiet for name in group.fields)
            or any(name in told for name in group.quiet if name.endswith(("_count", "_kind")))
        }

    def sections(self, told: set[str], of_each: OfEach = ()) -> list[Section]:
        """The page: headings with their groups, what was told standing open, with what it came to
        where that is worked out."""
        opened = self.open_groups(told)
        came_to = {self._group_of(one): lines for one, lines in of_each}
        found: dict[str, list[ShownGroup]] = {}
        for group in self.groups:
            rows = tuple(
                ShownRow(row.lead, tuple(self[name] for name in row.names)) for row in group.rows
            )
            lines = came_to.get(group.stem, ())
            shown = ShownGroup(group.stem, group.title, rows, group.stem in opened, lines)
            found.setdefault(str(group.heading), []).append(shown)
        return [Section(heading, tuple(groups)) for heading, groups in found.items()]
