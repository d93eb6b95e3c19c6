"""What happens in a section and after how many of its rows: a section as a list of beats."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import accumulate

from alterations.carriage import OTHER, Side, counted
from alterations.pattern import Section
from alterations.saying import gettext as _
from alterations.shapedwords import Deed, at_edge, one_stitch, one_stitch_once
from alterations.stitches import change_per_event, odd_stitch, schedule_of


@dataclass(frozen=True)
class Beat:
    """One deed after so many rows of its section.

    after: stitches in work from then on; need: the side where the carriage must stand, if it
    matters; rows_first: the rows before it belong to it ("knit 6 rows, then increase …").
    """

    at: int
    words: str
    after: int
    need: Side | None = None
    rows_first: bool = False


def beats_of(section: Section, side: Side) -> list[Beat]:
    """The beats of a section that begins with the carriage at that side; none for plain rows."""
    if section.shape == "spread":
        return list(_spread(section, side))
    if section.shape == "held":
        return list(_held(section, side))
    if section.shape == "neck":
        return list(_neck_steps(section))
    return []


def edge_beats(section: Section, side: Side) -> list[Beat]:
    """Binding off (or casting on) at the edges, in the first rows of the section above."""
    change = (section.start - section.end) // section.edges
    deed: Deed = "bind off" if change > 0 else "cast on"
    sides: list[Side] = [side, OTHER[side]]
    if section.where != "both":
        sides = [section.where]
    found, left = [], section.start
    for at, edge in enumerate(sides):
        left -= change
        words = at_edge(deed, counted(abs(change), "stitch"), edge)
        found.append(Beat(at, words, left, need=edge))
    return found


def _spread(section: Section, side: Side) -> Iterator[Beat]:
    schedule = schedule_of(section)
    grows = section.end > section.start
    odd, change, now = odd_stitch(section), change_per_event(section), section.start
    alone = abs(section.end - section.start) < abs(change)
    for number, at in enumerate(accumulate(schedule.intervals)):
        now += odd if number == 0 else 0
        if alone:
            yield Beat(at, one_stitch_once(grows=grows), now, rows_first=True)
            continue
        has_more = bool(odd) and number == 0
        if section.rhythm == "carriage side" and section.where == "both":
            first: Side = side if (at - 1) % 2 == 0 else OTHER[side]
            half = change // 2
            yield Beat(at - 1, one_stitch(first, grows=grows), now + half, None, True)
            now += change
            words = _and_more(one_stitch(OTHER[first], grows=grows), has_more=has_more)
            yield Beat(at, words, now, None, True)
            continue
        now += change
        words = _and_more(one_stitch(section.where, grows=grows), has_more=has_more)
        yield Beat(at, words, now, rows_first=True)


def _and_more(words: str, *, has_more: bool) -> str:
    if not has_more:
        return words
    return _("%(deed)s, and one more at one edge") % {"deed": words}


def _held(section: Section, side: Side) -> Iterator[Beat]:
    """Each group at the far side of the carriage; both edges take turns, a row apart."""
    now = section.start
    far = OTHER[side]
    for number, group in enumerate(section.groups):
        edges: list[Side] = [far, side] if section.where == "both" else [section.where]
        for turn, edge in enumerate(edges):
            now -= group
            held = {"stitches": counted(group, "stitch")}
            words = (
                _("hold %(stitches)s at the left edge") % held
                if edge == "left"
                else _("hold %(stitches)s at the right edge") % held
            )
            yield Beat(2 * number + turn, words, now, need=OTHER[edge])


def _neck_steps(section: Section) -> Iterator[Beat]:
    """One side of a neck: its part of the centre, then each bind-off two rows after the last."""
    neck_edge = OTHER[section.where] if section.where != "both" else None
    now = section.start - section.centre
    if section.centre:
        words = _bound_off(section.centre)
        yield Beat(0, words, now, need=neck_edge)
    for number, step in enumerate(section.steps, start=1):
        now -= step
        if step:
            yield Beat(2 * number, _bound_off(step), now, need=neck_edge)


def _bound_off(count: int) -> str:
    return _("bind off %(stitches)s at the neck edge") % {"stitches": counted(count, "stitch")}
