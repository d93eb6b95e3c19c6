"""A recalculated garment as instructions: what to do, piece by piece, in this garment's numbers."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from alterations.caption import caption
from alterations.carriage import counted
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
from alterations.units import show_cm, show_length

AS_PATTERN = "These words are the pattern's; where they give a number, this worksheet's counts."
WITH_ITS_NUMBERS = "in the teacher's words, with the pattern's own numbers"
EXCHANGED = "the second, left and right exchanged"
ON_A_BED = (
    "Left and right are yours as you face the bed.",
    "Counter, carriage and stitches are told as they stand when a line is done.",
)
BY_HAND = (
    "Left and right are those of the right side as you look at it: a row on the right side begins "
    "at its right edge, one on the wrong side at its left edge.",
    "Rows and stitches are told as they stand when a line is done, and on which side the next row "
    "is worked.",
    "A rib is read on the right side; on the wrong side work its stitches as they appear.",
)
RIB_ON_A_BED = (
    "A rib is counted with every needle: on a single bed its rows are knitted one tension step "
    "tighter and its purl stitches re-formed by hand with the latch tool, or as the pattern says."
)
FOR_BOTH = (
    "“6 rows, then increase” means: after the sixth row, so that the seventh has the new count.",
    "Lengths are those of the washed and rested garment; on the needles, go by the rows.",
)
NEXT_ROW = {"right": "right side", "left": "wrong side"}
HANDS = {2: ("left half", "right half"), 3: ("left panel", "middle panel", "right panel")}


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
        title=f"{pattern.name}, size {garment.size.name}",
        caption=caption(result),
        facts=tuple(_facts(result)),
        pieces=tuple(sheet for base, made in pairs for sheet in _sheets(result, base, made)),
        measures=tuple((one.title, show_length(one.cm, "both")) for one in garment.measures),
        making_up=pattern.making_up,
        numbers_changed=result.before.size != garment.size,
        by_hand=result.needles is None,
        notes=tuple(_notes(result)),
    )


def _notes(result: Result) -> Iterator[str]:
    """What the teacher says of the whole pattern, and how the instructions are to be read."""
    if result.pattern.note:
        yield result.pattern.note
    yield from BY_HAND if result.needles is None else ON_A_BED
    ribbed = any(piece.edge.multiple > 1 for piece in result.after.size.pieces)
    if result.needles is not None and ribbed:
        yield RIB_ON_A_BED
    yield from FOR_BOTH


def _facts(result: Result) -> Iterator[tuple[str, str]]:
    pattern, garment = result.pattern, result.after
    yield "Pattern", f"{pattern.name} by {pattern.designer}"
    yield "Size", garment.size.name
    for amount in garment.amount.strands or (garment.amount,):
        yield "Yarn", _yarn(amount)
    for fabric in pattern.fabrics:
        gauge = fabric_gauge(pattern, fabric.key, garment.gauge)
        scaled = fabric is not pattern.fabrics[0] and not garment.gauge.same_fabric(pattern.gauge)
        rested = "reckoned from the pattern's own; measure yours" if scaled else "washed and rested"
        yield f"Gauge, {fabric.title}", f"{gauge}, {rested}"
    needles = f"a bed of at least {_widest(result)} needles" if result.needles else "by hand"
    yield "Worked", needles


def _yarn(amount: Amount) -> str:
    yarn = amount.yarn
    if not amount.is_ball_known:
        return f"{yarn.name}, {amount.metres} m"
    ball = f"{show_cm(yarn.ball_grams)} g = {show_cm(yarn.ball_metres)} m"
    return (
        f"{yarn.name}, {amount.metres} m, {counted(amount.balls, 'ball')} of {ball}, "
        f"{round_half_up(amount.grams)} g"
    )


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
        title = f"{made.title}, {names[at]}" if names[at] else made.title
        as_pattern = base == made and not names[at]
        words = "" if at else made.words
        yield replace(sheet, title=title, words=words, words_as_pattern=as_pattern)
        if made.make == 2 and _is_one_sided(made):
            turned = _sheet(result, made, mirror(panel), mirror(was) if was else None)
            yield replace(turned, title=f"{title}, {EXCHANGED}", note="")


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
    often = f"Make {piece.make}. " if piece.make > 1 else ""
    if piece.panels > 1:
        return f"{often}Each inner seam takes one stitch of both panels it joins."
    if piece.make > 1 and _is_one_sided(piece):
        return f"{often}Work the second one with left and right exchanged."
    return often.strip()


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
            return f"{show_length(total, 'both')} long"
        before = total / (1 + self.change / 100)
        washed = f"{show_length(total, 'both')} long when washed"
        return f"{washed}, {show_length(before, 'both')} before"


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
    said += ["", "FINISHED MEASUREMENTS", *(f"{name}: {words}" for name, words in sheet.measures)]
    if sheet.making_up:
        note = [AS_PATTERN] if sheet.numbers_changed else []
        said += ["", "MAKING UP", sheet.making_up, *note]
    theirs = [one for one in sheet.pieces if one.words and not one.words_as_pattern]
    for piece in theirs:
        said += ["", f"{piece.title.upper()}: {WITH_ITS_NUMBERS}", piece.words]
    return "\n".join(said)


def _told(one: Instruction) -> str:
    return f"{one.text} (pattern: {one.was})" if one.was else one.text


def _table(piece: PieceSheet, *, by_hand: bool) -> Iterator[str]:
    yield f"row   {'next row' if by_hand else 'carriage':11}  stitches  what to do"
    for row in piece.rows:
        side = NEXT_ROW[row.side] if by_hand else row.side
        yield f"{row.counter:03d}   {side:11}  {row.stitches:8}  {row.words}"
