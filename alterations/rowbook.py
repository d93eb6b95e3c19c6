"""A piece row by row: counter, carriage, what happens, stitches after.

Rules: the carriage starts at the right and crosses with every row; what is bound off is bound off
at the carriage's side, what is held is held at the far side, so a deed whose side the carriage has
not reached waits one row (the usual offset of one row between left and right; common practice).
Bind-offs at the edges fall in the first rows of the section above. By hand the same rows are worked
to and fro, and what is bound off is bound off at the beginning of a row.

The row over all held stitches with which a slope is closed is told with the taking off and counted
nowhere: the pattern's rows and its yarn leave it out as well.
"""

from dataclasses import replace

from alterations.beats import Beat, beats_of, edge_beats
from alterations.carriage import OTHER, Growing, RowStep, Side, counted
from alterations.pattern import HUNG_HEM, Piece, Section, Where
from alterations.rowwords import begun, last_row, parted, taken_back
from alterations.saying import gettext as _
from alterations.shaping import decreases_across, increases_across
from alterations.wording import edge_in_words

__all__ = ["RowStep", "each_row", "mirror", "rowbook"]


def rowbook(
    panel: Piece, *, by_hand: bool = False, begin: str = "cast on", mirrored: bool = False
) -> tuple[RowStep, ...]:
    """One panel from cast-on to its last stitch; give each panel of a parted piece by itself.

    begin: how the first stitches come about ("pick up" for a band). mirrored: with left and right
    exchanged, as the second of two fronts.

    The rows are the piece's, but for bind-offs at the very top, which take the rows between them,
    and for the two rows of a slope that end with nothing in work. The stitches worked agree with
    the count the yarn is worked out from, but for the one row by which a single edge may be later
    (in halves, beside a neck). Refuses (ShapingError) a shaping that does not fit into its rows.
    """
    worked = mirror(panel) if mirrored else panel
    # Stitches picked up by hand from right to left: the first row goes back on the wrong side.
    begins: Side = "left" if by_hand and begin != "cast on" else "right"
    growing = Growing(worked.cast_on, by_hand, begins)
    growing.section = worked.sections[0].key
    growing.step(begun(begin, counted(worked.cast_on, "stitch")))
    _work(growing, worked, worked.sections)
    return tuple(growing.steps)


def mirror(panel: Piece) -> Piece:
    """The panel with left and right exchanged."""
    swap: dict[Where, Where] = {"left": "right", "right": "left", "both": "both"}
    sections = (
        one.but(where=swap[one.where], seam_left=one.seam_right, seam_right=one.seam_left)
        for one in panel.sections
    )
    return replace(panel, sections=tuple(sections))


def each_row(steps: tuple[RowStep, ...]) -> tuple[RowStep, ...]:
    """The same with a line for every single row; the words stand at the first of their rows or,
    where the deed follows them, at the last."""
    found: list[RowStep] = []
    for step in steps:
        if step.rows < 2:
            found.append(step)
            continue
        before = step.total - step.rows
        count = step.worked // step.rows
        told_at = 1 if count == step.stitches else step.rows
        for row in range(1, step.rows + 1):
            is_last = row == step.rows
            found.append(
                replace(
                    step,
                    words=step.words if row == told_at else "",
                    rows=1,
                    total=before + row,
                    counter=step.counter - step.rows + row,
                    side=step.side if (step.rows - row) % 2 == 0 else OTHER[step.side],
                    stitches=step.stitches if is_last else count,
                    worked=count,
                )
            )
    return tuple(found)


def _work(growing: Growing, panel: Piece, sections: tuple[Section, ...]) -> None:
    """Works sections from the bottom up; bind-offs at the edges wait for the rows above them."""
    waiting: list[Beat] = []
    for at, section in enumerate(sections):
        growing.section = section.key
        if section.shape == "edges":
            waiting += _after(waiting, section, growing.side)
            continue
        if section.shape == "across" or _parts(section):
            _run(growing, waiting, 0)
            waiting = []
        if _parts(section):
            _both_sides(growing, panel, sections[at:])
            return
        if section.shape == "across":
            _across(growing, section, is_after_edge=section in panel.sections[:2])
        else:
            _section(growing, panel, section, waiting)
            waiting = []
    _run(growing, waiting, 0)
    _finish(growing, sections[-1])


def _parts(section: Section) -> bool:
    """Whether the piece goes on in two sides from here."""
    return section.shape == "neck" and section.where == "both" and section.sides == 1


def _after(waiting: list[Beat], section: Section, side: Side) -> list[Beat]:
    """The bind-offs of an edge, a row after those that wait already."""
    first = waiting[-1].at + 1 if waiting else 0
    starts = side if first % 2 == 0 else OTHER[side]
    return [replace(beat, at=first + beat.at) for beat in edge_beats(section, starts)]


def _section(growing: Growing, panel: Piece, section: Section, waiting: list[Beat]) -> None:
    is_edge = section.key == panel.sections[0].key and panel.edge.name != "none"
    if is_edge and section.shape == "straight":
        _edge(growing, panel, section)
    else:
        _run(growing, [*waiting, *beats_of(section, growing.side)], section.rows)


