"""How many stitches are really knitted in a piece, row by row, by fabric."""

from collections import Counter

from alterations.errors import ShapingError
from alterations.panels import panels_of
from alterations.pattern import Piece, Section, Size
from alterations.saying import gettext as _
from alterations.shaping import Schedule, spread_any_row, spread_even_rows


def change_per_event(section: Section) -> int:
    """Stitches one shaping event adds (or, below zero, takes away) over all shaped edges."""
    step = section.edges * section.sides
    return step if section.end >= section.start else -step


def odd_stitch(section: Section) -> int:
    """1 where a spread section's difference cannot be shared by its edges (below zero, -1): that
    stitch is worked once, at one side, at the first event. Refuses what two sides cannot share."""
    odd = abs(section.end - section.start) % abs(change_per_event(section))
    if section.shape != "spread" or not odd:
        return 0
    if section.sides > 1:
        raise ShapingError(
            _(
                "From %(start)s to %(end)s stitches cannot be shared between both sides of the "
                "neck; make both sides alike."
            )
            % {"start": section.start, "end": section.end}
        )
    return 1 if section.end > section.start else -1


def events_of(section: Section) -> int:
    """How often a spread section is shaped; an odd stitch goes with the first event."""
    pairs = abs(section.end - section.start) // abs(change_per_event(section))
    return pairs or abs(odd_stitch(section))


def schedule_of(section: Section) -> Schedule:
    """The shaping schedule of a section; plain rows when it is not shaped along its edges.

    Refuses (ShapingError) what does not fit into its rows.
    """
    if section.shape != "spread":
        return Schedule((), section.rows)
    spread = spread_any_row if section.rhythm == "any row" else spread_even_rows
    return spread(section.rows, events_of(section), min(section.plain_end, section.rows))


def stitches_in(section: Section) -> int:
    """Stitches knitted in one section, exact where its shaping can be worked."""
    if section.shape == "edges":
        return _left_for_one_row(section)
    if section.shape == "held":
        return _in_slope(section)
    if section.shape == "neck":
        return _beside_neck(section)
    if section.shape == "spread":
        return _in_spread(section)
    return section.start * section.rows


def _left_for_one_row(section: Section) -> int:
    """Bind-offs fall at the carriage's side, so the second edge keeps its stitches one row more."""
    return (section.start - section.end) // 2 if section.where == "both" else 0


def _in_spread(section: Section) -> int:
    try:
        schedule, change = schedule_of(section), change_per_event(section)
        odd = odd_stitch(section)
        if not odd:
            return schedule.stitches(section.start, change)
        # A single odd stitch alone is all there is to the schedule's one event.
        alone = abs(section.end - section.start) < abs(change)
        late = schedule.rows - schedule.intervals[0]
        return schedule.stitches(section.start, 0 if alone else change) + odd * late
    except ShapingError:
        # The finding says that it cannot be worked; the yarn is then taken from the trapezium.
        return (section.start + section.end) * section.rows // 2


def _in_slope(section: Section) -> int:
    """Each group is held at one edge, a row later at the other; a side by itself loses one group
    every second row."""
    held, total = 0, 0
    together = section.where == "both" and section.sides == 1
    across = section.start // section.sides
    for group in section.groups:
        before, held = held, held + group
        if together:
            total += (across - held - before) + (across - 2 * held)
        else:
            total += 2 * (across - held) * section.sides
    return total


def _beside_neck(section: Section) -> int:
    """Both sides of a neck, two rows to each bind-off, the rest plain."""
    sides = neck_sides(section)
    side, total, rows = (section.start - section.centre) // sides, 0, section.rows
    for step in (0, *section.steps):
        side -= step
        total += min(rows, 2) * side * sides
        rows = max(0, rows - 2)
    return total + rows * side * sides


def neck_sides(section: Section) -> int:
    """Into how many sides a neck parts the piece: two, or one for a half or a front."""
    return section.edges


def knitted(size: Size) -> Counter[str]:
    """Stitches knitted in the whole garment by fabric key, all panels and repeats counted."""
    total: Counter[str] = Counter()
    for piece in size.pieces:
        total.update(_in_piece(piece))
    return total


def _in_piece(piece: Piece) -> Counter[str]:
    """Counted once for each piece; what an alteration leaves alone stays the pattern's piece."""
    known = piece.kept.get("knitted")
    if isinstance(known, Counter):
        return known
    total: Counter[str] = Counter()
    for panel in panels_of(piece):
        for section in panel.sections:
            total[section.fabric] += piece.make * stitches_in(section)
    piece.kept["knitted"] = total
    return total
