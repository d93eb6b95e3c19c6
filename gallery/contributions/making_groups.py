"""Groups of fields for edges, yarn, panels, parts, and what the knitter counted herself."""

from typing import Any

from django import forms
from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy

from alterations.kinds import (
    AnyAlteration,
    Extra,
    OtherEdge,
    OwnFigure,
    StrandsTogether,
    WorkedInHalves,
    WorkedInPanels,
    YarnSwap,
)
from alterations.makingkinds import EXTRA_PARTS
from alterations.pattern import EDGES, Pattern
from alterations.wording import name_in_words
from gallery.contributions import change_fields as fields
from gallery.contributions.balls import METRES_IN_100_G, ball_told
from gallery.contributions.change_fields import ChoiceOf, Fields
from gallery.contributions.change_groups import Asked, Group, Row, stretches
from gallery.contributions.fields import NumberField

EDGES_HEADING = gettext_lazy("Edges")
YARN_HEADING = gettext_lazy("Yarn")
YARN_STEMS = {"other": "yarn_", "strands": "strand_"}
MAKING_HEADING = gettext_lazy("How it was made")
COUNTED_HEADING = gettext_lazy("What you counted")
KEEPS = [
    ("measurements", gettext_lazy("the measurements (other stitch and row counts)")),
    ("counts", gettext_lazy("the pattern's stitch and row counts")),
]
EDGE_NAMES: dict[str, Any] = {
    "none": gettext_lazy("rolled edge, no rib"),
    "hung hem": gettext_lazy("hung (folded) hem"),
}
STRANDS = 3
# Stem and ending of every place where the yarn of a ball is told.
BALLS = (("yarn_", ""), *(("strand_", f"_{at}") for at in range(1, STRANDS + 1)))
EXTRAS = COUNTED = 2


def edge_groups(pattern: Pattern) -> tuple[Group, ...]:
    """One group for each edge the pattern names."""
    named = edges_named(pattern)
    return tuple(_edge(at, part, title) for at, (part, title) in enumerate(named.items()))


def edges_named(pattern: Pattern) -> dict[str, str]:
    """The edges of the pattern in their order, each with its words."""
    named: dict[str, str] = {}
    for piece in pattern.sizes[0].pieces:
        edge = piece.sections[0]
        if edge.part:
            named.setdefault(edge.part, edge.title)
    return named


def _edge(at: int, part: str, title: str) -> Group:
    stem = f"edge_{at}"
    kinds = [("", gettext_lazy("as in the pattern"))]
    kinds += [(name, EDGE_NAMES.get(name, name_in_words(name))) for name in EDGES]
    made: Fields = {
        f"{stem}_kind": ChoiceOf(gettext_lazy("The edge is"), kinds),
        f"{stem}_amount": fields.AmountField("10", gettext_lazy("How deep, if not as before")),
        f"{stem}_unit": ChoiceOf(gettext_lazy("In"), fields.ANY_UNIT),
        f"{stem}_keeps": ChoiceOf(
            gettext_lazy("The whole length"),
            [
                ("no", gettext_lazy("changed with the edge")),
                ("yes", gettext_lazy("stayed; fewer or more rows above the edge")),
            ],
        ),
    }

    def read(asked: Asked) -> AnyAlteration | None:
        depth = fields.width_typed(asked.typed, stem)
        kind = asked.typed[f"{stem}_kind"]
        if depth is None and not kind:
            return None
        return OtherEdge(part, kind, depth, asked.typed[f"{stem}_keeps"] == "yes")

    rows = (Row(tuple(made)[:3]), Row((f"{stem}_keeps",)))
    words = format_lazy("{}{}", title, gettext_lazy(": another edge, deeper or shallower"))
    return Group(f"{stem}_", EDGES_HEADING, words, made, rows, read, f"{stem}_amount")


def yarn_groups() -> tuple[Group, ...]:
    """Another yarn, or strands held together."""
    return _yarn(), _strands()


def _ball_fields(stem: str, end: str = "") -> Fields:
    grams, metres = gettext_lazy("Grams in one ball"), gettext_lazy("Metres in one ball")
    return {
        f"{stem}ball_grams{end}": NumberField(
            label=grams, example="50", least="1", most="2000", places=1
        ),
        f"{stem}ball_metres{end}": NumberField(
            label=metres, example="120", least="1", most="9000", places=1
        ),
        f"{stem}{METRES_IN_100_G}{end}": NumberField(
            label=gettext_lazy("or metres in 100 g"),
            example="240",
            least="5",
            most="9000",
            places=1,
            unit="m",
        ),
    }


