"""What a base pattern is made of: sizes, pieces and sections with their own numbers, frozen."""

from dataclasses import dataclass, fields, replace
from fractions import Fraction
from functools import cached_property, lru_cache, reduce
from graphlib import CycleError, TopologicalSorter
from itertools import pairwise
from typing import Literal

from alterations.errors import PatternError
from alterations.gauge import Gauge
from alterations.saying import gettext as _
from alterations.wording import inside

Shape = Literal["straight", "across", "edges", "spread", "held", "neck"]
Where = Literal["both", "left", "right"]
# carriage side: each edge is shaped in its own row, at the side where the carriage stands.
Rhythm = Literal["even rows", "any row", "carriage side"]
Rule = Literal[
    "same", "rest", "sleeve top", "notch", "shoulders", "one shoulder", "neck edge", "picked up"
]
MeasureOf = Literal["width", "height", "notch", "shoulder", "neck depth"]


@dataclass(frozen=True)
class Fabric:
    """One kind of fabric of the garment, with its own gauge.

    loop is the yarn in one of its stitches, as a share of the main fabric's (a rib worked one
    tension step tighter takes 0.9: common practice).
    """

    key: str
    title: str
    gauge: Gauge
    loop: Fraction = Fraction(1)


@dataclass(frozen=True)
class Edge:
    """The repeat of a cast-on edge: counts of the form multiple·n + remainder."""

    name: str = "none"
    multiple: int = 1
    remainder: int = 0


HUNG_HEM = "hung hem"  # plain fabric, worked twice as deep, its first row hung on the last

# Rib KaPb with one stitch taken by the seam at each side runs on across the seam when the count is
# 2 more than a multiple of a + b (derived; K1P1 is even). A free edge is symmetrical in itself.
EDGES: dict[str, Edge] = {
    "none": Edge(),
    HUNG_HEM: Edge(HUNG_HEM),
    "K1P1": Edge("K1P1", 2, 0),
    "K2P1": Edge("K2P1", 3, 2),
    "K2P2": Edge("K2P2", 4, 2),
    "K3P3": Edge("K3P3", 6, 2),
    "K1P1 free": Edge("K1P1 free", 2, 1),
    "K2P2 free": Edge("K2P2 free", 4, 2),
}


@dataclass(frozen=True)
class Section:
    """One stretch of a piece from bottom to top: how many stitches it starts and ends with, how
    many rows it has, how it gets from the one count to the other.

    rows = 0 is a horizontal step. Stitches count the whole piece, seam stitches included.
    shape: straight; across (some stitches more or fewer within one row); edges (bind off or cast on
    at the edges); spread (increase or decrease along the edges); held (short rows); neck (centre
    bound off, then `steps` at each neck edge on alternate rows: two sides afterwards).
    part: what a person calls this stretch when she alters it, for example "body length".
    folded: a hung hem, of which half the rows are measured. belongs_to: the section this one was
    parted from, as a bell from the lower end of a taper.
    """

    key: str
    title: str
    fabric: str
    start: int
    end: int
    rows: int
    shape: Shape = "straight"
    where: Where = "both"
    rhythm: Rhythm = "even rows"
    plain_end: int = 0
    groups: tuple[int, ...] = ()
    centre: int = 0
    steps: tuple[int, ...] = ()
    seam_left: int = 1
    seam_right: int = 1
    sides: int = 1
    part: str = ""
    folded: bool = False
    belongs_to: str = ""

    def but(self, **changed: object) -> "Section":
        """The section with some fields exchanged; several times as fast as dataclasses.replace,
        which matters as a garment is made of hundreds of them. Refuses (TypeError) a field that
        is none."""
        if not changed.keys() <= _FIELDS:
            raise TypeError(f"A section has no field {sorted(changed.keys() - _FIELDS)}.")
        made = object.__new__(Section)
        made.__dict__.update(self.__dict__, **changed)
        return made

    @property
    def rows_seen(self) -> Fraction:
        """Rows that show and measure: half of a folded hem's."""
        return Fraction(self.rows, 2 if self.folded else 1)

    @property
    def seams(self) -> int:
        """Stitches lost to seams at the lower end of the section, both edges together."""
        return self.seam_left + self.seam_right

    @property
    def seams_at_end(self) -> int:
        """Stitches lost to seams at the upper end: held stitches take their seam with them, and a
        half loses its centre seam where the neck begins."""
        if self.shape == "held":
            return {"both": 0, "left": self.seam_right, "right": self.seam_left}[self.where]
        if self.shape == "neck" and self.where != "both":
            return self.seam_left if self.where == "left" else self.seam_right
        return self.seams

    @property
    def edges(self) -> int:
        """How many edges are shaped, 1 or 2."""
        return 2 if self.where == "both" else 1

    @property
    def most(self) -> int:
        """The largest count in the section, held stitches included."""
        return max(self.start, self.end)


