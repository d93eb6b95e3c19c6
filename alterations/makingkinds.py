"""What a knitter did differently besides lengths, widths and yarn: edges, panels, parts, notes."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar, Literal, Self

from alterations.errors import KindError
from alterations.pattern import EDGES
from alterations.plainfields import LONGEST_NOTE, Plain, exactly, is_yes, needed, one_of, whole
from alterations.saying import gettext as _
from alterations.units import Length, parse_length

ExtraPart = Literal["pocket", "band", "hood", "cord", "buttons", "other part"]
EXTRA_PARTS: tuple[str, ...] = ("pocket", "band", "hood", "cord", "buttons", "other part")
MOST_ROWS = 3000


@dataclass(frozen=True)
class OtherEdge:
    """Another edge (K1P1, K2P2, hung hem …), a deeper or shallower one, or both.

    where is the edge's part ("hem", "cuff", "neckband") or a piece; an empty edge keeps the
    pattern's, no depth keeps its depth in cm. keeps_length takes the difference in depth from the
    rows above, so that the whole length stays.
    """

    where: str
    edge: str = ""
    depth: Length | None = None
    keeps_length: bool = False
    kind: ClassVar[str] = "other_edge"

    def __post_init__(self) -> None:
        if not self.where.strip() or len(self.where) > 120:
            raise KindError(_("Say which edge is another one, for example hem, cuff or neckband."))
        if self.edge and self.edge not in EDGES:
            raise KindError(
                _("“%(edge)s” is no edge; choose one of %(known)s.")
                % {"edge": self.edge[:40], "known": ", ".join(EDGES)}
            )
        if not self.edge and self.depth is None:
            raise KindError(_("Say which edge was worked, or how deep it is."))
        if self.depth is not None and self.depth.amount <= 0:
            raise KindError(_("Give the depth of the edge, above zero."))

    def plain(self) -> Plain:
        """What was said, as texts."""
        fields = {"where": self.where}
        if self.edge:
            fields["edge"] = self.edge
        if self.depth is not None:
            fields["depth"] = exactly(self.depth)
        if self.keeps_length:
            fields["keeps_length"] = "yes"
        return fields

    @classmethod
    def from_plain(cls, fields: Mapping[str, str]) -> Self:
        """Reads {"where": "hem", "edge": "K1P1", "depth": "10 cm", "keeps_length": "yes"}."""
        depth = fields.get("depth", "").strip()
        return cls(
            needed(fields, "where", _("which edge is another one")),
            fields.get("edge", "").strip(),
            parse_length(depth) if depth else None,
            is_yes(fields, "keeps_length"),
        )


@dataclass(frozen=True)
class WorkedInHalves:
    """Pieces worked in two halves with a seam; no name means every piece that may be halved."""

    pieces: tuple[str, ...] = ()
    kind: ClassVar[str] = "worked_in_halves"
    panels: ClassVar[int] = 2

    def plain(self) -> Plain:
        """The pieces' keys."""
        return {"pieces": " ".join(self.pieces)}

    @classmethod
    def from_plain(cls, fields: Mapping[str, str]) -> Self:
        """Reads {"pieces": "back front"} or nothing."""
        return cls(tuple(fields.get("pieces", "").split()))


@dataclass(frozen=True)
class WorkedInPanels:
    """Pieces worked in three panels with two seams; no name means every piece that may be."""

    pieces: tuple[str, ...] = ()
    kind: ClassVar[str] = "worked_in_panels"
    panels: ClassVar[int] = 3

    def plain(self) -> Plain:
        """The pieces' keys."""
        return {"pieces": " ".join(self.pieces)}

    @classmethod
    def from_plain(cls, fields: Mapping[str, str]) -> Self:
        """Reads {"pieces": "back front"} or nothing."""
        return cls(tuple(fields.get("pieces", "").split()))


@dataclass(frozen=True)
class Extra:
    """A part added or left out that no number of the pattern says, with the knitter's words."""

    part: ExtraPart
    is_added: bool = True
    words: str = ""
    kind: ClassVar[str] = "extra"

    def __post_init__(self) -> None:
        if self.part not in EXTRA_PARTS:
            raise KindError(
                _("Say which part it is: one of %(known)s.") % {"known": ", ".join(EXTRA_PARTS)}
            )
        if len(self.words) > LONGEST_NOTE:
            raise KindError(
                _("Please keep the words to %(most)s letters.") % {"most": LONGEST_NOTE}
            )
        if self.part == "other part" and not self.words.strip():
            raise KindError(_("Say in a few words which part was added or left out."))

    def plain(self) -> Plain:
        """The part, what was done with it, and the words."""
        return {
            "part": self.part,
            "deed": "added" if self.is_added else "left out",
            "words": self.words,
        }

    @classmethod
    def from_plain(cls, fields: Mapping[str, str]) -> Self:
        """Reads {"part": "pocket", "deed": "added", "words": "on the left"}."""
        part = one_of(fields, "part", EXTRA_PARTS, _("which part it is"))
        deeds = ("added", "left out")
        deed = one_of(fields, "deed", deeds, _("what was done with it"), deeds[0])
        return cls(part, deed == "added", fields.get("words", "").strip())  # type: ignore[arg-type]


@dataclass(frozen=True)
class OwnFigure:
    """Rows or stitches really worked, as the knitter counted them; changes no number, is compared
    with the computed one. where is "piece.section"; rows, or the stitches at its end."""

    where: str
    rows: int | None = None
    stitches: int | None = None
    kind: ClassVar[str] = "own_figure"

    def __post_init__(self) -> None:
        if not self.where.strip() or len(self.where) > 120:
            raise KindError(_("Say where you counted, for example back.body."))
        if self.rows is None and self.stitches is None:
            raise KindError(_("Give the rows or the stitches you really worked there."))
        for count in (self.rows, self.stitches):
            if count is not None and not 0 <= count <= MOST_ROWS:
                raise KindError(
                    _("Give the rows or stitches counted, between 0 and %(most)s.")
                    % {"most": MOST_ROWS}
                )

    def plain(self) -> Plain:
        """Where, and what was counted."""
        fields = {"where": self.where}
        if self.rows is not None:
            fields["rows"] = str(self.rows)
        if self.stitches is not None:
            fields["stitches"] = str(self.stitches)
        return fields

    @classmethod
    def from_plain(cls, fields: Mapping[str, str]) -> Self:
        """Reads {"where": "back.body", "rows": "118"}."""
        return cls(
            needed(fields, "where", _("where you counted")),
            whole(fields, "rows", _("rows worked")),
            whole(fields, "stitches", _("stitches worked")),
        )


@dataclass(frozen=True)
class FreeNote:
    """Something changed that no number says; kept in the knitter's own words."""

    text: str
    kind: ClassVar[str] = "free_note"

    def __post_init__(self) -> None:
        if not self.text.strip():
            raise KindError(_("The note is empty; write what you changed, or leave the line out."))
        if len(self.text) > LONGEST_NOTE:
            raise KindError(
                _("The note has %(letters)s letters; please keep it to %(most)s.")
                % {"letters": len(self.text), "most": LONGEST_NOTE}
            )

    def plain(self) -> Plain:
        """The words."""
        return {"text": self.text}

    @classmethod
    def from_plain(cls, fields: Mapping[str, str]) -> Self:
        """Reads {"text": "pocket on the left"}."""
        return cls(fields.get("text", ""))
