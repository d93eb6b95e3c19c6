"""What to do in each section of a panel, in words with this garment's numbers and the pattern's."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from alterations.carriage import counted
from alterations.errors import ShapingError
from alterations.pairing import paired
from alterations.pattern import Piece, Section
from alterations.rowwords import begun
from alterations.saying import gettext as _
from alterations.saying import gettext_noop
from alterations.shapedwords import Deed, at_edge, one_stitch
from alterations.stitches import odd_stitch, schedule_of
from alterations.wording import edge_in_words

# How a row of an edge reads so that its rhythm runs on across the seam (derived), or, for a free
# edge, is the same from both ends.
READS = {
    "K1P1": gettext_noop("K1, (K1, P1) to the last stitch, K1"),
    "K2P1": gettext_noop("(K2, P1) to the last two stitches, K2"),
    "K2P2": gettext_noop("(K2, P2) to the last two stitches, K2"),
    "K3P3": gettext_noop("K1, (K3, P3) to the last stitch, K1"),
    "K1P1 free": gettext_noop("(K1, P1) to the last stitch, K1"),
    "K2P2 free": gettext_noop("(K2, P2) to the last two stitches, K2"),
}

LengthTold = Callable[[Piece, int], str]


@dataclass(frozen=True)
class Instruction:
    """One step; was holds the pattern's numbers where they are others, or all its words where the
    step itself is another."""

    text: str
    was: str = ""


def instructions(
    panel: Piece, base: Piece | None, *, begin: str, height: LengthTold
) -> tuple[Instruction, ...]:
    """The steps of one panel, bottom to top; base is the pattern's panel, None where it has none.

    height tells how long the piece is from the lower edge to the end of a section.
    """
    olds = {new.key: old for old, new in paired(base, panel)} if base else {}
    has_other = base is not None and base.cast_on != panel.cast_on
    before = begun(begin, str(base.cast_on)) if base and has_other else ""
    found = [Instruction(_first(begin, counted(panel.cast_on, "stitch")), before)]
    for at, section in enumerate(panel.sections):
        words = _words(panel, section, is_edge=at == 0)
        if not words:
            continue
        old = olds.get(section.key)
        was = _words(base, old, is_edge=at == 0) if base and old else ""
        long = " " + _("Now %(height)s.") % {"height": height(panel, at)}
        is_worked = section.rows and _can_be_worked(section)
        measured = long if is_worked and at + 1 < len(panel.sections) else ""
        reads = _reads(panel, section) if at == 0 else ""
        told = f"{section.title}: {words}.{reads}{measured}"
        changed = old is not None and old.rows + abs(old.start - old.end) > 0 and was != words
        found.append(Instruction(told, _numbers(was, words) if changed else ""))
    found += [Instruction(words) for words in _end(panel.sections[-1])]
    return tuple(found)


def _first(begin: str, stitches: str) -> str:
    if begin == "pick up":
        return _("Pick up %(stitches)s.") % {"stitches": stitches}
    return _("Cast on %(stitches)s.") % {"stitches": stitches}


def _number() -> re.Pattern[str]:
    """A number with its unit, in the language spoken; the digits in the name of an edge (K2P1) are
    none."""
    shown = [counted(count, noun) for noun in ("row", "stitch") for count in (1, 2)]
    units = {re.escape(words.lstrip("12 ")) for words in shown} | {_("time"), _("times")}
    unit = "|".join(sorted(units, key=len, reverse=True))
    return re.compile(rf"(?<![A-Za-z\d])(\d+(?:-\d+)*)(?![A-Za-z\d])([ -](?:{unit})\b)?")


def _numbers(was: str, now: str) -> str:
    """The numbers of a step that were others, each with its unit; all of it where words differ.

    >>> _numbers("bind off 12 stitches: 90 stitches", "bind off 11 stitches: 90 stitches")
    '12 stitches'
    """
    number = _number()
    if number.sub("#", was) != number.sub("#", now):
        return was
    pairs = zip(number.finditer(was), number.finditer(now), strict=True)
    others = [old[0] for old, new in pairs if old[1] != new[1]]
    # Single numbers out of a long rhythm could not be told apart.
    return was if len(others) > 2 else ", ".join(others)


def _can_be_worked(section: Section) -> bool:
    try:
        schedule_of(section)
    except ShapingError:
        return False
    return True


def _reads(panel: Piece, section: Section) -> str:
    """How a row of the edge reads, in the count it has."""
    row = READS.get(panel.edge.name, "")
    fits = section.start % panel.edge.multiple == panel.edge.remainder % panel.edge.multiple
    if not row or not fits or section.folded:
        return ""
    return " " + _("A row reads %(row)s.") % {"row": _(row)}


def _words(panel: Piece, section: Section, *, is_edge: bool) -> str:
    """One section in words, without its name."""
    ways: dict[str, Callable[[Section], str]] = {
        "across": _across,
        "edges": _edges,
        "spread": _spread,
        "held": _held,
        "neck": _neck,
    }
    if section.shape in ways:
        return ways[section.shape](section)
    rows = counted(section.rows, "row")
    if section.folded:
        return _(
            "work %(rows)s plain, the middle one loosely, then fold and hang the first row (begin "
            "with an open cast-on on waste yarn, so that it can be hung)"
        ) % {"rows": rows}
    if is_edge and panel.edge.name != "none":
        return f"{edge_in_words(panel.edge.name)}, {rows}"
    stitches = counted(section.start, "stitch")
    return _("work %(rows)s straight over %(stitches)s") % {"rows": rows, "stitches": stitches}


def _across(section: Section) -> str:
    more = section.end - section.start
    if not more:
        return ""
    told = {"stitches": counted(abs(more), "stitch"), "count": section.end}
    if more == 1:
        words = _("in the next row increase one stitch at one edge: %(count)s stitches")
    elif more == 2:
        words = _("in the next row increase one stitch at each edge: %(count)s stitches")
    elif more > 0:
        words = _("in the next row increase %(stitches)s, spread evenly: %(count)s stitches")
    else:
        words = _("in the next row decrease %(stitches)s, spread evenly: %(count)s stitches")
    return words % told


def _edges(section: Section) -> str:
    change = (section.start - section.end) // section.edges
    deed: Deed = "bind off" if change > 0 else "cast on"
    words = at_edge(deed, counted(abs(change), "stitch"), section.where)
    if not section.end:
        return words
    return _("%(deed)s: %(count)s stitches") % {"deed": words, "count": section.end}


def _spread(section: Section) -> str:
    try:
        schedule, left_over = schedule_of(section), odd_stitch(section)
    except ShapingError as trouble:
        return str(trouble).rstrip(".")
    if not schedule.runs:
        return _("work %(rows)s straight") % {"rows": counted(section.rows, "row")}
    words = _("over %(rows)s %(deed)s %(schedule)s: from %(start)s to %(end)s stitches")
    if left_over:
        words = _(
            "over %(rows)s %(deed)s (and one stitch more, once, at one edge) %(schedule)s: from "
            "%(start)s to %(end)s stitches"
        )
    return words % {
        "rows": counted(section.rows, "row"),
        "deed": one_stitch(section.where, grows=section.end > section.start),
        "schedule": schedule,
        "start": section.start,
        "end": section.end,
    }


def _held(section: Section) -> str:
    groups = "-".join(map(str, section.groups))
    told = {"rows": counted(section.rows, "row"), "groups": groups}
    if section.where == "both":
        words = _(
            "over %(rows)s hold %(groups)s stitches of each shoulder in short rows, outer edge "
            "first"
        )
        return words % told
    words = _(
        "over %(rows)s hold %(groups)s stitches of the shoulder in short rows, outer edge first"
    )
    return words % told


def _neck(section: Section) -> str:
    steps = "-".join(str(step) for step in section.steps if step) or _("no more")
    plain = section.rows - 2 * len([step for step in section.steps if step])
    words = _(
        "bind off %(centre)s at the neck edge, then at the neck edge %(steps)s on alternate rows"
    )
    if section.where == "both":
        words = _(
            "bind off %(centre)s in the centre, and finish each side by itself: at the neck edge "
            "bind off %(steps)s on alternate rows"
        )
    told = words % {"centre": counted(section.centre, "stitch"), "steps": steps}
    if plain <= 0:
        return told
    return _("%(deed)s, the other rows plain (%(rows)s in all)") % {
        "deed": told,
        "rows": counted(section.rows, "row"),
    }


def _end(last: Section) -> Iterator[str]:
    if last.shape == "held":
        yield (
            _(
                "Work one last row over all stitches, which is not counted, and take them off on "
                "waste yarn, shoulder and neck apart."
            )
            if last.end
            else _(
                "Work one last row over all stitches, which is not counted, and take them off on "
                "waste yarn."
            )
        )
    elif last.end:
        yield _("Bind off all %(stitches)s loosely.") % {"stitches": counted(last.end, "stitch")}
