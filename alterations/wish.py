"""What all alterations of a garment ask for together, by the addresses of its sections."""

from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property

from alterations.pattern import Edge


@dataclass(frozen=True)
class Wider:
    """So many cm of visible width more, from a section on; past the underarm, or only below it."""

    cm: Fraction
    past_underarm: bool = False


@dataclass(frozen=True)
class EdgeWish:
    """Another edge of a piece: its repeat, its fabric, how many rows, whether it is folded."""

    edge: Edge
    fabric: str
    rows: int
    folded: bool = False


@dataclass(frozen=True)
class Bell:
    """A bell at the lower end of a section: its width in cm at the edge, over so many cm."""

    edge_cm: Fraction
    over_cm: Fraction


@dataclass(frozen=True)
class Wish:
    """What all alterations ask for together, added up so that their order plays no part.

    longer: cm to add to the height of "piece.section"; widths: its finished cm at the upper end;
    wider: cm to add to its width; gathers: cm of a sleeve's top beyond what the armhole asks for;
    edges and panels: by the key of the piece; bells: by "piece.section".
    """

    longer: dict[str, Fraction] = field(default_factory=dict)
    widths: dict[str, Fraction] = field(default_factory=dict)
    wider: dict[str, Wider] = field(default_factory=dict)
    gathers: dict[str, Fraction] = field(default_factory=dict)
    edges: dict[str, EdgeWish] = field(default_factory=dict)
    panels: dict[str, int] = field(default_factory=dict)
    bells: dict[str, Bell] = field(default_factory=dict)

    @cached_property
    def pieces(self) -> frozenset[str]:
        """The keys of the pieces something is asked of by their addresses."""
        addresses = (*self.longer, *self.widths, *self.wider, *self.bells)
        return frozenset((*self.edges, *(one.split(".")[0] for one in addresses)))
