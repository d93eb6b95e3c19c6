"""What to do in each section of a panel, in words with this garment's numbers and the pattern's."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from alterations.carriage import counted
from alterations.errors import ShapingError
from alterations.pairing import paired
from alterations.pattern import Piece, Section
from alterations.stitches import odd_stitch, schedule_of
from alterations.wording import edge_in_words

# How a row of an edge reads so that its rhythm runs on across the seam (derived), or, for a free
# edge, is the same from both ends.
READS = {
    "K1P1": "K1, (K1, P1) to the last stitch, K1",
    "K2P1": "(K2, P1) to the last two stitches, K2",
    "K2P2": "(K2, P2) to the last two stitches, K2",
    "K3P3": "K1, (K3, P3) to the last stitch, K1",
    "K1P1 free": "(K1, P1) to the last stitch, K1",
    "K2P2 free": "(K2, P2) to the last two stitches, K2",
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
    first = f"{begin.capitalize()} {counted(panel.cast_on, 'stitch')}."
    before = f"{begin} {base.cast_on}" if base and base.cast_on != panel.cast_on else ""
    found = [Instruction(first, before)]
    for at, section in enumerate(panel.sections):
        words = _words(panel, section, is_edge=at == 0)
        if not words:
            continue
        old = olds.get(section.key)
        was = _words(base, old, is_edge=at == 0) if base and old else ""
        long = f" Now {height(panel, at)}."
        is_worked = section.rows and _can_be_worked(section)
        measured = long if is_worked and at + 1 < len(panel.sections) else ""
        reads = _reads(panel, section) if at == 0 else ""
        told = f"{section.title}: {words}.{reads}{measured}"
        changed = old is not None and old.rows + abs(old.start - old.end) > 0 and was != words
        found.append(Instruction(told, _numbers(was, words) if changed else ""))
    found += [Instruction(words) for words in _end(panel.sections[-1])]
    return tuple(found)


# A number with its unit; the digits in the name of an edge (K2P1) are none.
_NUMBER = re.compile(
    r"(?<![A-Za-z\d])(\d+(?:-\d+)*)(?![A-Za-z\d])( (?:rows?|stitch(?:es)?|times?)\b)?"
)


def _numbers(was: str, now: str) -> str:
    """The numbers of a step that were others, each with its unit; all of it where words differ.

    >>> _numbers("bind off 12 stitches: 90 stitches", "bind off 11 stitches: 90 stitches")
    '12 stitches'
    """
    if _NUMBER.sub("#", was) != _NUMBER.sub("#", now):
        return was
    pairs = zip(_NUMBER.finditer(was), _NUMBER.finditer(now), strict=True)
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
    return f" A row reads {row}." if row and fits and not section.folded else ""


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
        return (
            f"work {rows} plain, the middle one loosely, then fold and hang the first row (begin "
            "with an open cast-on on waste yarn, so that it can be hung)"
        )
    if is_edge and panel.edge.name != "none":
        return f"{edge_in_words(panel.edge.name)}, {rows}"
    return f"work {rows} straight over {counted(section.start, 'stitch')}"


def _across(section: Section) -> str:
    more = section.end - section.start
    if not more:
        return ""
    deed = "increase" if more > 0 else "decrease"
    where = {1: "one stitch at one edge", 2: "one stitch at each edge"}
    how = where.get(more, f"{counted(abs(more), 'stitch')}, spread evenly")
    return f"in the next row {deed} {how}: {section.end} stitches"


def _edges(section: Section) -> str:
    change = (section.start - section.end) // section.edges
    deed = "bind off" if change > 0 else "cast on"
    where = {
        "both": "at the beginning of each of the next two rows",
        "left": "at the left edge",
        "right": "at the right edge",
    }[section.where]
    left = f": {section.end} stitches" if section.end else ""
    return f"{deed} {counted(abs(change), 'stitch')} {where}{left}"


def _spread(section: Section) -> str:
    try:
        schedule, left_over = schedule_of(section), odd_stitch(section)
    except ShapingError as trouble:
        return str(trouble).rstrip(".")
    if not schedule.runs:
        return f"work {counted(section.rows, 'row')} straight"
    deed = "increase" if section.end > section.start else "decrease"
    where = "at each edge" if section.where == "both" else f"at the {section.where} edge"
    odd = " (and one stitch more, once, at one edge)" if left_over else ""
    return (
        f"over {counted(section.rows, 'row')} {deed} one stitch {where}{odd} {schedule}: "
        f"from {section.start} to {section.end} stitches"
    )


def _held(section: Section) -> str:
    groups = "-".join(map(str, section.groups))
    side = "each shoulder" if section.where == "both" else "the shoulder"
    return (
        f"over {counted(section.rows, 'row')} hold {groups} stitches of {side} in short rows, "
        "outer edge first"
    )


def _neck(section: Section) -> str:
    steps = "-".join(str(step) for step in section.steps if step) or "no more"
    centre = counted(section.centre, "stitch")
    plain = section.rows - 2 * len([step for step in section.steps if step])
    where = "in the centre" if section.where == "both" else "at the neck edge"
    rest = f", the other rows plain ({counted(section.rows, 'row')} in all)" if plain > 0 else ""
    each = (
        "and finish each side by itself: at the neck edge bind off"
        if (section.where == "both")
        else "then at the neck edge"
    )
    return f"bind off {centre} {where}, {each} {steps} on alternate rows{rest}"


def _end(last: Section) -> Iterator[str]:
    if last.shape == "held":
        apart = ", shoulder and neck apart" if last.end else ""
        yield (
            "Work one last row over all stitches, which is not counted, and take them off on waste "
            f"yarn{apart}."
        )
    elif last.end:
        yield f"Bind off all {counted(last.end, 'stitch')} loosely."
