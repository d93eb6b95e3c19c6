"""Which section of a garment as made belongs to which of the base: matched by their keys."""

from dataclasses import replace

from alterations.pattern import Piece, Section


def paired(base: Piece, made: Piece) -> tuple[tuple[Section, Section], ...]:
    """Each section as made with the base's of the same key.

    A section the base does not have (a bell, the row above another edge) is paired with a stand-in
    of no rows, so that its numbers read as "0 rows → 20 rows".
    """
    known = {section.key: section for section in base.sections}
    return tuple((known.get(new.key) or _nothing(new), new) for new in made.sections)


def _nothing(made: Section) -> Section:
    count = made.end if made.shape == "spread" else made.start
    return replace(made, start=count, end=count, rows=0, shape="straight", plain_end=0, groups=())
