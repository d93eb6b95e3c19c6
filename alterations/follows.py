"""What must follow what in a pattern: the rules, and in which order they are worked out."""

from fractions import Fraction

from alterations.gauge import Gauge
from alterations.gauges import fabric_gauge
from alterations.pattern import Follow, Pattern, Section, Size, number_at, split_address
from alterations.rounding import nearest_even, round_half_up, snap_down, square_root

# How many numbers a rule is worked out from: (fewest, most).
SOURCES: dict[str, tuple[int, int]] = {
    "same": (1, 1),
    "rest": (2, 9),
    "sleeve top": (2, 9),
    "notch": (1, 1),
    "shoulders": (1, 1),
    "one shoulder": (1, 1),
    "neck edge": (3, 3),
    "picked up": (1, 20),
}


def in_order(pattern: Pattern) -> tuple[Follow, ...]:
    """The rules so that each comes after those it builds on; refuses a loop, naming it."""
    return pattern.follow_order


def value_of(follow: Follow, size: Size, gauge: Gauge, pattern: Pattern) -> int:
    """What the number that follows must be, in stitches or rows, at the main fabric's gauge."""
    match follow.rule:
        case "same":
            value = number_at(size, follow.of[0])
        case "rest":
            first, *others = (number_at(size, address) for address in follow.of)
            value = first - sum(others)
        case "sleeve top":
            value = sleeve_top(sum(number_at(size, address) for address in follow.of), gauge)
        case "notch":
            value = notch_rows(bound_off(section_at(size, follow.of[0])), gauge)
        case "shoulders":
            section = section_at(size, follow.of[0])
            value = section.start - section.end
        case "one shoulder":
            value = bound_off(section_at(size, follow.of[0]))
        case "picked up":
            value = picked_up(follow, size, gauge, pattern)
        case "neck edge":
            value = neck_edge(follow, size, gauge)
    return value


def sleeve_top(armhole_rows: int, gauge: Gauge) -> int:
    """Stitches of a square-set sleeve's top, which lies along all armhole rows, front and back.

    n = EVEN(rows · w/c + 2): common practice, the two seam stitches added.

    >>> from fractions import Fraction
    >>> sleeve_top(112, Gauge(Fraction(21), Fraction(28)))
    86
    """
    return nearest_even(armhole_rows * gauge.stitches_per_cm / gauge.rows_per_cm + 2)


def notch_rows(stitches: int, gauge: Gauge) -> int:
    """Straight rows of a sleeve along a square notch of so many bound-off stitches, one of which
    the side seam takes.

    >>> from fractions import Fraction
    >>> notch_rows(12, Gauge(Fraction(21), Fraction(28)))
    14
    """
    return nearest_even((stitches - 1) / gauge.stitches_per_cm * gauge.rows_per_cm)


def bound_off(section: Section) -> int:
    """Stitches bound off at each shaped edge."""
    return (section.start - section.end) // section.edges


def picked_up(follow: Follow, size: Size, gauge: Gauge, pattern: Pattern) -> int:
    """Stitches of a band picked up along row-edges and bound-off stitches, snapped to its edge.

    w/c stitches for each row, c of the row's own fabric; one for one along bound-off stitches at
    one edge and along the stitches that a slope left in the middle (common practice).
    """
    edge = size.piece(split_address(follow.what)[0]).edge
    length = Fraction(0)
    for address in follow.of:
        if address.endswith(".rows"):
            section = section_at(size, address)
            fabric = fabric_gauge(pattern, section.fabric, gauge)
            length += section.rows_seen * gauge.stitches_per_cm / fabric.rows_per_cm
        else:
            section = section_at(size, address)
            length += section.end if section.shape == "held" else abs(bound_off(section))
    return snap_down(round_half_up(length), edge.multiple, edge.remainder)


def neck_edge(follow: Follow, size: Size, gauge: Gauge) -> int:
    """Stitches picked up round a neck: the back's neck stitches one for one, the front's edge by
    its length, snapped to the band's edge."""
    back, neck, shoulders = (section_at(size, address) for address in follow.of)
    edge = size.piece(split_address(follow.what)[0]).edge
    front = 2 * round_half_up(neck_edge_cm(neck, shoulders, gauge) * gauge.stitches_per_cm)
    return snap_down(back.end + front, edge.multiple, edge.remainder)


def neck_edge_cm(neck: Section, shoulders: Section, gauge: Gauge) -> Fraction:
    """Length in cm of one side of a front neck, from its centre to the neck point.

    Half the centre bind-off, a slope for each later bind-off, then straight up. The neck point of
    a side held in m groups lies 2(m − 1) rows above the neck rows, as its last group is not
    knitted again.
    """
    width, rows = 1 / gauge.stitches_per_cm, 1 / gauge.rows_per_cm
    length = neck.centre * width / 2
    for step in neck.steps:
        length += square_root((step * width) ** 2 + (2 * rows) ** 2)
    straight = neck_depth_rows(neck, shoulders) - 2 * len(neck.steps)
    return length + straight * rows


def neck_depth_rows(neck: Section, shoulders: Section) -> int:
    """Rows from the centre bind-off to the neck point of the same piece."""
    return neck.rows + max(0, shoulders.rows - 2)


def section_at(size: Size, address: str) -> Section:
    """The section an address lies in."""
    piece, section, _ = split_address(address)
    return size.piece(piece).section(section)
