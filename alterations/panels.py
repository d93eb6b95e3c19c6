"""A piece as it comes off the needles: cast on to its edge, whole or in panels with seams."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Literal

from alterations.errors import ShapingError
from alterations.pattern import Piece, Section
from alterations.rounding import snap_down
from alterations.saying import gettext as _
from alterations.shaping import held_groups
from alterations.wording import inside

Hand = Literal["left", "right"]
CORRECTION = "correction"


def panels_of(piece: Piece) -> tuple[Piece, ...]:
    """The piece itself, its two halves or its three panels, the left one first; refuses other
    numbers of panels, and panels that would have no stitches."""
    if piece.panels == 1:
        return (piece,)
    if piece.panels == 2:
        return half_of(piece, "left"), half_of(piece, "right")
    if piece.panels == 3:
        return thirds_of(piece)
    raise ShapingError(
        _(
            "The %(piece)s can be worked in one piece, in two halves or in three panels, not in "
            "%(panels)s."
        )
        % {"piece": inside(piece.title), "panels": piece.panels}
    )


def panel_counts(stitches: int, panels: int) -> tuple[int, ...]:
    """A count shared by panels as evenly as can be; each inner seam takes a stitch of both sides.

    >>> panel_counts(246, 2), panel_counts(101, 2), panel_counts(246, 3)
    ((124, 124), (52, 51), (84, 83, 83))
    """
    if panels < 1 or stitches < 1:
        raise ShapingError(
            _("A piece has at least one stitch and one panel; give both above zero.")
        )
    size, larger = divmod(stitches + 2 * (panels - 1), panels)
    return (size + 1,) * larger + (size,) * (panels - larger)


def thirds_of(piece: Piece) -> tuple[Piece, Piece, Piece]:
    """Left panel, middle panel, right panel, with two seams.

    Where a piece has a neck, the seams run up to the neck points: the middle panel is the neck with
    a seam stitch at each side, so that each panel is shaped at one place only. Without a neck the
    count is shared evenly.
    """
    _refuse_above_the_neck(piece)
    middle = _middle_count(piece)
    if not 0 < middle < piece.widest:
        raise ShapingError(
            _("The %(piece)s is too narrow for three panels.") % {"piece": inside(piece.title)}
        )
    left, right = (
        snapped(_panel(piece, tuple(_side_sections(piece, middle, hand))))
        for hand in ("left", "right")
    )
    return left, snapped(_panel(piece, tuple(_middle_sections(piece, middle)))), right


def _refuse_above_the_neck(piece: Piece) -> None:
    """The middle panel ends with the neck and the side panels with their slope."""
    shapes = [section.shape for section in piece.sections]
    neck = next((at for at, shape in enumerate(shapes) if shape in ("held", "neck")), len(shapes))
    last = shapes[-1:] if "held" in shapes[:-1] else []
    if last or any(shape in ("across", "edges") for shape in shapes[neck:]):
        raise ShapingError(
            _(
                "The %(piece)s is shaped above its neck or shoulders, so it cannot be worked in "
                "three panels; work it in two halves."
            )
            % {"piece": inside(piece.title)}
        )


def _panel(piece: Piece, sections: tuple[Section, ...]) -> Piece:
    return replace(piece, sections=sections, panels=1)


def _middle_count(piece: Piece) -> int:
    """Stitches between the two seams, seam stitches not counted."""
    for section in piece.sections:
        if section.shape in ("held", "neck"):
            neck = section.end if section.shape == "held" else section.start - section.end
            return neck + (section.start - neck) % 2
    count = piece.widest
    even = panel_counts(count, 3)[-1] - 2
    return even + (count - even) % 2  # so that both side panels are alike


def _side_sections(piece: Piece, middle: int, hand: Hand) -> Iterator[Section]:
    """A side panel: the outer shaping at one edge; beside the neck it goes straight up."""
    for section in piece.sections:
        start, end = (_side_count(section, at, middle) for at in (section.start, section.end))
        side = replace(section, start=start, end=end, where=hand, sides=1)
        side = replace(
            side,
            seam_left=section.seam_left if hand == "left" else 1,
            seam_right=section.seam_right if hand == "right" else 1,
        )
        if section.shape == "neck":
            side = replace(side, shape="straight", end=start, centre=0, steps=())
        if section.shape == "held":
            groups = held_groups(start, max(1, section.rows // 2))
            side = replace(side, end=0, groups=groups)
        yield side


def _side_count(section: Section, count: int, middle: int) -> int:
    return count // 2 + 1 if section.sides > 1 else (count - middle) // 2 + 1


def _middle_sections(piece: Piece, middle: int) -> Iterator[Section]:
    """The middle panel: straight, then the neck; its seam stitches go with the last bind-off."""
    count = middle + 2
    for section in piece.sections:
        plain = replace(
            section, start=count, end=count, where="both", groups=(), seam_left=1, seam_right=1
        )
        if section.shape == "neck":
            *steps, last = section.steps or (0,)
            taken = (*steps, last + 1)
            yield replace(plain, end=0, centre=count - 2 * sum(taken), steps=taken)
            return
        if section.shape == "across" or (section.rows and section.shape != "edges"):
            yield plain if section.shape == "across" else replace(plain, shape="straight")


def half_of(piece: Piece, hand: Hand) -> Piece:
    """One half of a piece: the internal seam eats one stitch of each half, so n/2 + 1.

    Of an odd count the left half takes the larger part. Outer shaping keeps its numbers, at the
    outer edge only; rows do not change; the half is cast on to its own edge.
    """
    sections = tuple(_half_section(section, hand) for section in piece.sections)
    return snapped(replace(piece, sections=sections, panels=1))


def snapped(piece: Piece) -> Piece:
    """The piece cast on to its edge: the largest count of the edge's form not above the count that
    the row after the edge must have; that row adds the difference.
    """
    at = next((i for i, part in enumerate(piece.sections) if part.shape == "across"), None)
    target = piece.sections[0].start if at is None else piece.sections[at].end
    count = snap_down(target, piece.edge.multiple, piece.edge.remainder)
    if at is None and count != target and len(piece.sections) > 1:
        return _corrected(piece, count)
    if at is None:
        return replace(piece, sections=chained(count, piece.sections))
    lower = tuple(part.but(start=count, end=count) for part in piece.sections[:at])
    correction = piece.sections[at].but(start=count)
    return replace(piece, sections=(*lower, correction, *piece.sections[at + 1 :]))


def _corrected(piece: Piece, count: int) -> Piece:
    """A piece whose pattern needs no correction gets a row for it, so that all above it stays."""
    first, above = piece.sections[0], piece.sections[1:]
    if first.shape != "straight":
        return replace(piece, sections=chained(count, piece.sections))
    row = correction_row(first, above[0]).but(start=count)
    return replace(piece, sections=(first.but(start=count, end=count), row, *above))


def correction_row(edge: Section, above: Section) -> Section:
    """The row above an edge in which stitches are made up for."""
    return Section(
        key=CORRECTION,
        title=_("Above the %(edge)s") % {"edge": inside(edge.title)},
        fabric=above.fabric,
        start=edge.end,
        end=edge.end,
        rows=0,
        shape="across",
        where=edge.where,
        seam_left=edge.seam_left,
        seam_right=edge.seam_right,
        sides=edge.sides,
        belongs_to=edge.key,
    )


def chained(count: int, sections: tuple[Section, ...]) -> tuple[Section, ...]:
    """Sections that each start with the count the one before ended with."""
    chain = []
    for section in sections:
        end = count if section.shape == "straight" else section.end
        same = (section.start, section.end) == (count, end)
        chain.append(section if same else section.but(start=count, end=end))
        count = end
    return tuple(chain)


def _half_section(section: Section, hand: Hand) -> Section:
    joined = section.sides == 1
    start = _half_count(section.start, hand, joined)
    end = _half_count(section.end, hand, joined and section.shape != "neck")
    inner = 1 if joined else 0
    return section.but(
        start=start,
        end=end,
        where=hand,
        sides=1,
        centre=start - end - sum(section.steps) if section.shape == "neck" else 0,
        seam_left=section.seam_left if hand == "left" else inner,
        seam_right=section.seam_right if hand == "right" else inner,
    )


def _half_count(count: int, hand: Hand, joined: bool) -> int:
    if not joined:
        return count // 2
    return (count + 1) // 2 + 1 if hand == "left" else count // 2 + 1
