"""The pieces of a size worked out anew: at another gauge, with other lengths, widths and edges.

Every number comes straight from centimetres and is rounded once; what follows others is worked out
after them. What nothing touches stays exactly as the pattern has it.
"""

from dataclasses import replace
from fractions import Fraction

from alterations.bells import belled
from alterations.edging import edged
from alterations.errors import KindError
from alterations.follows import in_order, value_of
from alterations.gauges import Gauges, fabric_gauge
from alterations.pairing import paired
from alterations.panels import chained, panels_of, snapped
from alterations.pattern import Follow, Piece, Section, Size, number_at, split_address
from alterations.rounding import nearest_even
from alterations.saying import gettext as _
from alterations.shaping import held_groups, neck_curve
from alterations.wish import EdgeWish, Wider, Wish
from alterations.wording import inside

__all__ = ["Gauges", "Wish", "fabric_gauge", "has_moved", "reshape"]

_NO_CM = Fraction(0)
_NOTHING = Wider(_NO_CM)


def reshape(size: Size, wish: Wish, gauges: Gauges) -> Size:
    """The size with the wishes worked in, at the worked gauge, everything that follows included.

    Refuses (KindError) rows or stitches that would fall to nothing, and what cannot be shaped.
    """
    if gauges.same and wish == Wish():
        return size
    pieces = tuple(_piece(piece, wish, gauges) for piece in size.pieces)
    changed = replace(size, pieces=pieces)
    for follow in in_order(gauges.pattern):
        changed = _followed(follow, size, changed, wish, gauges)
    finished = tuple(
        _finished(base, piece, wish, gauges)
        for base, piece in zip(size.pieces, changed.pieces, strict=True)
    )
    changed = replace(changed, pieces=finished)
    # A neck is curved anew only now, so what is picked up along it is counted again.
    for follow in in_order(gauges.pattern):
        if follow.rule in ("neck edge", "picked up"):
            changed = _followed(follow, size, changed, wish, gauges)
    return changed


def _piece(piece: Piece, wish: Wish, gauges: Gauges) -> Piece:
    """A piece from its own centimetres and wishes, before anything follows anything."""
    if piece.key not in wish.pieces:
        return piece if gauges.same else _regauged(piece, gauges)
    return _wished(piece, wish, gauges)


def _regauged(piece: Piece, gauges: Gauges) -> Piece:
    """A piece at the worked gauge with nothing asked of it; worked out once for each gauge, since
    a garment and its size without changes share it."""
    known = gauges.regauged.get(id(piece))
    if known is None or known[0] is not piece:
        known = gauges.regauged[id(piece)] = (piece, _at_gauge(piece, gauges))
    return known[1]


def _at_gauge(piece: Piece, gauges: Gauges) -> Piece:
    first = piece.sections[0]
    count = gauges.stitches(first, piece.cast_on, first.seams)
    sections: list[Section] = []
    for section in piece.sections:
        rows = gauges.regauged_rows(section, section.rows) if section.rows else 0
        end = _end(section, count, _NO_CM, None, gauges)
        sections.append(
            section.but(start=count, end=end, rows=rows, plain_end=_plain(section, gauges))
        )
        count = end
    return _recast(piece, replace(piece, sections=tuple(sections)))


def _wished(piece: Piece, wish: Wish, gauges: Gauges) -> Piece:
    made = edged(piece, wish.edges.get(piece.key))
    count = _cast_on(piece, wish, gauges)
    more = _NOTHING
    sections: list[Section] = []
    for section in made.sections:
        address = f"{made.key}.{section.key}"
        own = wish.wider.get(address)
        more = _carried(section, own or more)
        # A neck takes a width of its own; what the body gained goes into the shoulders.
        more = more if section.shape not in ("held", "neck") else own or _NOTHING
        edge = wish.edges.get(piece.key) if section.key == piece.sections[0].key else None
        rows = _rows(section, address, edge, wish, gauges)
        plain = section.plain_end if gauges.same else _plain(section, gauges)
        end = _end(section, count, more.cm, wish.widths.get(address), gauges)
        sections.append(section.but(start=count, end=end, rows=rows, plain_end=plain))
        count = end
    made = replace(made, sections=tuple(sections))
    for section in piece.sections:
        bell = wish.bells.get(f"{piece.key}.{section.key}")
        made = belled(made, section.key, bell, gauges) if bell else made
    return _recast(piece, made)


