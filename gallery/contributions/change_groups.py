"""Which changes a knitter can tell: one group of fields for each, and how it is read."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext_lazy

from alterations.kinds import (
    AnyAlteration,
    ArmholeDepth,
    BellSleeve,
    BodyLength,
    BodyWidth,
    FreeNote,
    NeckDepth,
    NeckWidth,
    OtherHeight,
    PartLength,
    SleeveGirth,
    SleeveLength,
    SleeveWidth,
)
from alterations.measures import finished, measure
from alterations.pattern import Pattern
from alterations.places import (
    ARMHOLE,
    BODY,
    BODY_WIDTH,
    NECK_DEPTH,
    NECK_WIDTH,
    SLEEVE,
    WRIST,
    parts_of,
)
from alterations.units import Length
from alterations.wording import all_small
from gallery.contributions import change_fields as fields
from gallery.contributions.change_fields import ChoiceOf, Fields, Typed


@dataclass(frozen=True)
class Row:
    """Fields beside each other, a sentence above them; `more`: folded under those words."""

    names: tuple[str, ...]
    lead: Any = ""
    more: Any = ""


@dataclass(frozen=True)
class Asked:
    """What a group is read with: the typed values, the pattern, the size."""

    typed: Typed
    pattern: Pattern
    size_name: str


@dataclass(frozen=True)
class Group:
    """One change that can be told: its fields, how they are read, where a refusal is shown.

    stem: what its field names begin with; heading: the heading it stands under.
    """

    stem: str
    heading: Any
    title: Any
    fields: Fields
    rows: tuple[Row, ...]
    read: Callable[[Asked], AnyAlteration | None]
    error_field: str

    @property
    def quiet(self) -> frozenset[str]:
        """Lists with a first line chosen beforehand: they tell nothing by themselves."""
        return frozenset(name for name, field in self.fields.items() if isinstance(field, ChoiceOf))


BODY_HEADING = gettext_lazy("Body")
SLEEVES_HEADING = gettext_lazy("Sleeves")
NECK_HEADING = gettext_lazy("Neck")
OTHER_HEADING = gettext_lazy("Other lengths")
WORDS_HEADING = gettext_lazy("In your words")


def groups_for(pattern: Pattern) -> tuple[Group, ...]:
    """The groups of lengths and widths this pattern has parts for."""
    known = parts_of(pattern.sizes[0])
    groups = [_MAKERS[part]() for part in _MAKERS if part in known]
    flat = [group for made in groups for group in made]
    return (*flat, _any_part(pattern), _wearer())


def _length(
    stem: str, heading: Any, title: Any, label: Any, kind: Any, *, ways: Any = None
) -> Group:
    made = fields.length_fields(stem, label, ways or fields.LONGER, "5")
    return Group(
        stem,
        heading,
        title,
        made,
        (Row(tuple(made)),),
        lambda asked: _changed(kind, fields.length_typed(asked.typed, stem)),
        f"{stem}_amount",
    )


def _changed(kind: Any, change: Length | None) -> AnyAlteration | None:
    made: AnyAlteration | None = kind(change) if change else None
    return made


def _body_length() -> list[Group]:
    title, label = gettext_lazy("Body longer or shorter"), gettext_lazy("The body is")
    return [_length("body_length", BODY_HEADING, title, label, BodyLength)]


def _body_width() -> list[Group]:
    stem = "body_width"
    made = {
        **fields.length_fields(
            stem, gettext_lazy("All round, the body is"), fields.WIDER, "6", rows=False
        ),
        f"{stem}_into": ChoiceOf(
            gettext_lazy("Above the armhole"),
            [
                ("underarm", gettext_lazy("it is as in the pattern")),
                ("shoulders", gettext_lazy("the shoulders changed with it")),
            ],
        ),
    }

    def read(asked: Asked) -> AnyAlteration | None:
        change = fields.length_typed(asked.typed, stem)
        return BodyWidth(change, asked.typed[f"{stem}_into"]) if change else None

    rows = (Row(tuple(made)[:3]), Row((f"{stem}_into",)))
    title = gettext_lazy("Body wider or narrower")
    return [Group(stem, BODY_HEADING, title, made, rows, read, f"{stem}_amount")]


def _armhole() -> list[Group]:
    title, label = gettext_lazy("Armhole deeper or shallower"), gettext_lazy("The armhole is")
    made = _length("armhole", BODY_HEADING, title, label, ArmholeDepth, ways=fields.DEEPER)
    return [made]


def _sleeve_length() -> list[Group]:
    title, label = gettext_lazy("Sleeves longer or shorter"), gettext_lazy("The sleeves are")
    return [_length("sleeve_length", SLEEVES_HEADING, title, label, SleeveLength), _bell()]


def _wrist() -> list[Group]:
    return [_wrist_width(), _girth()]


def _wrist_width() -> Group:
    stem = "sleeve_width"
    ways = [("wrist", gettext_lazy("the new width is")), *fields.WIDER]
    label = gettext_lazy("Round the wrist")
    made = fields.length_fields(stem, label, ways, "22,5", rows=False)
    title = gettext_lazy("Sleeves wider or narrower at the wrist")
    return Group(
        stem, SLEEVES_HEADING, title, made, (Row(tuple(made)),), _read_wrist, f"{stem}_amount"
    )


def _read_wrist(asked: Asked) -> AnyAlteration | None:
    stem = "sleeve_width"
    if asked.typed[f"{stem}_way"] == "wrist":
        width = fields.width_typed(asked.typed, stem)
        return SleeveWidth(width) if width else None
    change = fields.length_typed(asked.typed, stem)
    if change is None:
        return None
    SleeveWidth(Length(abs(change.amount), change.unit))  # refuses rows, in its own words
    if asked.size_name not in asked.pattern.size_names:
        return None  # the missing size has its own sentence
    base = measure(finished(asked.pattern, asked.pattern.size(asked.size_name)), "wrist")
    return SleeveWidth(Length(base + change.in_cm(1), "cm"))


def _girth() -> Group:
    stem = "sleeve_girth"
    made = {
        **fields.length_fields(
            stem, gettext_lazy("Wrist and top are"), fields.WIDER, "3", rows=False
        ),
        f"{stem}_meeting": ChoiceOf(
            gettext_lazy("At the armhole"),
            [
                ("deeper armhole", gettext_lazy("the armhole changed with it")),
                ("gathers", gettext_lazy("the top is gathered in")),
            ],
        ),
    }

    def read(asked: Asked) -> AnyAlteration | None:
        change = fields.length_typed(asked.typed, stem)
        return SleeveGirth(change, asked.typed[f"{stem}_meeting"]) if change else None

    rows = (Row(tuple(made)[:3]), Row((f"{stem}_meeting",)))
    title = gettext_lazy("Whole sleeves wider or narrower")
    return Group(stem, SLEEVES_HEADING, title, made, rows, read, f"{stem}_amount")


def _bell() -> Group:
    stem = "bell"
    made: Fields = {
        f"{stem}_amount": fields.AmountField("44", gettext_lazy("Width round the edge")),
        f"{stem}_unit": ChoiceOf(gettext_lazy("In"), fields.CM_OR_INCHES),
        f"{stem}_over_amount": fields.AmountField("20", gettext_lazy("It narrows over")),
        f"{stem}_over_unit": ChoiceOf(gettext_lazy("In"), fields.ANY_UNIT),
    }

    def read(asked: Asked) -> AnyAlteration | None:
        edge = fields.width_typed(asked.typed, stem)
        over = fields.width_typed(asked.typed, f"{stem}_over")
        if edge is None and over is None:
            return None
        return BellSleeve(edge or Length(0), over or Length(0))  # type: ignore[arg-type]

    title = gettext_lazy("Bell sleeves")
    return Group(stem, SLEEVES_HEADING, title, made, (Row(tuple(made)),), read, f"{stem}_amount")


def _neck_depth() -> list[Group]:
    title, label = gettext_lazy("Neck deeper or shallower"), gettext_lazy("The front neck is")
    return [_length("neck_depth", NECK_HEADING, title, label, NeckDepth, ways=fields.DEEPER)]


def _neck_width() -> list[Group]:
    title, label = gettext_lazy("Neck wider or narrower"), gettext_lazy("The neck is")
    return [_length("neck_width", NECK_HEADING, title, label, NeckWidth, ways=fields.WIDER)]


def _any_part(pattern: Pattern) -> Group:
    stem = "part_length"
    places = [("", gettext_lazy("Please choose")), *stretches(pattern)]
    made = {
        f"{stem}_where": ChoiceOf(gettext_lazy("Which part"), places),
        **fields.length_fields(stem, gettext_lazy("It is"), fields.LONGER, "2"),
    }

    def read(asked: Asked) -> AnyAlteration | None:
        change = fields.length_typed(asked.typed, stem)
        return PartLength(asked.typed[f"{stem}_where"], change) if change else None

    rows = (Row((f"{stem}_where",)), Row(tuple(made)[1:]))
    title = gettext_lazy("Another part longer or shorter")
    return Group(stem, OTHER_HEADING, title, made, rows, read, f"{stem}_amount")


def stretches(pattern: Pattern) -> list[tuple[str, str]]:
    """Every stretch that has rows, as an address and in the pattern's words."""
    return [
        (f"{piece.key}.{section.key}", f"{piece.title}: {all_small(section.title)}")
        for piece in pattern.sizes[0].pieces
        for section in piece.sections
        if section.rows
    ]


