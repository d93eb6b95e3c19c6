"""A recalculated garment as instructions: what to do, piece by piece, in this garment's numbers."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from alterations.caption import caption
from alterations.carriage import Side, counted
from alterations.errors import ShapingError
from alterations.gauges import fabric_gauge
from alterations.instructions import Instruction, instructions
from alterations.measures import height_cm
from alterations.panels import panels_of
from alterations.pattern import Piece
from alterations.pickups import pick_up_rule, picked_up_along
from alterations.recalculate import Amount, Result
from alterations.rounding import round_half_up
from alterations.rowbook import RowStep, mirror, rowbook
from alterations.saying import gettext as _
from alterations.saying import gettext_noop
from alterations.units import show_cm, show_length

# Said through gettext where they are shown.
AS_PATTERN = gettext_noop(
    "These words are the pattern's; where they give a number, this worksheet's counts."
)
WITH_ITS_NUMBERS = gettext_noop("in the teacher's words, with the pattern's own numbers")
ON_A_BED = (
    gettext_noop("Left and right are yours as you face the bed."),
    gettext_noop("Counter, carriage and stitches are told as they stand when a line is done."),
)
BY_HAND = (
    gettext_noop(
        "Left and right are those of the right side as you look at it: a row on the right side "
        "begins at its right edge, one on the wrong side at its left edge."
    ),
    gettext_noop(
        "Rows and stitches are told as they stand when a line is done, and on which side the next "
        "row is worked."
    ),
    gettext_noop(
        "A rib is read on the right side; on the wrong side work its stitches as they appear."
    ),
)
RIB_ON_A_BED = gettext_noop(
    "A rib is counted with every needle: on a single bed its rows are knitted one tension step "
    "tighter and its purl stitches re-formed by hand with the latch tool, or as the pattern says."
)
FOR_BOTH = (
    gettext_noop(
        "“6 rows, then increase” means: after the sixth row, so that the seventh has the new count."
    ),
    gettext_noop(
        "Lengths are those of the washed and rested garment; on the needles, go by the rows."
    ),
)
HANDS = {
    2: (gettext_noop("%(piece)s, left half"), gettext_noop("%(piece)s, right half")),
    3: (
        gettext_noop("%(piece)s, left panel"),
        gettext_noop("%(piece)s, middle panel"),
        gettext_noop("%(piece)s, right panel"),
    ),
}


@dataclass(frozen=True)
class PieceSheet:
    """One piece to be knitted: its numbered instructions and its rows.

    note says how often it is made and what is mirrored; words are the teacher's own, which tell of
    the pattern's numbers (words_as_pattern: these are this piece's too) and stand with the first
    of several sheets of one piece; trouble stands instead of
    rows that cannot be worked.
    """

    key: str
    title: str
    note: str
    words: str
    instructions: tuple[Instruction, ...]
    rows: tuple[RowStep, ...]
    trouble: str = ""
    words_as_pattern: bool = True


@dataclass(frozen=True)
class Worksheet:
    """The whole garment; facts are names with their words, measures in cm and inches, notes say
    how the instructions are to be read.

    making_up holds the teacher's words for the pattern's own numbers, which may be others here
    (numbers_changed).
    """

    title: str
    caption: str
    facts: tuple[tuple[str, str], ...]
    pieces: tuple[PieceSheet, ...]
    measures: tuple[tuple[str, str], ...]
    making_up: str
    by_hand: bool
    numbers_changed: bool = False
    notes: tuple[str, ...] = ()


def worksheet(result: Result) -> Worksheet:
    """Everything needed at the needles; a shaping that cannot be worked is said in its piece."""
    pattern, garment = result.pattern, result.after
    pairs = zip(result.before.size.pieces, garment.size.pieces, strict=True)
    return Worksheet(
        title=_("%(pattern)s, size %(size)s")
        % {"pattern": pattern.name, "size": garment.size.name},
        caption=caption(result),
        facts=tuple(_facts(result)),
        pieces=tuple(sheet for base, made in pairs for sheet in _sheets(result, base, made)),
        measures=tuple((one.title, show_length(one.cm, "both")) for one in garment.measures),
        making_up=pattern.making_up,
        numbers_changed=result.before.size != garment.size,
        by_hand=result.needles is None,
        notes=(*filter(None, [pattern.note]), *map(_, _reading(result))),
    )


def _reading(result: Result) -> Iterator[str]:
    """How the instructions are to be read."""
    yield from BY_HAND if result.needles is None else ON_A_BED
    ribbed = any(piece.edge.multiple > 1 for piece in result.after.size.pieces)
    if result.needles is not None and ribbed:
        yield RIB_ON_A_BED
    yield from FOR_BOTH


def _facts(result: Result) -> Iterator[tuple[str, str]]:
    pattern, garment = result.pattern, result.after
    told = {"pattern": pattern.name, "designer": pattern.designer}
    yield _("Pattern"), _("%(pattern)s by %(designer)s") % told
    yield _("Size"), garment.size.name
    for amount in garment.amount.strands or (garment.amount,):
        yield _("Yarn"), _yarn(amount)
    for fabric in pattern.fabrics:
        gauge = fabric_gauge(pattern, fabric.key, garment.gauge)
        scaled = fabric is not pattern.fabrics[0] and not garment.gauge.same_fabric(pattern.gauge)
        words = (
            _("%(gauge)s, reckoned from the pattern's own; measure yours")
            if scaled
            else _("%(gauge)s, washed and rested")
        )
        yield _("Gauge, %(fabric)s") % {"fabric": fabric.title}, words % {"gauge": gauge}
    bed = _("a bed of at least %(needles)s needles") % {"needles": _widest(result)}
    yield _("Worked"), bed if result.needles else _("by hand")


def _yarn(amount: Amount) -> str:
    yarn = amount.yarn
    if not amount.is_ball_known:
        return f"{yarn.name}, {amount.metres} m"
    return _("%(yarn)s, %(metres)s m, %(balls)s of %(ball_g)s g = %(ball_m)s m, %(grams)s g") % {
        "yarn": yarn.name,
        "metres": amount.metres,
        "balls": counted(amount.balls, "ball"),
        "ball_g": show_cm(yarn.ball_grams),
        "ball_m": show_cm(yarn.ball_metres),
        "grams": round_half_up(amount.grams),
    }


def _widest(result: Result) -> int:
    panels = [panel for piece in result.after.size.pieces for panel in _panels(piece)]
    return max(panel.widest for panel in panels)


def _panels(piece: Piece) -> tuple[Piece, ...]:
    try:
        return panels_of(piece)
    except ShapingError:
        return (piece,)


def _sheets(result: Result, base: Piece, made: Piece) -> Iterator[PieceSheet]:
    """A sheet for the piece, or one for each of its panels; two where the second is mirrored."""
    panels = _panels(made)
    before = _panels(base) if base.panels == made.panels else ()
    names = HANDS.get(len(panels), ("",))
    for at, panel in enumerate(panels):
        was = before[at] if before else None
        sheet = _sheet(result, made, panel, was)
        title = _(names[at]) % {"piece": made.title} if names[at] else made.title
        as_pattern = base == made and not names[at]
        words = "" if at else made.words
        yield replace(sheet, title=title, words=words, words_as_pattern=as_pattern)
        if made.make == 2 and _is_one_sided(made):
            turned = _sheet(result, made, mirror(panel), mirror(was) if was else None)
            second = _("%(piece)s, the second, left and right exchanged") % {"piece": title}
            yield replace(turned, title=second, note="")


def _sheet(result: Result, piece: Piece, panel: Piece, was: Piece | None) -> PieceSheet:
    begin = "pick up" if pick_up_rule(result, piece) else "cast on"
    rows, trouble = _rows(panel, begin, by_hand=result.needles is None)
    told = instructions(panel, was, begin=begin, height=_Height(result))
    along = tuple(Instruction(words) for words in picked_up_along(result, piece))
    return PieceSheet(
        key=piece.key,
        title=piece.title,
        note=_note(piece),
        words="",
        instructions=(*told[:1], *along, *told[1:]),
        rows=rows,
        trouble=trouble,
    )


def _rows(panel: Piece, begin: str, *, by_hand: bool) -> tuple[tuple[RowStep, ...], str]:
    try:
        return rowbook(panel, by_hand=by_hand, begin=begin), ""
    except ShapingError as trouble:
        return (), str(trouble)


def _note(piece: Piece) -> str:
    said = [_("Make %(count)s.") % {"count": piece.make}] if piece.make > 1 else []
    if piece.panels > 1:
        said.append(_("Each inner seam takes one stitch of both panels it joins."))
    elif piece.make > 1 and _is_one_sided(piece):
        said.append(_("Work the second one with left and right exchanged."))
    return " ".join(said)


def _is_one_sided(piece: Piece) -> bool:
    return any(section.where != "both" for section in piece.sections)


class _Height:
    """How long a piece is up to a section, washed, and before washing where that is known."""

    def __init__(self, result: Result) -> None:
        self.result = result
        swatch = result.swap.swatch if result.swap else None
        self.change = swatch.wash_length if swatch else Fraction(0)

    def __call__(self, panel: Piece, at: int) -> str:
        """From the lower edge to the upper end of the section at that place."""
        total = Fraction(0)
        for section in panel.sections[: at + 1]:
            worked = fabric_gauge(self.result.pattern, section.fabric, self.result.after.gauge)
            total += height_cm(section, worked)
        if not self.change:
            return _("%(length)s long") % {"length": show_length(total, "both")}
        before = total / (1 + self.change / 100)
        return _("%(washed)s long when washed, %(before)s before") % {
            "washed": show_length(total, "both"),
            "before": show_length(before, "both"),
        }


def as_text(sheet: Worksheet, care: tuple[str, ...] = ()) -> str:
    """The worksheet as plain text, to be kept or printed anywhere; care holds sentences to be read
    first, as findings and cautions are."""
    said = [sheet.title, sheet.caption, ""]
    said += [*(f"! {sentence}" for sentence in care), ""] if care else []
    said += [f"{name}: {words}" for name, words in sheet.facts]
    said += ["", *sheet.notes]
    for piece in sheet.pieces:
        first = piece.words if piece.words_as_pattern else ""
        said += ["", piece.title.upper(), *filter(None, (piece.note, first))]
        said += [f"{at}. {_told(one)}" for at, one in enumerate(piece.instructions, start=1)]
        said += [piece.trouble] if piece.trouble else ["", *_table(piece, by_hand=sheet.by_hand)]
    said += [
        "",
        _("FINISHED MEASUREMENTS"),
        *(f"{name}: {words}" for name, words in sheet.measures),
    ]
    if sheet.making_up:
        note = [_(AS_PATTERN)] if sheet.numbers_changed else []
        said += ["", _("MAKING UP"), sheet.making_up, *note]
    theirs = [one for one in sheet.pieces if one.words and not one.words_as_pattern]
    for piece in theirs:
        said += ["", f"{piece.title.upper()}: {_(WITH_ITS_NUMBERS)}", piece.words]
    return "\n".join(said)


def _told(one: Instruction) -> str:
    if not one.was:
        return one.text
    return _("%(text)s (pattern: %(was)s)") % {"text": one.text, "was": one.was}


def _table(piece: PieceSheet, *, by_hand: bool) -> Iterator[str]:
    head = _("next row") if by_hand else _("carriage")
    count, stitches, deed = _("row"), _("stitches"), _("what to do")
    yield f"{count:6}{head:11}  {stitches:8}  {deed}"
    for row in piece.rows:
        side = _next_row(row.side) if by_hand else _carriage(row.side)
        yield f"{row.counter:03d}   {side:11}  {row.stitches:8}  {row.words}"


def _next_row(side: Side) -> str:
    return _("right side") if side == "right" else _("wrong side")


def _carriage(side: Side) -> str:
    return _("right") if side == "right" else _("left")