def _cast_on(piece: Piece, wish: Wish, gauges: Gauges) -> int:
    first = piece.sections[0]
    wider = wish.wider.get(f"{piece.key}.{first.key}", _NOTHING).cm
    if gauges.same and not wider:
        return piece.cast_on
    return gauges.stitches(first, piece.cast_on, first.seams, wider)


def _carried(section: Section, more: Wider) -> Wider:
    """A wider body ends at the underarm, whose bind-off takes it, unless it goes on past it."""
    takes = section.shape == "edges" and section.end < section.start and not more.past_underarm
    return _NOTHING if takes else more


def _rows(section: Section, address: str, edge: EdgeWish | None, wish: Wish, gauges: Gauges) -> int:
    longer = wish.longer.get(address, _NO_CM)
    if edge is not None:
        if not longer:
            return edge.rows
        seen = section.but(rows=edge.rows).rows_seen
        return gauges.rows(section, seen / gauges.rows_per_cm(section.fabric)[1] + longer)
    if section.rows and not longer and not gauges.same:
        return gauges.regauged_rows(section, section.rows)
    if section.rows and longer:
        return gauges.rows(section, gauges.rows_cm(section) + longer)
    return section.rows


def _plain(section: Section, gauges: Gauges) -> int:
    if not section.plain_end:
        return 0
    return gauges.regauged_rows(section, section.plain_end)


def _end(
    section: Section, start: int, wider_cm: Fraction, width_cm: Fraction | None, gauges: Gauges
) -> int:
    """The count at the end of a section: of a wanted width, or of its own and so much wider."""
    if width_cm is not None:
        worked = gauges.stitches_per_cm(section.fabric)[1]
        return nearest_even(width_cm * worked + section.seams)
    if section.shape == "straight":
        return start
    as_it_was = gauges.same and not wider_cm
    if section.shape == "neck":
        opening = section.start - section.end
        return start - (opening if as_it_was else gauges.stitches(section, opening, 0, wider_cm))
    if section.end == 0 or as_it_was:
        return section.end
    return gauges.stitches(section, section.end, section.seams_at_end, wider_cm)


def _followed(follow: Follow, base: Size, size: Size, wish: Wish, gauges: Gauges) -> Size:
    """The size with one number made to follow, if what it follows has changed."""
    key, section_key, what = split_address(follow.what)
    moved = _along_an_edge if follow.rule in ("neck edge", "picked up") else has_moved
    touched = any(moved(address, base, size) for address in follow.of)
    if gauges.same and key not in wish.edges and not touched:
        return size
    value = value_of(follow, size, gauges.worked, gauges.pattern)
    piece = size.piece(key)
    section = piece.section(section_key)
    if follow.rule == "sleeve top" and key in wish.gathers:
        value += nearest_even(wish.gathers[key] * gauges.stitches_per_cm(section.fabric)[1])
    if what == "rows":
        value -= sum(one.rows for one in piece.parted(section_key) if one.key != section_key)
    if value == (section.rows if what == "rows" else section.end):
        return size
    if what == "rows":
        piece = piece.with_section(section_key, section.but(rows=value))
    elif piece.sections[0].key == section_key:
        piece = replace(piece, sections=chained(value, piece.sections))
    else:
        piece = piece.with_section(section_key, section.but(end=value))
        piece = _recast(base.piece(key), replace(piece, sections=_chain(piece)))
    pieces = tuple(piece if one.key == key else one for one in size.pieces)
    return replace(size, pieces=pieces)


