"""What a knitter made wider or narrower: body, sleeves, neck."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar, Literal, Self

from alterations.errors import KindError
from alterations.plainfields import Plain, exactly, needed, one_of
from alterations.saying import gettext as _
from alterations.units import Length, parse_length

Into = Literal["underarm", "shoulders"]
Meeting = Literal["deeper armhole", "gathers"]


def refuse_rows(width: Length, what: str, *, may_be_less: bool = False) -> None:
    """Refuses a width given in rows, and one that is nothing or less where that makes no sense."""
    if width.unit == "rows" and may_be_less:
        raise KindError(_("Give the %(what)s in cm or inches.") % {"what": what})
    if width.unit == "rows" or (width.amount <= 0 and not may_be_less):
        raise KindError(_("Give the %(what)s in cm or inches, above zero.") % {"what": what})


@dataclass(frozen=True)
class BodyWidth:
    """The body wider (or, below zero, narrower), in cm or inches all the way round.

    into says where the change ends: at the underarm (the notch takes it; above it everything
    stays) or in the shoulders (the notch stays; cross-back and shoulders take it).
    """

    change: Length
    into: Into = "underarm"
    kind: ClassVar[str] = "body_width"

    def __post_init__(self) -> None:
        refuse_rows(self.change, _("change of width all round"), may_be_less=True)
        if self.into not in ("underarm", "shoulders"):
            raise KindError(
                _("Say whether the underarm or the shoulders take the change of width.")
            )

    def plain(self) -> Plain:
        """The change and where it ends."""
        return {"change": exactly(self.change), "into": self.into}

    @classmethod
    def from_plain(cls, fields: Mapping[str, str]) -> Self:
        """Reads {"change": "6 cm", "into": "underarm"}."""
        choices = ("underarm", "shoulders")
        into = one_of(fields, "into", choices, _("where the width goes"), choices[0])
        change = parse_length(
            needed(fields, "change", _("by how much the body is wider all round"))
        )
        return cls(change, into)  # type: ignore[arg-type]


@dataclass(frozen=True)
class SleeveWidth:
    """The sleeve wider or narrower at the wrist, its top as before: the new finished width."""

    wrist: Length
    kind: ClassVar[str] = "sleeve_width"

    def __post_init__(self) -> None:
        refuse_rows(self.wrist, _("width round the wrist"))

    def plain(self) -> Plain:
        """The width as one text."""
        return {"wrist": exactly(self.wrist)}

    @classmethod
    def from_plain(cls, fields: Mapping[str, str]) -> Self:
        """Reads {"wrist": "20 cm"}."""
        return cls(parse_length(needed(fields, "wrist", _("the new width round the wrist"))))


@dataclass(frozen=True)
class SleeveGirth:
    """The whole sleeve wider (or, below zero, narrower), from the wrist to its top.

    meeting says how the top still meets the body: by an armhole as much deeper, or by gathers.
    """

    change: Length
    meeting: Meeting = "deeper armhole"
    kind: ClassVar[str] = "sleeve_girth"

    def __post_init__(self) -> None:
        refuse_rows(self.change, _("change of the sleeve's width"), may_be_less=True)
        if self.meeting not in ("deeper armhole", "gathers"):
            raise KindError(
                _("Say how the sleeve's top meets the body: deeper armhole or gathers.")
            )
        if self.meeting == "gathers" and self.change.amount < 0:
            raise KindError(
                _(
                    "A narrower sleeve cannot be gathered into the armhole; let the armhole follow "
                    "it."
                )
            )

    def plain(self) -> Plain:
        """The change and how the top is joined."""
        return {"change": exactly(self.change), "meeting": self.meeting}

    @classmethod
    def from_plain(cls, fields: Mapping[str, str]) -> Self:
        """Reads {"change": "3 cm", "meeting": "gathers"}."""
        choices = ("deeper armhole", "gathers")
        meeting = one_of(fields, "meeting", choices, _("how the top is joined"), choices[0])
        change = parse_length(needed(fields, "change", _("by how much the sleeve is wider")))
        return cls(change, meeting)  # type: ignore[arg-type]


@dataclass(frozen=True)
class BellSleeve:
    """A bell: wide at the edge, narrowing over so much length to the pattern's wrist width."""

    edge: Length
    over: Length
    kind: ClassVar[str] = "bell_sleeve"

    def __post_init__(self) -> None:
        refuse_rows(self.edge, _("width at the edge of the bell"))
        if self.over.amount <= 0:
            raise KindError(_("Give the length over which the bell narrows, above zero."))

    def plain(self) -> Plain:
        """Both lengths as texts."""
        return {"edge": exactly(self.edge), "over": exactly(self.over)}

    @classmethod
    def from_plain(cls, fields: Mapping[str, str]) -> Self:
        """Reads {"edge": "44 cm", "over": "20 cm"}."""
        return cls(
            parse_length(needed(fields, "edge", _("the width at the edge of the bell"))),
            parse_length(needed(fields, "over", _("the length over which the bell narrows"))),
        )


@dataclass(frozen=True)
class NeckWidth:
    """The neck wider (or, below zero, narrower), from neck point to neck point."""

    change: Length
    kind: ClassVar[str] = "neck_width"

    def __post_init__(self) -> None:
        refuse_rows(self.change, _("change of the neck's width"), may_be_less=True)

    def plain(self) -> Plain:
        """The change as one text."""
        return {"change": exactly(self.change)}

    @classmethod
    def from_plain(cls, fields: Mapping[str, str]) -> Self:
        """Reads {"change": "2 cm"}."""
        return cls(parse_length(needed(fields, "change", _("by how much the neck is wider"))))
