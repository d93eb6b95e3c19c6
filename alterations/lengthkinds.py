"""What a knitter made longer or shorter: body, sleeves, armhole, any other stretch."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar, Self

from alterations.errors import KindError
from alterations.plainfields import Plain, exactly, needed
from alterations.saying import gettext as _
from alterations.saying import gettext_noop
from alterations.units import Length, parse_length


@dataclass(frozen=True)
class LongerOrShorter:
    """One stretch made longer (or, below zero, shorter), in cm, inches or rows."""

    change: Length
    kind: ClassVar[str]
    asks: ClassVar[str]

    def plain(self) -> Plain:
        """The change as one text."""
        return {"change": exactly(self.change)}

    @classmethod
    def from_plain(cls, fields: Mapping[str, str]) -> Self:
        """Reads {"change": "-4 cm"}."""
        return cls(parse_length(needed(fields, "change", _(cls.asks))))


@dataclass(frozen=True)
class BodyLength(LongerOrShorter):
    """The body made longer (or, below zero, shorter) between hem and armhole."""

    kind: ClassVar[str] = "body_length"
    asks: ClassVar[str] = gettext_noop("by how much the body is longer")


@dataclass(frozen=True)
class SleeveLength(LongerOrShorter):
    """The sleeves made longer (or, below zero, shorter) between cuff and armhole."""

    kind: ClassVar[str] = "sleeve_length"
    asks: ClassVar[str] = gettext_noop("by how much the sleeves are longer")


@dataclass(frozen=True)
class ArmholeDepth(LongerOrShorter):
    """The armhole made deeper (or, below zero, shallower); sleeve tops follow it."""

    kind: ClassVar[str] = "armhole_depth"
    asks: ClassVar[str] = gettext_noop("by how much the armhole is deeper")


@dataclass(frozen=True)
class NeckDepth(LongerOrShorter):
    """The front neck made deeper (or, below zero, shallower)."""

    kind: ClassVar[str] = "neck_depth"
    asks: ClassVar[str] = gettext_noop("by how much the neck is deeper")


@dataclass(frozen=True)
class OtherHeight(LongerOrShorter):
    """A wearer taller (or, below zero, shorter) than the pattern is written for.

    Body and sleeves change by their share of the body height: a starting value, which measuring
    beats.
    """

    kind: ClassVar[str] = "other_height"
    asks: ClassVar[str] = gettext_noop("by how much the wearer is taller")

    def __post_init__(self) -> None:
        if self.change.unit == "rows":
            raise KindError(_("Give the difference in height in cm or inches."))


@dataclass(frozen=True)
class PartLength:
    """Any stretch made longer or shorter: where is "piece.section", a piece, or a part's name."""

    where: str
    change: Length
    kind: ClassVar[str] = "part_length"

    def __post_init__(self) -> None:
        if not self.where.strip() or len(self.where) > 120:
            raise KindError(_("Say which part is longer or shorter, for example back.body."))

    def plain(self) -> Plain:
        """Where and by how much."""
        return {"where": self.where, "change": exactly(self.change)}

    @classmethod
    def from_plain(cls, fields: Mapping[str, str]) -> Self:
        """Reads {"where": "back.body", "change": "14 rows"}."""
        where = needed(fields, "where", _("which part is longer or shorter"))
        return cls(where, parse_length(needed(fields, "change", _("by how much it is longer"))))
