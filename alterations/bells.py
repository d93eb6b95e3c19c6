"""A bell at the lower end of a sleeve: the stretch above its edge parted in two."""

from dataclasses import replace

from alterations.errors import KindError
from alterations.gauges import Gauges
from alterations.pattern import Piece, Section
from alterations.rounding import nearest_even, round_half_up
from alterations.saying import gettext as _
from alterations.wish import Bell
from alterations.wording import inside

BELL = "bell"


def belled(piece: Piece, key: str, bell: Bell, gauges: Gauges) -> Piece:
    """The piece with the stretch of that key beginning as a bell, its length as before.

    The bell narrows from its width at the edge to the count the stretch began with. Refuses
    (KindError) a bell that is no wider than that, or as long as the whole stretch.
    """
    section = piece.section(key)
    worked = gauges.stitches_per_cm(section.fabric)[1]
    rows = gauges.rows(section, bell.over_cm)
    wanted = bell.edge_cm * worked + section.seams
    count = nearest_even(wanted) if section.where == "both" else round_half_up(wanted)
    if count <= section.start:
        raise KindError(
            _(
                "%(piece)s: a bell of %(stitches)s stitches is no wider than the %(above)s above "
                "it; make its edge wider, or give a new width round the wrist instead."
            )
            % {"piece": piece.title, "stitches": count, "above": section.start}
        )
    if not 0 < rows < section.rows:
        raise KindError(
            _(
                "%(piece)s: a bell of %(rows)s rows does not fit into the %(there)s rows of the "
                "%(section)s; let it narrow over less length."
            )
            % {
                "piece": piece.title,
                "rows": rows,
                "there": section.rows,
                "section": inside(section.title),
            }
        )
    lower = _bell(section, count, rows)
    upper = replace(section, rows=section.rows - rows)
    return _begun_with(replace(piece, sections=tuple(_parted(piece, key, lower, upper))), count)


def _bell(section: Section, count: int, rows: int) -> Section:
    return replace(
        section,
        key=BELL,
        title=_("Bell"),
        start=count,
        end=section.start,
        rows=rows,
        shape="spread",
        plain_end=0,
        part="",
        belongs_to=section.key,
    )


def _parted(piece: Piece, key: str, lower: Section, upper: Section) -> list[Section]:
    found: list[Section] = []
    for section in piece.sections:
        found += [lower, upper] if section.key == key else [section]
    return found


def _begun_with(piece: Piece, count: int) -> Piece:
    """What lies below the bell brought to its count: the edge, and the row that corrects it."""
    found: list[Section] = []
    for at, section in enumerate(piece.sections):
        if section.key == BELL:
            return replace(piece, sections=(*found, *piece.sections[at:]))
        start = section.start if section.shape == "across" else count
        found.append(replace(section, start=start, end=count))
    return piece