def has_moved(address: str, base: Size, size: Size) -> bool:
    """Whether a number, or the count its section starts with, differs from the base."""
    if number_at(base, address) != number_at(size, address):
        return True
    key, section, what = split_address(address)
    before, after = base.piece(key).section(section), size.piece(key).section(section)
    return what == "stitches" and before.start != after.start


def _along_an_edge(address: str, base: Size, size: Size) -> bool:
    """Whether anything of a section differs: its whole edge is what is picked up along."""
    key, section, _ = split_address(address)
    return base.piece(key).section(section) != size.piece(key).section(section)


def _chain(piece: Piece) -> tuple[Section, ...]:
    return chained(piece.cast_on, piece.sections)


def _recast(base: Piece, piece: Piece) -> Piece:
    """Casts the piece on anew where its edge, or the count after it, is no longer the base's."""
    told = [(one.edge, one.cast_on, _above_edge(one)) for one in (base, piece)]
    same = told[0] == told[1]
    return piece if same else snapped(piece)


def _above_edge(piece: Piece) -> int:
    across = (part.end for part in piece.sections if part.shape == "across")
    return next(across, piece.cast_on)


def _finished(base: Piece, piece: Piece, wish: Wish, gauges: Gauges) -> Piece:
    """Refuses what cannot be knitted, shapes slopes and necks anew, parts the piece in panels."""
    panels = wish.panels.get(piece.key, piece.panels)
    if piece is base and panels == piece.panels:
        return piece
    shaped = _shaped(base, piece, gauges)
    if panels != shaped.panels:
        shaped = replace(shaped, panels=panels)
    panels_of(shaped)  # refuses what cannot be parted so
    return shaped


def _shaped(base: Piece, piece: Piece, gauges: Gauges) -> Piece:
    """The piece with its slopes and necks shaped; one that is at the worked gauge as it stands is
    shaped once, with its counted stitches, for the garment and for its size without changes."""
    shared = gauges.regauged.get(id(base))
    if shared is None or shared[1] is not piece:
        return _with_shapes(base, piece)
    known = gauges.shaped.get(id(piece))
    if known is None or known[0] is not piece:
        known = gauges.shaped[id(piece)] = (piece, _with_shapes(base, piece))
    return known[1]


def _with_shapes(base: Piece, piece: Piece) -> Piece:
    sections = tuple(_reshaped(old, new, piece) for old, new in paired(base, piece))
    return replace(piece, sections=sections)


def _reshaped(old: Section, new: Section, piece: Piece) -> Section:
    if old.rows and new.rows < 1:
        raise KindError(
            _("%(piece)s, %(section)s: none of its %(rows)s rows would be left; shorten it less.")
            % {"piece": piece.title, "section": inside(old.title), "rows": old.rows}
        )
    if old.start and (new.start < 1 or new.end < min(1, old.end)):
        raise KindError(
            _("%(piece)s, %(section)s: no stitches would be left; make it wider.")
            % {"piece": piece.title, "section": inside(old.title)}
        )
    if (old.start, old.end, old.rows) == (new.start, new.end, new.rows):
        return new
    return _shaped_anew(old, new, piece)


def _shaped_anew(old: Section, new: Section, piece: Piece) -> Section:
    lost = new.start - new.end
    if new.shape in ("edges", "held", "neck") and lost * (old.start - old.end) < 0:
        raise KindError(
            _(
                "%(piece)s, %(section)s: %(start)s stitches cannot become %(end)s there; change "
                "the width less, or let it go into another part."
            )
            % {
                "piece": piece.title,
                "section": inside(old.title),
                "start": new.start,
                "end": new.end,
            }
        )
    if new.shape == "held":
        return new.but(groups=held_groups(lost // new.edges, max(1, new.rows // 2)))
    if new.shape == "neck":
        first, *steps = neck_curve(lost // new.edges, max(1, new.rows // 2))
        return new.but(centre=first * new.edges, steps=tuple(steps))
    return new