def _gauge_fields(stem: str) -> Fields:
    over = [
        ("10cm", gettext_lazy("10 cm")),
        ("4in", gettext_lazy("4 inches")),
        ("nominal", gettext_lazy("“10 cm or 4 in”, as printed")),
    ]
    stitches, rows = gettext_lazy("Stitches"), gettext_lazy("Rows")
    return {
        f"{stem}stitches": NumberField(
            label=stitches, example="21", least="2", most="200", places=1
        ),
        f"{stem}rows": NumberField(label=rows, example="28", least="2", most="200", places=1),
        f"{stem}basis": ChoiceOf(gettext_lazy("Counted over"), over),
    }


def _swatch_fields(stem: str) -> Fields:
    def percent(label: Any) -> NumberField:
        field = NumberField(label=label, example="-5", least="-50", most="50", places=1)
        field.widget.attrs["inputmode"] = "text"  # number keyboards of phones have no minus
        return field

    weight = gettext_lazy("It weighs, in grams")

    return {
        f"{stem}counted_stitches": fields.count_field(gettext_lazy("Stitches counted"), "40"),
        f"{stem}counted_over": fields.AmountField("18.2 cm, 7 in", gettext_lazy("over")),
        f"{stem}counted_rows": fields.count_field(gettext_lazy("Rows counted"), "60"),
        f"{stem}counted_high": fields.AmountField("20.4 cm, 8 in", gettext_lazy("over")),
        f"{stem}swatch_grams": NumberField(
            label=weight, example="18.2", least="0", most="1000", places=1
        ),
        f"{stem}wash_width": percent(gettext_lazy("Its width then changed in washing by, in %")),
        f"{stem}wash_length": percent(gettext_lazy("and its length by, in % (−5: it shrank)")),
    }


_GAUGE = ("stitches", "rows")
_SWATCH = ("counted_stitches", "counted_over", "counted_rows", "counted_high", "swatch_grams")
_WASHING = ("wash_width", "wash_length")
BALL_LEAD = gettext_lazy("From the ball band, if you have it:")
GAUGE_LEAD = gettext_lazy("Your swatch in this yarn, washed and dry:")
SWATCH_MORE = gettext_lazy("Or exactly what you counted and measured on it")
SWATCH_LEAD = gettext_lazy("If you measured it before washing, say how it changed too:")


def _yarn() -> Group:
    stem = "yarn_"
    ball, gauge, swatch = _ball_fields(stem), _gauge_fields(stem), _swatch_fields(stem)
    raised = [("no", gettext_lazy("smooth")), ("yes", gettext_lazy("brushed or fuzzy"))]
    made: Fields = {
        f"{stem}name": fields.words_field(gettext_lazy("Name of the yarn")),
        f"{stem}fibre": fields.words_field(
            gettext_lazy("Fibre, as the band says"),
            help_text=gettext_lazy("For example 80 % wool, 20 % polyamide"),
        ),
        f"{stem}raised": ChoiceOf(gettext_lazy("Its surface is"), raised),
        **ball,
        **gauge,
        **swatch,
        f"{stem}keep": ChoiceOf(gettext_lazy("You kept"), KEEPS),
    }
    rows = (
        Row((f"{stem}name",)),
        Row((f"{stem}fibre", f"{stem}raised")),
        Row(tuple(ball), BALL_LEAD),
        Row(tuple(gauge), GAUGE_LEAD),
        Row(tuple(swatch), SWATCH_LEAD, SWATCH_MORE),
        Row((f"{stem}keep",)),
    )

    def read(asked: Asked) -> AnyAlteration | None:
        names = ("name", "fibre", *_GAUGE, *_SWATCH, *_WASHING)
        plain = {**fields.numbers_typed(asked.typed, stem, names), **ball_told(asked.typed, stem)}
        if not plain:
            return None
        said = {name: asked.typed[f"{stem}{name}"] for name in ("keep", "basis", "raised")}
        return YarnSwap.from_plain({**said, **plain})

    return Group(stem, YARN_HEADING, gettext_lazy("Another yarn"), made, rows, read, f"{stem}name")


def _strands() -> Group:
    stem = "strand_"
    made: Fields = {}
    rows: list[Row] = []
    for at in range(1, STRANDS + 1):
        one: Fields = {
            f"{stem}name_{at}": fields.words_field(
                format_lazy("{} {}", gettext_lazy("Yarn"), str(at))
            ),
            f"{stem}times_{at}": fields.count_field(gettext_lazy("Held how often"), "2", "6"),
            **_ball_fields(stem, f"_{at}"),
        }
        made |= one
        rows.append(Row(tuple(one)))
    gauge = _gauge_fields(stem)
    made |= {**gauge, f"{stem}keep": ChoiceOf(gettext_lazy("You kept"), KEEPS)}
    rows += [
        Row(tuple(gauge), gettext_lazy("Your swatch with all strands, washed and dry:")),
        Row((f"{stem}keep",)),
    ]

    def read(asked: Asked) -> AnyAlteration | None:
        places = range(1, STRANDS + 1)
        names = tuple(f"{name}_{at}" for at in places for name in ("name", "times"))
        plain = fields.numbers_typed(asked.typed, stem, (*names, *_GAUGE))
        for at in places:
            plain |= ball_told(asked.typed, stem, f"_{at}")
        if not plain:
            return None
        said = {name: asked.typed[f"{stem}{name}"] for name in ("keep", "basis")}
        return StrandsTogether.from_plain({**said, **plain})

    title = gettext_lazy("Strands held together")
    return Group(stem, YARN_HEADING, title, made, tuple(rows), read, f"{stem}name_1")


