"""The kinds of alteration a knitter can record, one frozen class each, to and from plain fields."""

from collections.abc import Mapping
from typing import ClassVar, Protocol

from alterations.errors import KindError
from alterations.lengthkinds import (
    ArmholeDepth,
    BodyLength,
    NeckDepth,
    OtherHeight,
    PartLength,
    SleeveLength,
)
from alterations.makingkinds import (
    Extra,
    FreeNote,
    OtherEdge,
    OwnFigure,
    WorkedInHalves,
    WorkedInPanels,
)
from alterations.plainfields import LONGEST_NAME, LONGEST_NOTE, Plain
from alterations.saying import gettext as _
from alterations.widthkinds import BellSleeve, BodyWidth, NeckWidth, SleeveGirth, SleeveWidth
from alterations.yarnkinds import Keep, Strand, StrandsTogether, Swatch, YarnSwap

__all__ = [
    "KINDS",
    "LONGEST_NAME",
    "LONGEST_NOTE",
    "Alteration",
    "AnyAlteration",
    "ArmholeDepth",
    "BellSleeve",
    "BodyLength",
    "BodyWidth",
    "Extra",
    "FreeNote",
    "Keep",
    "NeckDepth",
    "NeckWidth",
    "OtherEdge",
    "OtherHeight",
    "OwnFigure",
    "PartLength",
    "SleeveGirth",
    "SleeveLength",
    "SleeveWidth",
    "Strand",
    "StrandsTogether",
    "Swatch",
    "WorkedInHalves",
    "WorkedInPanels",
    "YarnSwap",
    "from_plain",
    "to_plain",
]


class Alteration(Protocol):
    """What every kind can do: name itself and be written as short texts."""

    kind: ClassVar[str]

    def plain(self) -> Plain:
        """The fields as short texts, the way a form holds them."""
        ...


AnyAlteration = (
    BodyLength
    | BodyWidth
    | ArmholeDepth
    | SleeveLength
    | SleeveWidth
    | SleeveGirth
    | BellSleeve
    | NeckDepth
    | NeckWidth
    | OtherEdge
    | PartLength
    | OtherHeight
    | YarnSwap
    | StrandsTogether
    | WorkedInHalves
    | WorkedInPanels
    | Extra
    | OwnFigure
    | FreeNote
)

_CLASSES: tuple[type[AnyAlteration], ...] = (
    BodyLength,
    BodyWidth,
    ArmholeDepth,
    SleeveLength,
    SleeveWidth,
    SleeveGirth,
    BellSleeve,
    NeckDepth,
    NeckWidth,
    OtherEdge,
    PartLength,
    OtherHeight,
    YarnSwap,
    StrandsTogether,
    WorkedInHalves,
    WorkedInPanels,
    Extra,
    OwnFigure,
    FreeNote,
)
# The short names are stored by the site; never change one.
KINDS: dict[str, type[AnyAlteration]] = {cls.kind: cls for cls in _CLASSES}


def to_plain(alteration: Alteration) -> tuple[str, Plain]:
    """The short stable name of the kind and its fields as texts, ready to be stored."""
    return alteration.kind, alteration.plain()


def from_plain(kind: str, fields: Mapping[str, str]) -> AnyAlteration:
    """An alteration from its stored name and fields; refuses what it does not know.

    >>> from_plain("body_length", {"change": "+5 cm"}).change.amount
    Fraction(5, 1)
    """
    if kind not in KINDS:
        raise KindError(
            _("“%(kind)s” is no kind of alteration; choose one of %(known)s.")
            % {"kind": kind, "known": ", ".join(KINDS)}
        )
    return KINDS[kind].from_plain({name: str(value) for name, value in fields.items()})
