"""A result as base → made, a line for each number that changed, in words with units."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from alterations.carriage import counted
from alterations.changes import numbers_asked
from alterations.errors import ShapingError
from alterations.gauges import fabric_gauge
from alterations.kinds import AnyAlteration
from alterations.measures import height_cm, width_cm
from alterations.pairing import paired
from alterations.panels import panels_of
from alterations.pattern import Piece, Section
from alterations.recalculate import Garment, Result
from alterations.rounding import round_half_up
from alterations.saying import gettext as _
from alterations.saying import gettext_noop, ngettext
from alterations.shapedwords import one_stitch_each_side
from alterations.stitches import schedule_of
from alterations.units import ShownIn, show_length
from alterations.wishes import Yarns
from alterations.wording import edge_in_words, inside, listed

Unit = Literal["rows", "stitches", "stitches cast on", "balls", "m", "g"]


_IN_PANELS = {
    1: (
        gettext_noop("in one piece"),
        gettext_noop("worked in one piece of %(widths)s stitches, cast on %(casts)s"),
    ),
    2: (
        gettext_noop("in two halves"),
        gettext_noop(
            "worked in two halves of %(widths)s stitches, cast on %(casts)s, with a seam between"
        ),
    ),
    3: (
        gettext_noop("in three panels"),
        gettext_noop(
            "worked in three panels of %(widths)s stitches, cast on %(casts)s, with two seams"
        ),
    ),
}


@dataclass(frozen=True)
class Number:
    """One number in the pattern and as made, with its unit; change is empty where it has none."""

    base: str
    made: str
    change: str = ""


@dataclass(frozen=True)
class Line:
    """What changed: its name, its numbers, and a note in words."""

    what: str
    numbers: tuple[Number, ...] = ()
    note: str = ""


def lines(result: Result, shown_in: ShownIn = "cm") -> tuple[Line, ...]:
    """Every number that changed: sections of the pieces, measurements, yarn; lengths in cm (to a
    tenth), in inches (to the quarter) or in both."""
    sections = [(title, line) for _address, title, line in _sections(result, shown_in)]
    return (*_merged(sections), *_measures(result, shown_in), *_yarn(result))


def lines_of(
    result: Result, alteration: AnyAlteration, shown_in: ShownIn = "cm"
) -> tuple[Line, ...]:
    """What one alteration came to in the whole garment: the lines of the numbers it asks for."""
    if isinstance(alteration, Yarns):
        return tuple(_yarn(result))
    asked = numbers_asked(result, alteration)
    places = {address.rsplit(".", 1)[0] for address in asked}
    found = [
        (title, line) for address, title, line in _sections(result, shown_in) if address in places
    ]
    return _merged(found)


def _sections(result: Result, shown_in: ShownIn) -> Iterator[tuple[str, str, Line]]:
    """Address, title of the piece and the line, piece by piece, bottom to top."""
    for base, made in zip(result.before.size.pieces, result.after.size.pieces, strict=True):
        if _are_other_panels(base, made):
            yield base.key, base.title, _panels(made)
        for index, (old, new) in enumerate(paired(base, made)):
            # What a piece in panels is cast on with, its panels say: nobody casts on the whole.
            is_cast_on = index == 0 and made.panels == 1
            numbers = tuple(_numbers(result, old, new, shown_in, is_first=is_cast_on))
            edge = _edge(base, made, new) if index == 0 else ""
            told = (_at_gauge(result, base.key, old, new), edge or _schedule(old, new))
            note = "; ".join(filter(None, told))
            if numbers or note:
                yield f"{base.key}.{new.key}", base.title, Line(inside(new.title), numbers, note)


def _are_other_panels(base: Piece, made: Piece) -> bool:
    """Whether the piece is parted otherwise, or its panels are cast on with other counts."""
    if base.panels != made.panels:
        return True
    if made.panels == 1:
        return False
    return [one.cast_on for one in panels_of(base)] != [one.cast_on for one in panels_of(made)]


def _at_gauge(result: Result, key: str, old: Section, new: Section) -> str:
    """What of a change in rows is the other gauge's, where something else changed them too."""
    sections = {one.key: one for one in result.regauged.piece(key).sections}
    there = sections.get(new.key)
    if there is None or there.rows in (old.rows, new.rows):
        return ""
    sign = "+" if new.rows > there.rows else "−"
    more = _counted(abs(new.rows - there.rows), "rows")
    return _("at this gauge the pattern has %(rows)s here, so %(change)s") % {
        "rows": _counted(there.rows, "rows"),
        "change": f"{sign}{more}",
    }


def _merged(found: list[tuple[str, Line]]) -> tuple[Line, ...]:
    """Front and back often change alike: one line then names both."""
    titles: dict[Line, list[str]] = {}
    for title, line in found:
        titles.setdefault(line, []).append(title)
    return tuple(
        Line(f"{_and(names)}: {line.what}", line.numbers, line.note)
        for line, names in titles.items()
    )


def _and(names: list[str]) -> str:
    return listed([names[0], *(inside(name) for name in names[1:])])


