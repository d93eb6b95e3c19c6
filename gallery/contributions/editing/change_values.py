"""A kept sheet's changes as the texts of the sending page's fields, to be changed there."""

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from typing import Any

from alterations.kinds import (
    AnyAlteration,
    ArmholeDepth,
    BellSleeve,
    BodyLength,
    BodyWidth,
    NeckDepth,
    NeckWidth,
    OtherEdge,
    OtherHeight,
    PartLength,
    SleeveGirth,
    SleeveLength,
    SleeveWidth,
    StrandsTogether,
    WorkedInHalves,
    WorkedInPanels,
    YarnSwap,
)
from alterations.pattern import Pattern
from alterations.units import Length
from gallery.contributions.change_fields import DEEPER, LONGER, TALLER, WIDER
from gallery.contributions.change_form import YARN_CHOICE, ChangesForm
from gallery.contributions.making_groups import COUNTED, EXTRAS, edges_named

Texts = dict[str, str]
MOST_PLACES = 4
# Which field group holds a change by a length, and how it says longer and shorter.
LENGTHS: dict[type[Any], tuple[str, list[tuple[str, Any]]]] = {
    BodyLength: ("body_length", LONGER),
    BodyWidth: ("body_width", WIDER),
    ArmholeDepth: ("armhole", DEEPER),
    SleeveLength: ("sleeve_length", LONGER),
    SleeveGirth: ("sleeve_girth", WIDER),
    NeckDepth: ("neck_depth", DEEPER),
    NeckWidth: ("neck_width", WIDER),
    PartLength: ("part_length", LONGER),
    OtherHeight: ("wearer", TALLER),
}
NUMBERED = {"extra": ("extra", EXTRAS), "own_figure": ("own", COUNTED)}


def as_typed(
    alterations: Sequence[AnyAlteration], pattern: Pattern, size_name: str
) -> tuple[Texts, tuple[AnyAlteration, ...]]:
    """The texts of the fields, and the changes no field can hold exactly as they are kept.

    Each is tried: only texts that the form reads as the very same change are taken.
    """
    typed: Texts = {}
    left_over = []
    for one in alterations:
        fitting = (
            texts
            for texts in _ways(one, pattern)
            if not typed.keys() & texts.keys() and _reads(texts, pattern, size_name) == (one,)
        )
        texts = next(fitting, None)
        if texts is None:
            left_over.append(one)
        else:
            typed |= texts
    return typed, tuple(left_over)


def _reads(texts: Texts, pattern: Pattern, size_name: str) -> tuple[AnyAlteration, ...]:
    form = ChangesForm(texts, pattern=pattern, size_name=size_name)
    return form.alterations if form.is_valid() else ()


def _ways(one: AnyAlteration, pattern: Pattern) -> Iterator[Texts]:
    """Every place of the page that could hold this change."""
    if type(one) in LENGTHS:
        stem, ways = LENGTHS[type(one)]
        plain = {name: value for name, value in one.plain().items() if name != "change"}
        change: Length = one.change  # type: ignore[union-attr]
        way = ways[1] if change.amount < 0 else ways[0]
        yield {f"{stem}_way": way[0], **_length(stem, change), **_under(f"{stem}_", plain)}
    elif one.kind in NUMBERED:
        stem, places = NUMBERED[one.kind]
        yield from (_under(f"{stem}_{at}_", one.plain()) for at in range(1, places + 1))
    else:
        yield from _OTHERS.get(type(one), _free_note)(one, pattern)


def _width(one: SleeveWidth, _: Pattern) -> Iterator[Texts]:
    yield {"sleeve_width_way": "wrist", **_length("sleeve_width", one.wrist)}


def _bell(one: BellSleeve, _: Pattern) -> Iterator[Texts]:
    yield {**_length("bell", one.edge), **_length("bell_over", one.over)}


def _edge(one: OtherEdge, pattern: Pattern) -> Iterator[Texts]:
    for at, part in enumerate(edges_named(pattern)):
        if part == one.where:
            stem = f"edge_{at}"
            depth = _length(stem, one.depth) if one.depth else {}
            keeps = "yes" if one.keeps_length else "no"
            yield {f"{stem}_kind": one.edge, f"{stem}_keeps": keeps, **depth}


def _yarn(one: YarnSwap, _: Pattern) -> Iterator[Texts]:
    yield {YARN_CHOICE: "other", **_under("yarn_", one.plain())}


def _strands(one: StrandsTogether, _: Pattern) -> Iterator[Texts]:
    yield {YARN_CHOICE: "strands", **_under("strand_", one.plain())}


def _panels(one: WorkedInHalves | WorkedInPanels, _: Pattern) -> Iterator[Texts]:
    yield {"panels_count": str(one.panels)}


def _free_note(one: AnyAlteration, _: Pattern) -> Iterator[Texts]:
    yield {"free_note": one.plain().get("text", "")}


_OTHERS: dict[type[Any], Callable[[Any, Pattern], Iterator[Texts]]] = {
    SleeveWidth: _width,
    BellSleeve: _bell,
    OtherEdge: _edge,
    YarnSwap: _yarn,
    StrandsTogether: _strands,
    WorkedInHalves: _panels,
    WorkedInPanels: _panels,
}


def _under(stem: str, plain: Texts) -> Texts:
    return {f"{stem}{name}": _decimal_text(value) for name, value in plain.items()}


def _length(stem: str, length: Length) -> Texts:
    return {f"{stem}_amount": number_text(abs(length.amount)), f"{stem}_unit": length.unit}


def _decimal_text(value: str) -> str:
    """A fraction such as 91/5 as a person writes it: 18.2; any other text as it is."""
    top, slash, bottom = value.partition("/")
    if slash and top.isdecimal() and bottom.isdecimal():
        return number_text(Fraction(int(top), int(bottom)))
    return value


def number_text(amount: Fraction) -> str:
    """An amount exactly: 5, 2.5, or 1 1/3 where no decimal number is the same."""
    for places in range(MOST_PLACES + 1):
        if (amount * 10**places).denominator == 1:
            return f"{float(amount):.{places}f}"
    whole, rest = divmod(amount, 1)
    return f"{whole} {rest}" if whole else str(rest)
