"""A garment in one line, for the film: size, what was changed, the yarn."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import TypeVar

from alterations.kinds import (
    AnyAlteration,
    ArmholeDepth,
    BellSleeve,
    BodyLength,
    BodyWidth,
    Extra,
    NeckDepth,
    NeckWidth,
    OtherEdge,
    OtherHeight,
    PartLength,
    SleeveGirth,
    SleeveLength,
    SleeveWidth,
    WorkedInHalves,
    WorkedInPanels,
)
from alterations.pattern import HUNG_HEM, Size
from alterations.places import BODY, SLEEVE, parts_of
from alterations.recalculate import Result
from alterations.saying import gettext as _
from alterations.saying import gettext_noop, ngettext
from alterations.units import Length, Unit, show_cm, spell
from alterations.wording import edge_in_words, inside, name_in_words

Kind = TypeVar("Kind")
Ways = tuple[str, str]  # what is said of more and of less
_BODY_LENGTH: Ways = (
    gettext_noop("body %(length)s longer"),
    gettext_noop("body %(length)s shorter"),
)
_BODY_WIDTH: Ways = (
    gettext_noop("body %(length)s wider"),
    gettext_noop("body %(length)s narrower"),
)
_ARMHOLE: Ways = (
    gettext_noop("armhole %(length)s deeper"),
    gettext_noop("armhole %(length)s shallower"),
)
_SLEEVE_LENGTH: Ways = (
    gettext_noop("sleeves %(length)s longer"),
    gettext_noop("sleeves %(length)s shorter"),
)
_SLEEVE_GIRTH: Ways = (
    gettext_noop("sleeves %(length)s wider"),
    gettext_noop("sleeves %(length)s narrower"),
)
_NECK_DEPTH: Ways = (
    gettext_noop("neck %(length)s deeper"),
    gettext_noop("neck %(length)s shallower"),
)
_NECK_WIDTH: Ways = (
    gettext_noop("neck %(length)s wider"),
    gettext_noop("neck %(length)s narrower"),
)
_PART: Ways = (
    gettext_noop("%(part)s %(length)s longer"),
    gettext_noop("%(part)s %(length)s shorter"),
)
_WEARER: Ways = (
    gettext_noop("for a wearer %(length)s taller"),
    gettext_noop("for a wearer %(length)s shorter"),
)


def caption(result: Result) -> str:
    """For example "Size 4 · body 5 cm longer (+14 rows) · Kelvarrick Cotton".

    Lengths stand in the unit they were given in, centimetres to the half; free notes are left out.
    """
    parts = [of_size(result.before.size.name), *_changes(result)]
    if result.swap is not None:
        parts.append(result.swap.name)
    return " · ".join(parts)


def of_size(name: str) -> str:
    """How a caption begins.

    >>> of_size("4")
    'Size 4'
    """
    return _("Size %(size)s") % {"size": name}


def _changes(result: Result) -> Iterator[str]:
    given = result.alterations
    body = [one.change for one in _of(BodyLength, given)]
    sleeve = [one.change for one in _of(SleeveLength, given)]
    yield from _lengths(_BODY_LENGTH, body, _rows(result, BODY))
    yield from _lengths(_BODY_WIDTH, [one.change for one in _of(BodyWidth, given)])
    yield from _lengths(_ARMHOLE, [one.change for one in _of(ArmholeDepth, given)])
    yield from _lengths(_SLEEVE_LENGTH, sleeve, _rows(result, SLEEVE))
    yield from _lengths(_SLEEVE_GIRTH, [one.change for one in _of(SleeveGirth, given)])
    for wrist in _of(SleeveWidth, given)[:1]:
        yield _("wrist %(length)s") % {"length": _spelled(wrist.wrist)}
    if _of(BellSleeve, given):
        yield _("bell sleeves")
    yield from _lengths(_NECK_DEPTH, [one.change for one in _of(NeckDepth, given)])
    yield from _lengths(_NECK_WIDTH, [one.change for one in _of(NeckWidth, given)])
    for part in _of(PartLength, given):
        yield from _lengths(_PART, [part.change], part=_named(result, part.where))
    yield from (_edge(result, one) for one in _of(OtherEdge, given))
    for one in _of(OtherHeight, given):
        yield from _lengths(_WEARER, [one.change])
    yield from _making(given)


def _making(given: Sequence[AnyAlteration]) -> Iterator[str]:
    if _of(WorkedInHalves, given):
        yield _("in two halves")
    if _of(WorkedInPanels, given):
        yield _("in three panels")
    for extra in _of(Extra, given):
        if extra.part != "other part":  # that part is named in the knitter's own words only
            yield name_in_words(f"{extra.part} {'added' if extra.is_added else 'left out'}")


def _edge(result: Result, one: OtherEdge) -> str:
    """ "hem in K1P1", "hem 10 cm deep", or both."""
    told = {
        "edge": _named(result, one.where),
        "depth": _spelled(one.depth) if one.depth else "",
        "rib": edge_in_words(one.edge),
    }
    if one.edge == "none":
        words = _("rolled %(edge)s %(depth)s deep") if one.depth else _("rolled %(edge)s")
    elif one.edge == HUNG_HEM:
        words = _("hung %(edge)s %(depth)s deep") if one.depth else _("hung %(edge)s")
    elif one.edge:
        words = _("%(edge)s %(depth)s deep in %(rib)s") if one.depth else _("%(edge)s in %(rib)s")
    else:
        words = _("%(edge)s %(depth)s deep")
    return words % told


def _named(result: Result, where: str) -> str:
    """A place in the pattern's own words: "back hem" for "back.hem"; a part's name as it is."""
    key, _dot, section = where.strip().partition(".")
    for piece in result.after.size.pieces:
        if piece.key == key:
            named = [one.title for one in piece.sections if one.key == section]
            return " ".join([inside(piece.title), *map(inside, named)])
    return name_in_words(where.strip())


def _of(kind: type[Kind], alterations: Sequence[AnyAlteration]) -> list[Kind]:
    return [one for one in alterations if isinstance(one, kind)]


def _rows(result: Result, part: str) -> int:
    """Rows more (or fewer) in a part, at the gauge worked in; 0 where something else may have moved
    it as well, so that they would not be this change's."""
    if any(_moves_too(one) for one in result.alterations):
        return 0
    return _rows_of(result.after.size, part) - _rows_of(result.regauged, part)


