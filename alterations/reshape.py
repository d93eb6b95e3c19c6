"""The pieces of a size worked out anew: at another gauge, with other lengths and widths.

Every number comes straight from centimetres and is rounded once; what follows others is worked out
after them. What nothing touches stays exactly as the pattern has it.
"""

from dataclasses import dataclass, field, replace
from fractions import Fraction

from alterations.errors import KindError
from alterations.follows import in_order, value_of
from alterations.gauge import Gauge
from alterations.panels import chained, snapped
from alterations.pattern import Follow, Pattern, Piece, Section, Size, number_at, split_address
from alterations.rounding import nearest_even, round_half_up
from alterations.shaping import held_groups, neck_curve


@dataclass(frozen=True)
class Wish:
    """What all alterations ask for together, added up so that their order plays no part.

    lengths: cm to add by part; widths: finished cm by part; halves: keys of pieces.
    """

    lengths: dict[str, Fraction] = field(default_factory=dict)
    widths: dict[str, Fraction] = field(default_factory=dict)
    halves: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Gauges:
    """From the gauge in which the pattern's counts are read as centimetres to the one worked in."""

    pattern: Pattern
    measured: Gauge
    worked: Gauge

    @property
    def same(self) -> bool:
        """Whether counts stay what they are."""
        return self.measured.same_fabric(self.worked)

    def rows_cm(self, section: Section) -> Fraction:
        """Height of a section as measured, in cm."""
        return section.rows / fabric_gauge(self.pattern, section.fabric, self.measured).rows_per_cm

    def rows(self, section: Section, cm: Fraction) -> int:
        """Rows of a section's fabric for so many cm; even where the pattern's machine wants it."""
        rows = cm * fabric_gauge(self.pattern, section.fabric, self.worked).rows_per_cm
        return nearest_even(rows) if self.pattern.even_rows else round_half_up(rows)

    def stitches(self, section: Section, count: int, seams: int) -> int:
        """A count at the worked gauge for the width it had, with the parity it had."""
        before = fabric_gauge(self.pattern, section.fabric, self.measured).stitches_per_cm
        after = fabric_gauge(self.pattern, section.fabric, self.worked).stitches_per_cm
        wanted = (count - seams) / before * after + seams
        if section.where != "both":
            return round_half_up(wanted)
        return nearest_even(wanted - count % 2) + count % 2


def fabric_gauge(pattern: Pattern, key: str, main: Gauge) -> Gauge:
    """The gauge of one fabric when the main one has the given gauge: the ratio between the two
    fabrics is the pattern's own."""
    fabric = pattern.fabric(key)
    if pattern.gauge.same_fabric(main):
        return fabric.gauge
    widthwise = main.stitches_per_cm / pattern.gauge.stitches_per_cm
    lengthwise = main.rows_per_cm / pattern.gauge.rows_per_cm
    return fabric.gauge.scaled(widthwise, lengthwise)


def reshape(size: Size, wish: Wish, gauges: Gauges) -> Size:
    """The size with the wishes worked in, at the worked gauge, everything that follows included.

    Refuses (KindError) a wish for a part the pattern does not have, and rows or stitches that
    would fall to nothing.
    """
    _check_parts(size, wish, gauges.pattern)
    pieces = tuple(_piece(piece, wish, gauges) for piece in size.pieces)
    changed = replace(size, pieces=pieces)
    for follow in in_order(gauges.pattern):
        changed = _followed(follow, size, changed, gauges)
    finished = tuple(
        _finished(base, piece, wish)
        for base, piece in zip(size.pieces, changed.pieces, strict=True)
    )
    changed = replace(changed, pieces=finished)
    # A neck is curved anew only now, so what is picked up along it is counted again.
    for follow in in_order(gauges.pattern):
        if follow.rule == "neck edge":
            changed = _followed(follow, size, changed, gauges)
    return changed


def parts_of(size: Size) -> dict[str, tuple[Piece, Section]]:
    """The parts a person can name in this size, each with the first section it stands for."""
    found: dict[str, tuple[Piece, Section]] = {}
    for piece in size.pieces:
        for section in piece.sections:
            if section.part:
                found.setdefault(section.part, (piece, section))
    return found


