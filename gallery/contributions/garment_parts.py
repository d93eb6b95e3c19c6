"""What the section of the garment shows besides its fields: sizes, drawing, what stands open."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import gettext as _

from alterations.choosing import SizeInShort, sizes_in_short
from alterations.errors import PatternError
from alterations.sizedrawing import size_drawing
from alterations.units import Unit, show_cm, show_in
from gallery.contributions.change_form import SHOWN_IN, YARN_CHOICE, ChangesForm
from gallery.contributions.forms import SendingForm
from gallery.contributions.garment_answers import Answers
from gallery.contributions.garment_choices import NEEDLE_SIZES, NOT_TOLD, TENTH
from gallery.contributions.garment_form import MEASURED, STANDARD_OVER, GarmentForm
from gallery.contributions.making_groups import YARN_HEADING, YARN_STEMS

HELP = ("help_chest", "help_length")
TOOLS = ("tool", "machine", "machine_pitch_mm", "machine_needles", "bed", "needle_mm")
OVER = ("swatch_counted_over", "swatch_counted_high")
SWATCH = ("swatch_counted_stitches", "swatch_counted_rows", *OVER)
BEHAVED = (
    *(f"{name}_{when}" for name in MEASURED for when in ("before", "after")),
    *("pilled", "split", "behaved_words"),
)
FOLDS = {"help": HELP, "tools": TOOLS, "swatch": (*SWATCH, "keeps"), "behaved": BEHAVED}
# What a list or field says before anybody has touched it.
UNTOUCHED = {
    "tool": {NOT_TOLD},
    "keeps": {"counts"},
    **{name: set(STANDARD_OVER.values()) for name in OVER},
}


@dataclass(frozen=True)
class Card:
    """One size to choose: its radio button, and its measures in both units."""

    option: Any
    name: str
    chest_cm: str = ""
    chest_in: str = ""
    length_cm: str = ""
    length_in: str = ""


@dataclass(frozen=True)
class GarmentParts:
    """Read from what was typed so far, whether or not it is checked."""

    form: GarmentForm
    changes: ChangesForm
    said: Mapping[str, Any]

    @property
    def cards(self) -> list[Card]:
        """The sizes as cards; none where there are so many that they are a list."""
        field = self.form["size"]
        if not field.use_fieldset:
            return []
        sizes = sizes_in_short(self.form.pattern)
        return [_card(*pair) for pair in zip(field.subwidgets, sizes, strict=True)]

    @property
    def drawing(self) -> SafeString | str:
        """Where chest and length are measured, on the size chosen or the middle one; nothing where
        the pattern names no chest. The drawing escapes all it is given."""
        sizes = self.form.pattern.sizes
        chosen = [size for size in sizes if size.name == self.said.get("size")]
        size = chosen[0] if chosen else sizes[len(sizes) // 2]
        words = _("Where chest and length are measured"), _("half the chest"), _("length")
        try:
            return mark_safe(size_drawing(self.form.pattern, size, *words))  # noqa: S308
        except PatternError:
            return ""

    @property
    def answers(self) -> Answers:
        """What the typed numbers come to."""
        return Answers(self.form, self.said)

    @property
    def needle_sizes(self) -> tuple[str, ...]:
        """The usual hand needles in mm."""
        return NEEDLE_SIZES

    @property
    def swatch_lengths(self) -> tuple[str, ...]:
        """What a swatch is usually counted over."""
        return tuple(STANDARD_OVER.values())

    @property
    def opened(self) -> set[str]:
        """The folds that hold something or have a mistake, and so stay open."""
        folds = {fold for fold, names in FOLDS.items() if any(map(self._tells, names))}
        return folds | ({"yarn"} if self._tells_yarn() else set())

    @property
    def wrong(self) -> dict[str, list[str]]:
        """What is wrong in each fold, said as one types; what is only missing can wait."""
        of_garment = {fold: self._wrong(self.form, names) for fold, names in FOLDS.items()}
        return {**of_garment, "yarn": self._wrong(self.changes, tuple(self._yarn_names()))}

    def _wrong(self, form: SendingForm, names: tuple[str, ...]) -> list[str]:
        wrong = [name for name in names if self.said.get(name) and name in form.errors]
        return [str(sentence) for name in wrong for sentence in form.errors[name]]

    def _yarn_names(self) -> set[str]:
        groups = [one for one in self.changes.groups if one.heading == YARN_HEADING]
        return {name for group in groups for name in group.fields if name not in group.quiet}

    def _tells(self, name: str) -> bool:
        text = self.said.get(name)
        return name in self.form.errors or bool(text and text not in UNTOUCHED.get(name, set()))

    def _tells_yarn(self) -> bool:
        names = self._yarn_names()
        is_wrong = any(name in self.changes.errors for name in (*names, YARN_CHOICE))
        return (
            is_wrong or self.said.get(YARN_CHOICE) in YARN_STEMS or any(map(self.said.get, names))
        )


def unit_of(said: Mapping[str, Any]) -> Unit:
    """The unit a bare number is taken in: inches for whoever measures in inches, else cm."""
    return "in" if said.get(SHOWN_IN) == "in" else "cm"


def _card(option: Any, size: SizeInShort) -> Card:
    chest, length = size.chest_cm, size.length_cm
    return Card(
        option,
        size.name,
        chest_cm="" if chest is None else show_cm(chest, TENTH),
        chest_in="" if chest is None else show_in(chest),
        length_cm="" if length is None else show_cm(length, TENTH),
        length_in="" if length is None else show_in(length),
    )