_FIELDS = frozenset(field.name for field in fields(Section))


@dataclass(frozen=True)
class Piece:
    """One piece of knitting, bottom to top; its numbers are those of the whole piece even when a
    size works it in several panels with a seam between."""

    key: str
    title: str
    sections: tuple[Section, ...]
    make: int = 1
    edge: Edge = EDGES["none"]
    panels: int = 1
    may_be_halved: bool = False
    words: str = ""

    @cached_property
    def kept(self) -> dict[str, object]:
        """What was worked out from this piece before: its numbers never change."""
        return {}

    @property
    def cast_on(self) -> int:
        """Stitches the piece begins with."""
        return self.sections[0].start

    @property
    def rows(self) -> int:
        """Rows from the first to the last."""
        return sum(section.rows for section in self.sections)

    @property
    def widest(self) -> int:
        """The largest count reached anywhere in the piece."""
        return max(section.most for section in self.sections)

    def section(self, key: str) -> Section:
        """The section of that key; refuses one that is not there and names those that are."""
        for section in self.sections:
            if section.key == key:
                return section
        known = ", ".join(section.key for section in self.sections)
        raise PatternError(
            _("The %(piece)s has no section “%(section)s”; choose one of %(known)s.")
            % {"piece": inside(self.title), "section": key[:40], "known": known}
        )

    def parted(self, key: str) -> tuple[Section, ...]:
        """The section of that key with those parted from it, bottom to top."""
        found = tuple(one for one in self.sections if key in (one.key, one.belongs_to))
        return found if len(found) > 1 else (self.section(key),)

    def with_section(self, key: str, changed: Section) -> "Piece":
        """The same piece with one section exchanged."""
        sections = tuple(changed if section.key == key else section for section in self.sections)
        return replace(self, sections=sections)


@dataclass(frozen=True)
class Size:
    """One size: its pieces, its published amount of yarn in metres, the body it fits in cm."""

    name: str
    pieces: tuple[Piece, ...]
    metres: int
    to_fit_cm: Fraction | None = None

    def piece(self, key: str) -> Piece:
        """The piece of that key; refuses one that is not there."""
        for piece in self.pieces:
            if piece.key == key:
                return piece
        known = ", ".join(piece.key for piece in self.pieces)
        raise PatternError(
            _("Size %(size)s has no piece “%(piece)s”; choose one of %(known)s.")
            % {"size": self.name, "piece": key[:40], "known": known}
        )


@dataclass(frozen=True)
class Follow:
    """A number that follows others: `what` is worked out from `of` by a rule."""

    what: str
    rule: Rule
    of: tuple[str, ...]


@dataclass(frozen=True)
class MeasureRule:
    """A finished measurement: of which kind, along which sections ("back.body")."""

    key: str
    title: str
    of: MeasureOf
    at: tuple[str, ...]


