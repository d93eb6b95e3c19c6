"""The kinds of alteration a knitter can record, one frozen class each, to and from plain fields."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar, Literal, Protocol, Self

from alterations.errors import KindError
from alterations.gauge import Basis, Gauge
from alterations.units import Length, parse_length, parse_number

Keep = Literal["measurements", "counts"]
Plain = dict[str, str]

LONGEST_NOTE = 2000
LONGEST_NAME = 120


class Alteration(Protocol):
    """What every kind can do: name itself and be written as short texts."""

    kind: ClassVar[str]

    def plain(self) -> Plain:
        """The fields as short texts, the way a form holds them."""
        ...


@dataclass(frozen=True)
class BodyLength:
    """The body made longer (or, below zero, shorter) between hem and armhole."""

    change: Length
    kind: ClassVar[str] = "body_length"

    def plain(self) -> Plain:
        return {"change": exactly(self.change)}

    @classmethod
    def from_plain(cls, fields: Mapping[str, str]) -> Self:
        """Reads {"change": "5 cm"}."""
        return cls(parse_length(needed(fields, "change", "by how much the body is longer")))


@dataclass(frozen=True)
class SleeveLength:
    """The sleeves made longer (or, below zero, shorter) between cuff and armhole."""

    change: Length
    kind: ClassVar[str] = "sleeve_length"

    def plain(self) -> Plain:
        return {"change": exactly(self.change)}

    @classmethod
    def from_plain(cls, fields: Mapping[str, str]) -> Self:
        """Reads {"change": "-4 cm"}."""
        return cls(parse_length(needed(fields, "change", "by how much the sleeves are longer")))


@dataclass(frozen=True)
class SleeveWidth:
    """The sleeve wider or narrower at the wrist: the new finished width all the way round."""

    wrist: Length
    kind: ClassVar[str] = "sleeve_width"

    def __post_init__(self) -> None:
        if self.wrist.unit == "rows" or self.wrist.amount <= 0:
            raise KindError("Give the width round the wrist in cm or inches, above zero.")

    def plain(self) -> Plain:
        return {"wrist": exactly(self.wrist)}

    @classmethod
    def from_plain(cls, fields: Mapping[str, str]) -> Self:
        """Reads {"wrist": "20 cm"}."""
        return cls(parse_length(needed(fields, "wrist", "the new width round the wrist")))


@dataclass(frozen=True)
class YarnSwap:
    """Another yarn, perhaps with its own gauge, keeping the measurements or the counts."""

    name: str
    ball_grams: Fraction | None = None
    ball_metres: Fraction | None = None
    gauge: Gauge | None = None
    keep: Keep = "measurements"
    kind: ClassVar[str] = "yarn_swap"

    def __post_init__(self) -> None:
        if not self.name.strip() or len(self.name) > LONGEST_NAME:
            raise KindError(f"Give the yarn a name of at most {LONGEST_NAME} letters.")
        if self.keep not in ("measurements", "counts"):
            raise KindError("Say whether the measurements or the counts were kept.")
        for amount in (self.ball_grams, self.ball_metres):
            if amount is not None and not 0 < amount <= 10_000:
                raise KindError("Give the grams and metres of one ball, between 0 and 10000.")

    @property
    def tex(self) -> Fraction | None:
        """Grams per 1000 m, if the ball band told it."""
        if self.ball_grams is None or self.ball_metres is None:
            return None
        return 1000 * self.ball_grams / self.ball_metres

    def plain(self) -> Plain:
        fields = {"name": self.name, "keep": self.keep}
        if self.ball_grams is not None:
            fields["ball_grams"] = str(self.ball_grams)
        if self.ball_metres is not None:
            fields["ball_metres"] = str(self.ball_metres)
        if self.gauge is not None:
            fields["stitches"] = str(self.gauge.stitches)
            fields["rows"] = str(self.gauge.rows)
            fields["basis"] = self.gauge.basis
        return fields

    @classmethod
    def from_plain(cls, fields: Mapping[str, str]) -> Self:
        """Reads name, keep, ball_grams, ball_metres, stitches, rows, basis; only name is needed."""
        return cls(
            name=needed(fields, "name", "the name of the yarn"),
            ball_grams=number(fields, "ball_grams", "grams of one ball"),
            ball_metres=number(fields, "ball_metres", "metres of one ball"),
            gauge=_gauge(fields),
            keep=fields.get("keep") or "measurements",  # type: ignore[arg-type]
        )


@dataclass(frozen=True)
class WorkedInHalves:
    """Pieces worked in two halves with a seam; no name means every piece that may be halved."""

    pieces: tuple[str, ...] = ()
    kind: ClassVar[str] = "worked_in_halves"

    def plain(self) -> Plain:
        return {"pieces": " ".join(self.pieces)}

    @classmethod
    def from_plain(cls, fields: Mapping[str, str]) -> Self:
        """Reads {"pieces": "back front"} or nothing."""
        return cls(tuple(fields.get("pieces", "").split()))


@dataclass(frozen=True)
class FreeNote:
    """Something changed that no number says; kept in the knitter's own words."""

    text: str
    kind: ClassVar[str] = "free_note"

    def __post_init__(self) -> None:
        if not self.text.strip():
            raise KindError("The note is empty; write what you changed, or leave the line out.")
        if len(self.text) > LONGEST_NOTE:
            raise KindError(
                f"The note has {len(self.text)} letters; please keep it to {LONGEST_NOTE}."
            )

    def plain(self) -> Plain:
        return {"text": self.text}

    @classmethod
    def from_plain(cls, fields: Mapping[str, str]) -> Self:
        """Reads {"text": "pocket on the left"}."""
        return cls(fields.get("text", ""))


AnyAlteration = BodyLength | SleeveLength | SleeveWidth | YarnSwap | WorkedInHalves | FreeNote

_CLASSES = (BodyLength, SleeveLength, SleeveWidth, YarnSwap, WorkedInHalves, FreeNote)
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
        raise KindError(f"“{kind}” is no kind of alteration; choose one of {', '.join(KINDS)}.")
    return KINDS[kind].from_plain({name: str(value) for name, value in fields.items()})


def exactly(length: Length) -> str:
    """A length without any rounding, as parse_length reads it again: "61/12 in"."""
    return f"{length.amount} {length.unit}"


def needed(fields: Mapping[str, str], name: str, meaning: str) -> str:
    """A field that must be there."""
    value = fields.get(name, "").strip()
    if not value:
        raise KindError(f"Please give {meaning}.")
    return value


def number(fields: Mapping[str, str], name: str, meaning: str) -> Fraction | None:
    """A number that may be left out."""
    value = fields.get(name, "").strip()
    return parse_number(value, meaning) if value else None


def _gauge(fields: Mapping[str, str]) -> Gauge | None:
    stitches = number(fields, "stitches", "stitches of the gauge")
    rows = number(fields, "rows", "rows of the gauge")
    if stitches is None and rows is None:
        return None
    if stitches is None or rows is None:
        raise KindError("A gauge needs both its stitches and its rows; please give the other one.")
    basis: Basis = fields.get("basis") or "10cm"  # type: ignore[assignment]
    return Gauge(stitches, rows, basis)