def _wearer() -> Group:
    stem = "wearer"
    made = fields.length_fields(
        stem, gettext_lazy("The wearer is"), fields.TALLER, "10", rows=False
    )
    lead = gettext_lazy(
        "Only if you went by the wearer's height. Body and sleeves are then proposed from the "
        "proportions of the body; lengths you measured count more."
    )
    return Group(
        stem,
        OTHER_HEADING,
        gettext_lazy("For someone taller or shorter"),
        made,
        (Row(tuple(made), lead),),
        lambda asked: _changed(OtherHeight, fields.length_typed(asked.typed, stem)),
        f"{stem}_amount",
    )


def anything_else() -> Group:
    """Her own words for what no field asks."""
    made: Fields = {"free_note": fields.note_field(gettext_lazy("What else you changed"))}

    def read(asked: Asked) -> AnyAlteration | None:
        text = asked.typed["free_note"]
        return FreeNote(text.replace("\r\n", "\n")) if text.strip() else None

    return Group(
        "free_note",
        WORDS_HEADING,
        gettext_lazy("Anything else"),
        made,
        (Row(("free_note",)),),
        read,
        "free_note",
    )


_MAKERS: dict[str, Callable[[], list[Group]]] = {
    BODY: _body_length,
    BODY_WIDTH: _body_width,
    ARMHOLE: _armhole,
    SLEEVE: _sleeve_length,
    WRIST: _wrist,
    NECK_DEPTH: _neck_depth,
    NECK_WIDTH: _neck_width,
}
