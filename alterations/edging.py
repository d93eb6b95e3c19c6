"""Another edge: how many rows it takes, in which fabric, and how it sits under the piece."""

from dataclasses import replace
from fractions import Fraction

from alterations.errors import KindError
from alterations.gauges import Gauges
from alterations.makingkinds import OtherEdge
from alterations.panels import correction_row
from alterations.pattern import EDGES, HUNG_HEM, Pattern, Piece, Section
from alterations.saying import gettext as _
from alterations.wish import EdgeWish


def edge_wish(
    pattern: Pattern, piece: Piece, asked: OtherEdge, gauges: Gauges
) -> tuple[EdgeWish, Fraction]:
    """The edge in rows, and by how many cm it is deeper than the piece's own.

    Without a depth the edge is as deep as before in cm; a hung hem is worked twice as deep. Refuses
    (KindError) an edge of no rows.
    """
    section = piece.sections[0]
    edge = EDGES[asked.edge] if asked.edge else piece.edge
    fabric = _fabric(pattern, section, asked.edge)
    folded = asked.edge == HUNG_HEM or (not asked.edge and section.folded)
    made = replace(section, fabric=fabric, folded=folded)
    per_cm = gauges.rows_per_cm(fabric)[1]
    before = gauges.rows_cm(section)
    if asked.depth is None and gauges.same and (fabric, folded) == (section.fabric, section.folded):
        made = replace(made, rows=section.rows)
    elif asked.depth is not None and asked.depth.unit == "rows":
        made = replace(made, rows=_whole_folds(int(asked.depth.amount), folded=folded))
    else:
        made = replace(
            made, rows=gauges.rows(made, asked.depth.in_cm(per_cm) if asked.depth else before)
        )
    if made.rows < 1:
        raise KindError(
            _("%(piece)s: the edge would have no row; make it deeper.") % {"piece": piece.title}
        )
    return EdgeWish(edge, fabric, made.rows, folded), made.rows_seen / per_cm - before


def _fabric(pattern: Pattern, section: Section, edge: str) -> str:
    """Plain edges are worked in the main fabric, ribs in the pattern's own rib if it has one."""
    if not edge:
        return section.fabric
    main = pattern.fabrics[0].key
    if edge in ("none", HUNG_HEM):
        return main
    if section.fabric != main:
        return section.fabric
    return next((fabric.key for fabric in pattern.fabrics[1:]), main)


def _whole_folds(rows: int, *, folded: bool) -> int:
    """Rows as they were given; a fold takes an even number."""
    return rows + rows % 2 if folded else rows


def edged(piece: Piece, wish: EdgeWish | None) -> Piece:
    """The piece with another edge at its lower end; a row above it takes up the difference in
    count where the pattern has none."""
    if wish is None:
        return piece
    first = replace(piece.sections[0], fabric=wish.fabric, folded=wish.folded)
    above = piece.sections[1:]
    if above and wish.edge != piece.edge and all(one.shape != "across" for one in above):
        above = (correction_row(first, above[0]), *above)
    return replace(piece, edge=wish.edge, sections=(first, *above))