def _check_parts(size: Size, wish: Wish, pattern: Pattern) -> None:
    known = parts_of(size)
    for part in (*wish.lengths, *wish.widths):
        if part not in known:
            raise KindError(
                f"{pattern.name} has no {part} that could be changed; it has {', '.join(known)}."
            )
    for key in sorted(wish.halves):
        if not size.piece(key).may_be_halved:
            raise KindError(f"The {size.piece(key).title.lower()} cannot be worked in halves.")


def _piece(piece: Piece, wish: Wish, gauges: Gauges) -> Piece:
    """A piece from its own centimetres and wishes, before anything follows anything."""
    count = piece.cast_on
    if not gauges.same:
        count = gauges.stitches(piece.sections[0], count, piece.sections[0].seams)
    sections: list[Section] = []
    for section in piece.sections:
        sections.append(_section(section, count, wish, gauges))
        count = sections[-1].end
    return _recast(piece, replace(piece, sections=tuple(sections)))


def _section(section: Section, start: int, wish: Wish, gauges: Gauges) -> Section:
    rows, plain = section.rows, section.plain_end
    longer = wish.lengths.get(section.part, Fraction(0)) if section.part else Fraction(0)
    if rows and (longer or not gauges.same):
        rows = gauges.rows(section, gauges.rows_cm(section) + longer)
    if plain and not gauges.same:
        plain = gauges.rows(section, gauges.rows_cm(replace(section, rows=plain)))
    end = _end(section, start, wish, gauges)
    return replace(section, start=start, end=end, rows=rows, plain_end=plain)


def _end(section: Section, start: int, wish: Wish, gauges: Gauges) -> int:
    if section.part in wish.widths:
        worked = fabric_gauge(gauges.pattern, section.fabric, gauges.worked).stitches_per_cm
        return nearest_even(wish.widths[section.part] * worked + section.seams)
    if section.shape == "straight":
        return start
    if section.shape == "neck":
        opening = section.start - section.end
        return start - (opening if gauges.same else gauges.stitches(section, opening, 0))
    if gauges.same or section.end == 0:
        return section.end
    return gauges.stitches(section, section.end, section.seams_at_end)


def _followed(follow: Follow, base: Size, size: Size, gauges: Gauges) -> Size:
    """The size with one number made to follow, if what it follows has changed."""
    touched = not gauges.same or any(has_moved(address, base, size) for address in follow.of)
    if not touched:
        return size
    key, section_key, what = split_address(follow.what)
    value = value_of(follow, size, gauges.worked)
    piece = size.piece(key)
    section = piece.section(section_key)
    if what == "rows":
        piece = piece.with_section(section_key, replace(section, rows=value))
    elif piece.sections[0].key == section_key:
        piece = replace(piece, sections=chained(value, piece.sections))
    else:
        piece = piece.with_section(section_key, replace(section, end=value))
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


def _chain(piece: Piece) -> tuple[Section, ...]:
    return chained(piece.cast_on, piece.sections)


def _recast(base: Piece, piece: Piece) -> Piece:
    """Casts the piece on anew where the count after the edge is no longer the base's."""
    return piece if _above_edge(base) == _above_edge(piece) else snapped(piece)


def _above_edge(piece: Piece) -> int:
    across = (part.end for part in piece.sections if part.shape == "across")
    return next(across, piece.cast_on)


def _finished(base: Piece, piece: Piece, wish: Wish) -> Piece:
    """Refuses what cannot be knitted, shapes slopes and necks anew, parts the piece in halves."""
    sections = tuple(
        _reshaped(old, new, piece) for old, new in zip(base.sections, piece.sections, strict=True)
    )
    panels = 2 if piece.key in wish.halves else piece.panels
    return replace(piece, sections=sections, panels=panels)


def _reshaped(old: Section, new: Section, piece: Piece) -> Section:
    if old.rows and new.rows < 1:
        raise KindError(
            f"{piece.title}, {old.title.lower()}: none of its {old.rows} rows would be left; "
            "shorten it less."
        )
    if old.start and (new.start < 1 or new.end < min(1, old.end)):
        raise KindError(
            f"{piece.title}, {old.title.lower()}: no stitches would be left; make it wider."
        )
    if (old.start, old.end, old.rows) == (new.start, new.end, new.rows):
        return new
    if new.shape == "held":
        groups = held_groups((new.start - new.end) // new.edges, max(1, new.rows // 2))
        return replace(new, groups=groups)
    if new.shape == "neck":
        first, *steps = neck_curve((new.start - new.end) // new.edges, max(1, new.rows // 2))
        return replace(new, centre=first * new.edges, steps=tuple(steps))
    return new
