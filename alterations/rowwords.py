"""The longer things to do in a row, as whole phrases: beginnings, a neck's two sides, last rows."""

from alterations.carriage import Side, counted
from alterations.saying import gettext as _
from alterations.saying import gettext_noop

_PARTED: dict[Side, str] = {
    "left": gettext_noop(
        "bind off the %(centre)s in the centre with a length of yarn; take the %(each)s on the "
        "left of them off on waste yarn"
    ),
    "right": gettext_noop(
        "bind off the %(centre)s in the centre with a length of yarn; take the %(each)s on the "
        "right of them off on waste yarn"
    ),
}
_BACK_BY_HAND: dict[Side, str] = {
    "left": gettext_noop(
        "take the %(stitches)s of the left side back on the needles and join the yarn at the neck"
    ),
    "right": gettext_noop(
        "take the %(stitches)s of the right side back on the needles and join the yarn at the neck"
    ),
}
_BACK: dict[tuple[Side, Side], str] = {
    ("left", "left"): gettext_noop(
        "take the %(stitches)s of the left side back on the needles, row counter to %(counter)s, "
        "carriage at the left; join the yarn"
    ),
    ("left", "right"): gettext_noop(
        "take the %(stitches)s of the left side back on the needles, row counter to %(counter)s, "
        "carriage at the right; join the yarn"
    ),
    ("right", "left"): gettext_noop(
        "take the %(stitches)s of the right side back on the needles, row counter to %(counter)s, "
        "carriage at the left; join the yarn"
    ),
    ("right", "right"): gettext_noop(
        "take the %(stitches)s of the right side back on the needles, row counter to %(counter)s, "
        "carriage at the right; join the yarn"
    ),
}


def begun(begin: str, stitches: str) -> str:
    """How the first stitches come about; begin is "cast on" or "pick up".

    >>> begun("pick up", "96 stitches")
    'pick up 96 stitches'
    """
    if begin == "pick up":
        return _("pick up %(stitches)s") % {"stitches": stitches}
    return _("cast on %(stitches)s") % {"stitches": stitches}


def parted(centre: int, each: int, second: Side) -> str:
    """Where a neck parts the piece: its centre, and the stitches of the side that waits."""
    told = {"centre": counted(centre, "stitch"), "each": counted(each, "stitch")}
    return _(_PARTED[second]) % told


def taken_back(stitches: int, side: Side, counter: str = "", carriage: Side | None = None) -> str:
    """The waiting side of a neck taken up again; without a carriage by hand."""
    told = {"stitches": counted(stitches, "stitch")}
    if carriage is None:
        return _(_BACK_BY_HAND[side]) % told
    return _(_BACK[side, carriage]) % {**told, "counter": counter}


def last_row(stitches: int, *, by_hand: bool) -> str:
    """The row over all held stitches with which a slope is closed."""
    told = {"stitches": counted(stitches, "stitch")}
    if by_hand:
        words = _(
            "work one last row over all %(stitches)s (not counted) and take them off on waste yarn"
        )
        return words % told
    words = _(
        "release all needles, knit one last row over all %(stitches)s (not counted) and take them "
        "off on waste yarn"
    )
    return words % told
