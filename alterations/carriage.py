"""Where the carriage stands and what each row holds: a piece as it grows, row by row."""

from dataclasses import dataclass, field, replace
from typing import Literal

from alterations.saying import gettext as _
from alterations.saying import ngettext

Side = Literal["left", "right"]
Noun = Literal["row", "stitch", "ball"]
OTHER: dict[Side, Side] = {"left": "right", "right": "left"}


@dataclass(frozen=True)
class RowStep:
    """One thing to do and the rows that follow it.

    rows: how many rows are knitted with it; total: rows of the piece after it; counter: the row
    counter after it; side: where the carriage stands then (by hand: at which edge the next row
    begins, seen from the side that faces the knitter on right-side rows); stitches: those in work
    afterwards; worked: stitches knitted in its rows.
    """

    section: str
    words: str
    rows: int
    total: int
    counter: int
    side: Side
    stitches: int
    worked: int


@dataclass
class Growing:
    """A piece while it is being written down; the carriage starts at the right with counter 000.

    begins: the side where it starts otherwise, as by hand above picked-up stitches.
    """

    stitches: int
    by_hand: bool = False
    begins: Side = "right"
    section: str = ""
    total: int = 0
    zero_at: int = 0
    steps: list[RowStep] = field(default_factory=list)

    @property
    def side(self) -> Side:
        """At which side the carriage stands: it crosses with every row."""
        return self.side_after(self.total)

    def side_after(self, total: int) -> Side:
        """At which side it stands after so many rows of the piece."""
        return self.begins if total % 2 == 0 else OTHER[self.begins]

    def knit(self, rows: int) -> str:
        """So many rows to be worked, in the word for it."""
        told = {"rows": counted(rows, "row")}
        return _("work %(rows)s") % told if self.by_hand else _("knit %(rows)s") % told

    def step(self, words: str, rows: int = 0, stitches: int | None = None) -> None:
        """Writes one step: what to do, rows knitted over the stitches it leaves in work."""
        self.stitches = self.stitches if stitches is None else stitches
        self.total += rows
        self.steps.append(
            RowStep(
                section=self.section,
                words=words,
                rows=rows,
                total=self.total,
                counter=self.total - self.zero_at,
                side=self.side,
                stitches=self.stitches,
                worked=rows * self.stitches,
            )
        )

    def plain(self, rows: int) -> None:
        """Plain rows over all stitches in work."""
        if rows > 0:
            self.step(self.knit(rows), rows)

    def reset(self) -> None:
        """The row counter back to 000, as after an edge; said with the last step."""
        if self.total > self.zero_at:
            last = self.steps[-1]
            anew = (
                _("%(words)s; then count the rows anew")
                if self.by_hand
                else _("%(words)s; then row counter to 000")
            )
            self.steps[-1] = replace(last, words=anew % {"words": last.words})
        self.zero_at = self.total


def counted(number: int, noun: Noun) -> str:
    """ "1 row", "14 rows", "2 stitches".

    >>> counted(1, "stitch"), counted(3, "stitch")
    ('1 stitch', '3 stitches')
    """
    match noun:
        case "row":
            words = ngettext("%(count)s row", "%(count)s rows", number)
        case "ball":
            words = ngettext("%(count)s ball", "%(count)s balls", number)
        case "stitch":
            words = ngettext("%(count)s stitch", "%(count)s stitches", number)
    return words % {"count": number}
