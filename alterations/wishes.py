"""All alterations of one garment added up to one wish, so that their order plays no part."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from alterations import places
from alterations.bodies import for_height
from alterations.edging import edge_wish
from alterations.errors import KindError
from alterations.gauges import Gauges
from alterations.kinds import (
    AnyAlteration,
    ArmholeDepth,
    BellSleeve,
    BodyLength,
    BodyWidth,
    NeckDepth,
    NeckWidth,
    OtherEdge,
    OtherHeight,
    PartLength,
    SleeveGirth,
    SleeveLength,
    SleeveWidth,
    StrandsTogether,
    WorkedInHalves,
    WorkedInPanels,
    YarnSwap,
)
from alterations.pattern import Pattern, Piece, Size
from alterations.places import BODY, SLEEVE, WRIST
from alterations.saying import gettext as _
from alterations.units import LONGEST_CM, Length, show_cm
from alterations.wish import Bell, Wider, Wish
from alterations.wording import inside

MOST_ALTERATIONS = 60
Yarns = YarnSwap | StrandsTogether
_PART_OF: dict[type, str] = {
    BodyLength: BODY,
    SleeveLength: SLEEVE,
    ArmholeDepth: places.ARMHOLE,
    NeckDepth: places.NECK_DEPTH,
}


def yarn_swap_of(alterations: Sequence[AnyAlteration]) -> Yarns | None:
    """The other yarn or strands, if any; refuses two, since a garment has one main yarn."""
    swaps = list(dict.fromkeys(one for one in alterations if isinstance(one, Yarns)))
    if len(swaps) > 1:
        names = ", ".join(sorted(one.name for one in swaps))
        raise KindError(
            _("Two main yarns are given (%(names)s); keep one and note the other.")
            % {"names": names}
        )
    return swaps[0] if swaps else None


def wish_of(
    pattern: Pattern, size: Size, alterations: Sequence[AnyAlteration], gauges: Gauges
) -> Wish:
    """What all alterations ask for together; rows become cm at the gauge worked in.

    Refuses (KindError) more than MOST_ALTERATIONS, parts the pattern does not have, and two
    alterations that contradict each other.
    """
    if len(alterations) > MOST_ALTERATIONS:
        raise KindError(
            _("%(count)s alterations are more than one garment can have; give at most %(most)s.")
            % {"count": len(alterations), "most": MOST_ALTERATIONS}
        )
    adding = _Adding(pattern, size, gauges)
    for one in alterations:
        adding.add(one)
    return adding.wish()


class _Adding:
    """Adds alterations up; each kind has its own way into the wish."""

    def __init__(self, pattern: Pattern, size: Size, gauges: Gauges) -> None:
        self.pattern, self.size, self.gauges = pattern, size, gauges
        self.longer: dict[str, Fraction] = {}
        self.widths: dict[str, Fraction] = {}
        self.wider: dict[str, Wider] = {}
        self.gathers: dict[str, Fraction] = {}
        self.edges: dict[str, OtherEdge] = {}
        self.panels: dict[str, int] = {}
        self.bells: dict[str, Bell] = {}

    def add(self, one: AnyAlteration) -> None:
        """Takes one alteration in; kinds that change no number pass."""
        part = _PART_OF.get(type(one))
        match one:
            case PartLength(where=where, change=change):
                self.lengthen(where, change)
            case BodyLength() | SleeveLength() | ArmholeDepth() | NeckDepth():
                self.lengthen(part or "", one.change)
            case OtherHeight():
                self.height(one)
            case SleeveWidth():
                self.wrist(one)
            case SleeveGirth():
                self.girth(one)
            case BellSleeve():
                self.bell(one)
            case BodyWidth():
                self.body_width(one)
            case NeckWidth():
                self.neck_width(one)
            case OtherEdge():
                self.edge(one)
            case WorkedInHalves() | WorkedInPanels():
                self.in_panels(one)

    def wish(self) -> Wish:
        """Everything together; what adds up to nothing is left out."""
        edges = {}
        kept: dict[str, Fraction] = {}
        self._refuse_one_sided_edges()
        for key, edge in self.edges.items():
            piece = self.size.piece(key)
            edges[key], deeper = edge_wish(self.pattern, piece, edge, self.gauges)
            above = places.stretch_above(piece)
            if edge.keeps_length and above is not None:
                # Back and front change alike, and their common length only once.
                kept[places.led_place(self.pattern, self.size, above)[0]] = -deeper
        for address, cm in kept.items():
            self.longer[address] = self.longer.get(address, Fraction(0)) + cm
        self._refuse_too_much()
        return Wish(
            longer={address: cm for address, cm in self.longer.items() if cm},
            widths=self.widths,
            wider={address: more for address, more in self.wider.items() if more.cm},
            gathers={address: cm for address, cm in self.gathers.items() if cm},
            edges=edges,
            panels=self.panels,
            bells=self.bells,
        )

    def _refuse_too_much(self) -> None:
        """Changes that may be given one by one can add up to what no garment has."""
        widths = (more.cm for more in self.wider.values())
        for cm in (*self.longer.values(), *widths, *self.gathers.values()):
            if abs(cm) > LONGEST_CM:
                raise KindError(
                    _(
                        "Together the changes of one part come to %(cm)s cm; let them come to at "
                        "most %(most)s cm."
                    )
                    % {"cm": show_cm(abs(cm)), "most": LONGEST_CM}
                )

    def _led(self, key: str) -> str:
        """Where the rows above a piece's edge follow from; nothing where there are none."""
        above = places.stretch_above(self.size.piece(key))
        return places.led_place(self.pattern, self.size, above)[0] if above else ""

    def _refuse_one_sided_edges(self) -> None:
        """Pieces that share their length keep it only when the edges of all of them change."""
        keeping = [key for key, edge in self.edges.items() if edge.keeps_length]
        for key in keeping:
            led = self._led(key)
            for other in self.size.pieces:
                if led and other.key not in keeping and self._led(other.key) == led:
                    raise KindError(_unlike_edges(self.size.piece(key), other))

    def lengthen(self, where: str, change: Length) -> None:
        """Adds to every section the place stands for, in cm at its own fabric's gauge."""
        for address, _piece, section in places.length_places(self.pattern, self.size, where):
            cm = change.in_cm(self.gauges.rows_per_cm(section.fabric)[1])
            self.longer[address] = self.longer.get(address, Fraction(0)) + cm

    def wrist(self, one: SleeveWidth) -> None:
        """One finished width for the wrist."""
        for address, *_rest in places.places_of(self.pattern, self.size, WRIST):
            cm = one.wrist.in_cm(1)
            if self.widths.setdefault(address, cm) != cm:
                raise KindError(
                    _("Two different widths are given for the wrist; keep one of them.")
                )

    def body_width(self, one: BodyWidth) -> None:
        """A change all round, shared by the pieces that go round."""
        past = one.into == "shoulders"
        shares = places.width_shares(self.pattern, self.size, places.BODY_WIDTH, self.gauges)
        for (address, *_rest), share in shares:
            self.widen(address, one.change.in_cm(1) * share, past_underarm=past)

    def widen(self, address: str, cm: Fraction, *, past_underarm: bool = False) -> None:
        """Adds to a width; refuses two ways for it to end."""
        before = self.wider.get(address, Wider(Fraction(0), past_underarm))
        if before.past_underarm != past_underarm:
            raise KindError(
                _(
                    "The body is made wider in two ways, at the underarm and in the shoulders; "
                    "keep one of them."
                )
            )
        self.wider[address] = Wider(before.cm + cm, past_underarm)

    def neck_width(self, one: NeckWidth) -> None:
        """A neck wider from neck point to neck point."""
        for address, *_rest in places.places_of(self.pattern, self.size, places.NECK_WIDTH):
            self.widen(address, one.change.in_cm(1))

    def girth(self, one: SleeveGirth) -> None:
        """A sleeve wider all the way up, met by the armhole or gathered into it."""
        cm = one.change.in_cm(1)
        for address, piece, _section in places.places_of(self.pattern, self.size, WRIST):
            self.widen(address, cm)
            if one.meeting == "gathers":
                self.gathers[piece.key] = self.gathers.get(piece.key, Fraction(0)) + cm
        if one.meeting == "deeper armhole":
            # The sleeve's top lies along both sides of the armhole.
            self.lengthen(places.ARMHOLE, Length(cm / 2))

    def bell(self, one: BellSleeve) -> None:
        """One bell for each sleeve."""
        for address, _piece, section in places.places_of(self.pattern, self.size, SLEEVE):
            over = one.over.in_cm(self.gauges.rows_per_cm(section.fabric)[1])
            bell = Bell(one.edge.in_cm(1), over)
            if self.bells.setdefault(address, bell) != bell:
                raise KindError(
                    _("Two different bells are given for the sleeve; keep one of them.")
                )

    def edge(self, one: OtherEdge) -> None:
        """Another edge for every piece it is named for."""
        for key in _edged_pieces(self.pattern, self.size, one.where.strip()):
            if self.edges.setdefault(key, one) != one:
                raise KindError(
                    _("Two different edges are given for the %(piece)s; keep one of them.")
                    % {"piece": inside(self.size.piece(key).title)}
                )

    def height(self, one: OtherHeight) -> None:
        """Body and sleeves by their share of the body height, as far as the pattern has them."""
        proposed = for_height(one.change.in_cm(1))
        known = places.parts_of(self.size)
        for part, cm in ((BODY, proposed.body_cm), (SLEEVE, proposed.sleeve_cm)):
            if part in known:
                self.lengthen(part, Length(cm))

    def in_panels(self, one: WorkedInHalves | WorkedInPanels) -> None:
        """So many panels for the pieces named, or for all that may be parted."""
        for key in one.pieces or tuple(p.key for p in self.size.pieces if p.may_be_halved):
            piece = self.size.piece(key)
            if not piece.may_be_halved:
                raise KindError(
                    _("The %(piece)s cannot be worked in panels.") % {"piece": inside(piece.title)}
                )
            if self.panels.setdefault(key, one.panels) != one.panels:
                raise KindError(
                    _("The %(piece)s is given in two halves and in three panels; keep one of them.")
                    % {"piece": inside(piece.title)}
                )


def _unlike_edges(piece: Piece, other: Piece) -> str:
    return _(
        "The %(piece)s and the %(other)s are as long as each other; give the same edge for both to "
        "keep the length."
    ) % {"piece": inside(piece.title), "other": inside(other.title)}


def _edged_pieces(pattern: Pattern, size: Size, where: str) -> Iterator[str]:
    found = [
        piece.key for piece in size.pieces if where in (piece.key, piece.sections[0].part) and where
    ]
    if not found:
        named = [piece.sections[0].part for piece in size.pieces if piece.sections[0].part]
        known = ", ".join(dict.fromkeys([*named, *(piece.key for piece in size.pieces)]))
        raise KindError(
            _("%(pattern)s has no edge “%(edge)s”; choose one of %(known)s.")
            % {"pattern": pattern.name, "edge": where[:60], "known": known}
        )
    yield from found