def _numbers(
    result: Result, old: Section, new: Section, shown_in: ShownIn, *, is_first: bool
) -> Iterator[Number]:
    before = fabric_gauge(result.pattern, old.fabric, result.before.gauge)
    after = fabric_gauge(result.pattern, new.fabric, result.after.gauge)
    if is_first and old.start != new.start:
        yield _count(old.start, new.start, "stitches cast on")
    if old.rows != new.rows:
        yield _count(old.rows, new.rows, "rows")
        yield _length(height_cm(old, before), height_cm(new, after), shown_in)
    if old.end != new.end and old.shape != "straight":
        yield _count(old.end, new.end, "stitches")
        if old.end and new.end:
            yield _length(width_cm(old, before), width_cm(new, after), shown_in)


def _count(old: int, new: int, unit: Unit) -> Number:
    sign = "+" if new > old else "−"
    difference = _counted(abs(new - old), "stitches" if unit == "stitches cast on" else unit)
    return Number(_counted(old, unit), _counted(new, unit), f"{sign}{difference}")


def _counted(count: int, unit: Unit) -> str:
    """A count with its unit: "1 row", "14 rows", "1 stitch cast on", "500 g"."""
    match unit:
        case "rows":
            return counted(count, "row")
        case "stitches":
            return counted(count, "stitch")
        case "balls":
            return counted(count, "ball")
        case "stitches cast on":
            words = ngettext("%(count)s stitch cast on", "%(count)s stitches cast on", count)
            return words % {"count": count}
    return f"{count} {unit}"


def _length(old: Fraction, new: Fraction, shown_in: ShownIn) -> Number:
    before, after = show_length(old, shown_in), show_length(new, shown_in)
    change = show_length(abs(new - old), shown_in)
    sign = "+" if new > old else "−"
    is_told = before != after and not change.startswith("0 ")
    return Number(before, after, f"{sign}{change}" if is_told else "")


def _schedule(old: Section, new: Section) -> str:
    """How a slope, a neck or a shoulder is shaped now, where that changed."""
    if new.shape in ("neck", "held"):
        before, after = _in_groups(old), _in_groups(new)
        return after if before != after else ""
    return _slope(old, new)


def _slope(old: Section, new: Section) -> str:
    try:
        was, now = schedule_of(old), schedule_of(new)
    except ShapingError as error:
        return str(error)
    changed = new.shape == "spread" and (was, old.start) != (now, new.start)
    if not changed or not now.runs:
        return ""
    told = {"deed": one_stitch_each_side(new), "schedule": now}
    return _("%(deed)s %(schedule)s") % told


def _in_groups(section: Section) -> str:
    """Bind-offs of a neck, or held groups of a shoulder, in a few words."""
    if section.shape == "held":
        return _("held %(groups)s") % {"groups": "-".join(map(str, section.groups))}
    if section.shape != "neck":
        return ""
    told = {
        "centre": section.centre,
        "steps": "-".join(str(step) for step in section.steps if step),
    }
    if not told["steps"]:
        return _("bind off %(centre)s in the centre") % told
    words = _(
        "bind off %(centre)s in the centre, then %(steps)s at the neck edge on alternate rows"
    )
    return words % told


def _edge(base: Piece, made: Piece, first: Section) -> str:
    """Which edge is worked now, where it is another one."""
    if base.edge == made.edge:
        return ""
    told = {"made": _edge_name(made), "base": _edge_name(base)}
    if first.folded:
        return _("%(made)s instead of %(base)s, folded and hung") % told
    return _("%(made)s instead of %(base)s") % told


def _edge_name(piece: Piece) -> str:
    return _("no rib") if piece.edge.name == "none" else edge_in_words(piece.edge.name)


def _panels(made: Piece) -> Line:
    panels = panels_of(made)
    words, note = _IN_PANELS[made.panels]
    told = {
        "widths": _and([str(_above_edge(panel)) for panel in panels]),
        "casts": _and([str(panel.cast_on) for panel in panels]),
    }
    return Line(_(words), note=_(note) % told)


def _above_edge(panel: Piece) -> int:
    across = (section.end for section in panel.sections if section.shape == "across")
    return next(across, panel.cast_on)


def _measures(result: Result, shown_in: ShownIn) -> Iterator[Line]:
    for before, after in zip(result.before.measures, result.after.measures, strict=True):
        number = _length(before.cm, after.cm, shown_in)
        if number.base != number.made:
            yield Line(before.title, (number,))


def _yarn(result: Result) -> Iterator[Line]:
    before, after = result.before, result.after
    numbers = tuple(_amounts(before, after))
    if numbers or before.amount.yarn.name != after.amount.yarn.name:
        other = before.amount.yarn.name != after.amount.yarn.name
        note = f"{before.amount.yarn.name} → {after.amount.yarn.name}" if other else ""
        yield Line(_("Yarn"), numbers, note)
    for strand in after.amount.strands:
        balls = _counted(strand.balls, "balls")
        weight = f"{round_half_up(strand.grams)} g"
        name = _("Strand: %(yarn)s") % {"yarn": strand.yarn.name}
        yield Line(name, (Number("–", f"{balls}, {weight}"),))


def _amounts(before: Garment, after: Garment) -> Iterator[Number]:
    pairs: tuple[tuple[int, int, Unit], ...] = (
        (before.amount.metres, after.amount.metres, "m"),
        (before.amount.balls, after.amount.balls, "balls"),
        (round_half_up(before.amount.grams), round_half_up(after.amount.grams), "g"),
    )
    told = pairs if after.amount.is_ball_known else pairs[:1]
    yield from (_count(old, new, unit) for old, new, unit in told if old != new)