def making_groups(pattern: Pattern) -> tuple[Group, ...]:
    """Panels where the pattern has pieces for it, and parts added or left out."""
    may_be_parted = any(piece.may_be_halved for piece in pattern.sizes[0].pieces)
    panels = (_panels(),) if may_be_parted else ()
    return (*panels, *(_extra(at) for at in range(1, EXTRAS + 1)))


def _panels() -> Group:
    ways = [
        ("", gettext_lazy("as in the pattern")),
        ("2", gettext_lazy("in two halves with a seam")),
        ("3", gettext_lazy("in three panels with two seams")),
    ]
    made: Fields = {"panels_count": ChoiceOf(gettext_lazy("Back and front were worked"), ways)}

    def read(asked: Asked) -> AnyAlteration | None:
        count = asked.typed["panels_count"]
        if not count:
            return None
        return WorkedInHalves() if count == "2" else WorkedInPanels()

    title = gettext_lazy("In halves or panels")
    rows = (Row(("panels_count",)),)
    return Group("panels_", MAKING_HEADING, title, made, rows, read, "panels_count")


PART_NAMES: dict[str, Any] = {
    "pocket": gettext_lazy("a pocket"),
    "band": gettext_lazy("a band"),
    "hood": gettext_lazy("a hood"),
    "cord": gettext_lazy("a cord or tie"),
    "buttons": gettext_lazy("buttons"),
    "other part": gettext_lazy("another part"),
}


def _extra(at: int) -> Group:
    stem = f"extra_{at}_"
    parts = [("", gettext_lazy("Please choose"))]
    parts += [(part, PART_NAMES[part]) for part in EXTRA_PARTS]
    deeds = [("added", gettext_lazy("added")), ("left out", gettext_lazy("left out"))]
    made: Fields = {
        f"{stem}part": ChoiceOf(gettext_lazy("Which part"), parts),
        f"{stem}deed": ChoiceOf(gettext_lazy("You"), deeds),
        f"{stem}words": fields.words_field(gettext_lazy("In a few words"), longest=500),
    }

    def read(asked: Asked) -> AnyAlteration | None:
        plain = fields.numbers_typed(asked.typed, stem, ("part", "deed", "words"))
        if not plain.get("part") and not plain.get("words"):
            return None
        return Extra.from_plain(plain)

    rows = (Row((f"{stem}part", f"{stem}deed")), Row((f"{stem}words",)))
    titles = [gettext_lazy("A part added or left out"), gettext_lazy("Another part")]
    return Group(stem, MAKING_HEADING, titles[at - 1], made, rows, read, f"{stem}part")


def counted_groups(pattern: Pattern) -> tuple[Group, ...]:
    """Rows and stitches she counted herself, to be compared with the computed ones."""
    return tuple(_counted(pattern, at) for at in range(1, COUNTED + 1))


def _counted(pattern: Pattern, at: int) -> Group:
    stem = f"own_{at}_"
    places = [("", gettext_lazy("Please choose")), *stretches(pattern)]
    made: Fields = {
        f"{stem}where": ChoiceOf(gettext_lazy("Where"), places),
        f"{stem}rows": fields.count_field(gettext_lazy("Rows there"), "118"),
        f"{stem}stitches": fields.count_field(gettext_lazy("Stitches at its end"), "114"),
    }

    def read(asked: Asked) -> AnyAlteration | None:
        plain = fields.numbers_typed(asked.typed, stem, ("where", "rows", "stitches"))
        return OwnFigure.from_plain(plain) if plain else None

    rows: tuple[Row, ...] = (Row((f"{stem}where",)), Row(tuple(made)[1:]))
    titles = [
        gettext_lazy("Rows or stitches you really worked"),
        gettext_lazy("Rows or stitches in another place"),
    ]
    return Group(stem, COUNTED_HEADING, titles[at - 1], made, rows, read, f"{stem}where")


def all_fields(groups: tuple[Group, ...]) -> dict[str, forms.Field]:
    """The fields of all groups, in their order."""
    return {name: field for group in groups for name, field in group.fields.items()}