def _edge(growing: Growing, panel: Piece, section: Section) -> None:
    """The edge in one step, then the counter back to 000."""
    if section.folded or panel.edge.name == HUNG_HEM:
        half = section.rows // 2
        words = _(
            "%(rows)s, row %(half)s loosely for the fold; then hang the first row on the needles, "
            "stitch by stitch"
        )
        told = {"rows": growing.knit(section.rows), "half": half}
        growing.step(words % told, section.rows)
    else:
        told = {"rib": edge_in_words(panel.edge.name), "rows": counted(section.rows, "row")}
        growing.step(_("rib %(rib)s, %(rows)s") % told, section.rows)
    if len(panel.sections) > 1:
        growing.reset()


def _across(growing: Growing, section: Section, *, is_after_edge: bool) -> None:
    """A row that brings the count right: one at one side, two at both, more spread."""
    if is_after_edge:
        growing.reset()
    more = section.end - section.start
    if more == 1:
        words = _("in the next row increase one stitch at one edge")
    elif more == 2:
        words = _("in the next row increase one stitch at each edge")
    elif more > 2:
        places = ", ".join(map(str, increases_across(section.start, more)))
        words = _("in the next row increase %(count)s stitches, after stitches %(places)s")
        words %= {"count": more, "places": places}
    elif more < 0:
        gaps = "-".join(map(str, decreases_across(section.start, -more)))
        words = _(
            "in the next row work two together %(count)s times, with %(gaps)s stitches before, "
            "between and after"
        )
        words %= {"count": -more, "gaps": gaps}
    else:
        return
    growing.step(words, 0, section.end)


def _run(growing: Growing, beats: list[Beat], rows: int) -> None:
    """Works so many rows with the deeds in them; a deed waits a row for its side."""
    start = growing.total
    for number, beat in enumerate(beats):
        at = max(beat.at, growing.total - start)
        if beat.need is not None and growing.side_after(start + at) != beat.need:
            at += 1
        before = at - (growing.total - start)
        if beat.rows_first:
            _after_rows(growing, beat, before)
            continue
        growing.plain(before)
        is_last = number + 1 == len(beats)
        following = rows - at if is_last else beats[number + 1].at - beat.at
        then = max(0, min(following if following <= 2 else 1, rows - at))
        _then_rows(growing, beat, then)
        if not growing.stitches:
            return
    growing.plain(rows - (growing.total - start))


def _after_rows(growing: Growing, beat: Beat, rows: int) -> None:
    """ "knit 6 rows, then increase one stitch at each edge": the rows over the count before."""
    if not rows:
        growing.step(beat.words, 0, beat.after)
        return
    told = {"before": growing.knit(rows), "after": beat.words}
    words = _("%(before)s, then %(after)s") % told
    growing.step(words, rows)
    growing.steps[-1] = replace(growing.steps[-1], stitches=beat.after)
    growing.stitches = beat.after


def _then_rows(growing: Growing, beat: Beat, rows: int) -> None:
    """ "bind off 12 stitches at the right edge, knit 1 row": the rows over the count after."""
    rows = rows if beat.after else 0
    then = f", {growing.knit(rows)}" if rows else ""
    growing.step(f"{beat.words}{then}", rows, beat.after)


def _both_sides(growing: Growing, panel: Piece, sections: tuple[Section, ...]) -> None:
    """A neck parts the piece: the side where the carriage stands first, then the other one from
    the same row on."""
    neck = sections[0]
    each = (neck.start - neck.centre) // 2
    first = growing.side
    second = OTHER[first]
    begun, zero = growing.total, growing.zero_at
    growing.step(parted(neck.centre, each, second), 0, each)
    for side in (first, second):
        growing.total, growing.zero_at = begun, zero
        growing.section = neck.key
        if side == second:
            growing.step(_other_side(growing, each, side), 0, each)
        _one_side(growing, panel, sections, side)


def _other_side(growing: Growing, stitches: int, side: Side) -> str:
    """How the second side is taken up again where the piece was parted."""
    if growing.by_hand:
        return taken_back(stitches, side)
    counter = f"{growing.total - growing.zero_at:03d}"
    return taken_back(stitches, side, counter, growing.side)


def _one_side(growing: Growing, panel: Piece, sections: tuple[Section, ...], side: Side) -> None:
    """Everything above the centre bind-off on one side, its outer edge at that side."""
    neck = sections[0]
    each = (neck.start - neck.centre) // 2
    own = replace(neck, start=each, end=each - sum(neck.steps), where=side, sides=1, centre=0)
    _run(growing, beats_of(own, growing.side), own.rows)
    above = tuple(
        replace(one, start=one.start // 2, end=one.end // 2, where=side, sides=1)
        for one in sections[1:]
    )
    if above:
        _work(growing, panel, above)
    else:
        _finish(growing, own)


def _finish(growing: Growing, last: Section) -> None:
    """What becomes of the last stitches."""
    growing.section = last.key
    if last.shape == "held":
        if not growing.stitches:
            growing.steps.pop()  # the last group need not be held: all are knitted across at once
        parts = f": {_order(last)}" if last.end else ""
        words = last_row(last.start, by_hand=growing.by_hand)
        growing.step(f"{words}{parts}", 0, 0)
    elif growing.stitches:
        all_stitches = {"stitches": counted(growing.stitches, "stitch")}
        growing.step(_("bind off all %(stitches)s loosely") % all_stitches, 0, 0)


def _order(held: Section) -> str:
    """The held stitches from edge to edge: shoulder, neck, shoulder."""
    shoulder = _("%(stitches)s for the shoulder") % {"stitches": sum(held.groups)}
    neck = _("%(stitches)s for the neck") % {"stitches": held.end}
    return ", ".join([shoulder, neck, *([shoulder] if held.where == "both" else [])])