def _moves_too(one: AnyAlteration) -> bool:
    keeps = isinstance(one, OtherEdge) and one.keeps_length
    return keeps or isinstance(one, OtherHeight | PartLength)


def _rows_of(size: Size, part: str) -> int:
    found = parts_of(size).get(part)
    if found is None:
        return 0
    piece, section = found
    return sum(one.rows for one in piece.parted(section.key))


def _lengths(ways: Ways, changes: list[Length], rows: int = 0, *, part: str = "") -> Iterator[str]:
    sums = _summed(changes)
    for change in sums:
        more, less = ways
        told = {"part": part, "length": _spelled(Length(abs(change.amount), change.unit))}
        words = _(more if change.amount > 0 else less) % told
        # With several units for one part, or said already, the rows would be said twice.
        is_said = change.unit == "rows" and change.amount == rows
        says_rows = len(sums) == 1 and rows and not is_said
        yield _with_rows(words, rows) if says_rows else words


def _with_rows(words: str, rows: int) -> str:
    sign = "+" if rows > 0 else "−"
    told = {"words": words, "rows": f"{sign}{abs(rows)}"}
    # One row has a plural of its own in other languages.
    return ngettext("%(words)s (%(rows)s rows)", "%(words)s (%(rows)s rows)", abs(rows)) % told


def _summed(changes: list[Length]) -> list[Length]:
    """What was given in one unit together, in the order it was first given; nothing for nothing."""
    sums: dict[Unit, Fraction] = {}
    for change in changes:
        sums[change.unit] = sums.get(change.unit, Fraction(0)) + change.amount
    return [Length(amount, unit) for unit, amount in sums.items() if amount]


def _spelled(length: Length) -> str:
    if length.unit != "cm":
        return spell(length)
    return _("%(cm)s cm") % {"cm": show_cm(length.amount)}
