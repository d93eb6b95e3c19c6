"""How one stitch more or fewer is told: the deed and the edge, as one phrase."""

from typing import Literal

from alterations.pattern import Section, Where
from alterations.saying import gettext as _
from alterations.saying import gettext_noop

_AT: dict[tuple[bool, Where], str] = {
    (True, "both"): gettext_noop("increase one stitch at each edge"),
    (True, "left"): gettext_noop("increase one stitch at the left edge"),
    (True, "right"): gettext_noop("increase one stitch at the right edge"),
    (False, "both"): gettext_noop("decrease one stitch at each edge"),
    (False, "left"): gettext_noop("decrease one stitch at the left edge"),
    (False, "right"): gettext_noop("decrease one stitch at the right edge"),
}


def one_stitch(where: Where, *, grows: bool) -> str:
    """One stitch more or fewer at each edge, or at one of them.

    >>> one_stitch("both", grows=True), one_stitch("left", grows=False)
    ('increase one stitch at each edge', 'decrease one stitch at the left edge')
    """
    return _(_AT[grows, where])


def one_stitch_once(*, grows: bool) -> str:
    """One stitch more or fewer, wherever it is best hidden."""
    if grows:
        return _("increase one stitch at one edge")
    return _("decrease one stitch at one edge")


def one_stitch_each_side(section: Section) -> str:
    """The same as lists of changed numbers tell it."""
    grows = section.end > section.start
    if section.where != "both":
        return one_stitch(section.where, grows=grows)
    return _("increase one stitch each side") if grows else _("decrease one stitch each side")


Deed = Literal["bind off", "cast on"]
_DEEDS: dict[tuple[Deed, Where], str] = {
    ("bind off", "both"): gettext_noop(
        "bind off %(stitches)s at the beginning of each of the next two rows"
    ),
    ("bind off", "left"): gettext_noop("bind off %(stitches)s at the left edge"),
    ("bind off", "right"): gettext_noop("bind off %(stitches)s at the right edge"),
    ("cast on", "both"): gettext_noop(
        "cast on %(stitches)s at the beginning of each of the next two rows"
    ),
    ("cast on", "left"): gettext_noop("cast on %(stitches)s at the left edge"),
    ("cast on", "right"): gettext_noop("cast on %(stitches)s at the right edge"),
}


def at_edge(deed: Deed, stitches: str, where: Where) -> str:
    """So many stitches bound off or cast on at an edge, or at both in turn.

    >>> at_edge("bind off", "12 stitches", "left")
    'bind off 12 stitches at the left edge'
    """
    return _(_DEEDS[deed, where]) % {"stitches": stitches}