@dataclass(frozen=True)
class Yarn:
    """The pattern's yarn: what one ball weighs (g) and holds (m)."""

    name: str
    ball_grams: Fraction
    ball_metres: Fraction
    fibre: str = ""
    allowance_percent: Fraction = Fraction(8)

    @property
    def tex(self) -> Fraction:
        """Grams per 1000 m."""
        return 1000 * self.ball_grams / self.ball_metres


@dataclass(frozen=True)
class Machine:
    """The needle bed the pattern was written for; hand needles have none."""

    needles: int
    pitch_mm: Fraction | None = None


@dataclass(frozen=True)
class Pattern:
    """A base pattern: everything the library needs to recalculate it."""

    name: str
    designer: str
    fabrics: tuple[Fabric, ...]
    yarn: Yarn
    sizes: tuple[Size, ...]
    series: str = ""
    note: str = ""
    audience: str = "adult"
    garment: str = ""
    even_rows: bool = True
    machine: Machine | None = None
    follows: tuple[Follow, ...] = ()
    measures: tuple[MeasureRule, ...] = ()
    making_up: str = ""

    @property
    def gauge(self) -> Gauge:
        """The gauge of the main fabric, which is the first one named."""
        return self.fabrics[0].gauge

    @property
    def size_names(self) -> tuple[str, ...]:
        """The names of the sizes, in the pattern's order."""
        return tuple(size.name for size in self.sizes)

    def size(self, name: str) -> Size:
        """The size of that name; refuses one that is not there and names those that are."""
        for size in self.sizes:
            if size.name == str(name).strip():
                return size
        raise PatternError(
            _("%(pattern)s has no size “%(size)s”; choose one of %(known)s.")
            % {"pattern": self.name, "size": name, "known": ", ".join(self.size_names)}
        )

    @cached_property
    def follow_order(self) -> tuple[Follow, ...]:
        """The rules so that each comes after those it builds on; refuses a loop, naming it.

        A count also follows the count of the section below it in the same piece.
        """
        rules = {follow.what: follow for follow in self.follows}
        graph = {follow.what: set(follow.of) for follow in self.follows}
        for piece in self.sizes[0].pieces:
            keys = [f"{piece.key}.{section.key}.stitches" for section in piece.sections]
            for below, above in pairwise(keys):
                graph.setdefault(above, set()).add(below)
        try:
            order = tuple(TopologicalSorter(graph).static_order())
        except CycleError as loop:
            way = reduce(_follows, reversed(loop.args[1]))
            raise PatternError(
                _("These numbers follow each other in a loop: %(way)s.") % {"way": way}
            ) from loop
        return tuple(rules[address] for address in order if address in rules)

    @cached_property
    def kept(self) -> dict[tuple[str, str], object]:
        """What was worked out from this pattern before, by its name and size: a pattern's numbers
        never change."""
        return {}

    def fabric(self, key: str) -> Fabric:
        """The fabric of that key; refuses one that is not there."""
        for fabric in self.fabrics:
            if fabric.key == key:
                return fabric
        raise PatternError(
            _("%(pattern)s has no fabric “%(fabric)s”.") % {"pattern": self.name, "fabric": key}
        )


def _follows(one: str, other: str) -> str:
    return _("%(one)s follows %(other)s") % {"one": one, "other": other}


Address = tuple[str, str, str]  # piece, section, "rows" or "stitches"


@lru_cache(maxsize=4096)
def split_address(text: str) -> Address:
    """ "back.body.rows" as its three parts; refuses anything else."""
    parts = text.split(".")
    if len(parts) != 3 or parts[2] not in ("rows", "stitches"):
        raise PatternError(
            _("“%(text)s” names no number; write piece.section.rows or piece.section.stitches.")
            % {"text": text}
        )
    return parts[0], parts[1], parts[2]


def number_at(size: Size, text: str) -> int:
    """The rows of a section, or the stitches it ends with, by its address."""
    piece, section, what = split_address(text)
    found = size.piece(piece).section(section)
    return found.rows if what == "rows" else found.end
