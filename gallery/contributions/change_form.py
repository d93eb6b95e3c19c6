"""What was changed: groups of fields, read into the library's own classes."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from django import forms
from django.forms import BoundField
from django.utils.translation import gettext, gettext_lazy

from alterations.errors import AlterationsError
from alterations.kinds import AnyAlteration
from alterations.lines import Line
from alterations.pattern import Pattern
from gallery.contributions import making_groups as making
from gallery.contributions.balls import METRES_IN_100_G, contradiction
from gallery.contributions.change_fields import ChoiceOf
from gallery.contributions.change_groups import Asked, Group, Row, anything_else, groups_for
from gallery.contributions.forms import SendingForm

SHOWN_IN = "shown_in"
NOTHING_CHANGED = "nothing_changed"
OfEach = Sequence[tuple[AnyAlteration, tuple[Line, ...]]]
UNITS = [
    ("cm", gettext_lazy("cm")),
    ("in", gettext_lazy("inches")),
    ("both", gettext_lazy("both")),
]
YARN_CHOICE = "yarn_choice"
YARNS = [
    ("pattern", gettext_lazy("the pattern's yarn")),
    ("other", gettext_lazy("another yarn")),
    ("strands", gettext_lazy("several strands held together")),
]


@dataclass(frozen=True)
class ShownRow:
    """Fields beside each other on the page."""

    lead: Any
    fields: tuple[BoundField, ...]
    more: Any = ""
    is_open: bool = True


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
        self.fields[SHOWN_IN] = ChoiceOf(gettext_lazy("You measure in"), UNITS)
        self.fields[SHOWN_IN].widget = forms.RadioSelect(choices=UNITS)
        self.fields[YARN_CHOICE] = forms.ChoiceField(
            label=gettext_lazy("You knitted with"),
            choices=YARNS,
            required=False,
            widget=forms.RadioSelect,
            initial=self._yarn_told(),
        )
        self._read_from: list[tuple[AnyAlteration, Group]] = []

    @property
    def alterations(self) -> tuple[AnyAlteration, ...]:
        """What was changed, in the order of the page."""
        return tuple(alteration for alteration, _group in self._read_from)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        for stem, end in making.BALLS:
            words = contradiction(cleaned, stem, end)
            if words:
                self.add_error(f"{stem}{METRES_IN_100_G}{end}", words)
        self._read_from = list(self._read())
        if cleaned.get(NOTHING_CHANGED):
            self._refuse_change()
        self._miss_yarn(cleaned.get(YARN_CHOICE, ""))
        return cleaned

    def _refuse_change(self) -> None:
        """She ticked that nothing was changed; her yarn is asked elsewhere and does not count."""
        for _, group in self._read_from:
            if group.stem not in making.YARN_STEMS.values():
                words = gettext(
                    "You also told a change: %(title)s. Please untick this, or empty that field."
                )
                self.add_error(NOTHING_CHANGED, words % {"title": group.title})
                return

    @property
    def garment_fields(self) -> frozenset[str]:
        """The fields that stand with the garment on the page: the unit and the yarn."""
        yarns = [group for group in self.groups if group.stem in making.YARN_STEMS.values()]
        return frozenset(
            {SHOWN_IN, YARN_CHOICE, *(name for group in yarns for name in group.fields)}
        )

    def _yarn_told(self) -> str:
        """The yarn an earlier page tells of, which had no such choice."""
        for choice, stem in making.YARN_STEMS.items():
            names = (name for group in self.groups if group.stem == stem for name in group.fields)
            if any(self.initial.get(name) for name in names if name not in self._quiet(stem)):
                return choice
        return ""

    def _quiet(self, stem: str) -> frozenset[str]:
        return next(group.quiet for group in self.groups if group.stem == stem)

    def _miss_yarn(self, choice: str) -> None:
        """She chose another yarn: at least its name is needed, unless something else is wrong."""
        stem = making.YARN_STEMS.get(choice, "")
        for group in self.groups:
            is_read = any(group is known for _, known in self._read_from)
            is_wrong = any(name in self.errors for name in group.fields)
            if group.stem == stem and not is_read and not is_wrong:
                words = gettext("Please give the name of your yarn, or choose the pattern's yarn.")
                self.add_error(group.error_field, words)

    def _is_left_out(self, group: Group) -> bool:
        """Another choice of yarn was made than the one this group tells of."""
        choice = self.cleaned_data.get(YARN_CHOICE, "")
        is_yarn = group.stem in making.YARN_STEMS.values()
        return bool(choice) and is_yarn and group.stem != making.YARN_STEMS.get(choice)

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
            if self._is_left_out(group):
                self._forget_errors(group)
                continue
            if any(name in self.errors for name in group.fields):
                continue
            asked = Asked(self.cleaned_data, self.pattern, self.size_name)
            try:
                found = group.read(asked)
            except AlterationsError as error:
                self.add_error(group.error_field, str(error))
            else:
                yield from [(found, group)] if found else []

    def _forget_errors(self, group: Group) -> None:
        """The page hides these fields, so nothing in them keeps a garment from being sent."""
        for name in group.fields:
            self.errors.pop(name, None)

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
        where that is worked out. The yarn stands in a section of its own."""
        found: dict[str, list[ShownGroup]] = {}
        for group in self.groups:
            if group.heading != making.YARN_HEADING:
                found.setdefault(str(group.heading), []).append(self._shown(group, told, of_each))
        return [Section(heading, tuple(groups)) for heading, groups in found.items()]

    def yarns(self, told: set[str], of_each: OfEach = ()) -> list[ShownGroup]:
        """The groups of another yarn and of strands held together."""
        groups = [group for group in self.groups if group.heading == making.YARN_HEADING]
        return [self._shown(group, told, of_each) for group in groups]

    def _shown(self, group: Group, told: set[str], of_each: OfEach) -> ShownGroup:
        rows = tuple(self._shown_row(row, told) for row in group.rows)
        came_to = {self._group_of(one): lines for one, lines in of_each}
        is_open = group.stem in self.open_groups(told)
        return ShownGroup(group.stem, group.title, rows, is_open, came_to.get(group.stem, ()))

    def _shown_row(self, row: Row, told: set[str]) -> ShownRow:
        is_open = any(name in told or name in self.errors for name in row.names)
        return ShownRow(row.lead, tuple(self[name] for name in row.names), row.more, is_open)
