"""In which rows to increase, decrease, bind off or hold: the spreading rules of shaping.

"Every a rows" means: knit a rows, then shape; the new count is used from the following row.
"""

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache, reduce
from itertools import pairwise

from alterations.errors import ShapingError
from alterations.rounding import round_half_up, square_root
from alterations.saying import gettext as _
from alterations.saying import ngettext


@dataclass(frozen=True)
class Run:
    """So many times: knit `every` rows, then shape."""

    every: int
    times: int

    def __str__(self) -> str:
        told = {"every": self.every, "times": self.times}
        if self.every == 1:
            return ngettext("every row %(times)s time", "every row %(times)s times", self.times) % (
                told
            )
        return (
            ngettext(
                "every %(every)s rows %(times)s time",
                "every %(every)s rows %(times)s times",
                self.times,
            )
            % told
        )


@dataclass(frozen=True)
class Schedule:
    """Runs of shaping events, then plain rows to the end."""

    runs: tuple[Run, ...]
    plain_end: int = 0

    @property
    def events(self) -> int:
        """How many times the piece is shaped."""
        return sum(run.times for run in self.runs)

    @property
    def rows(self) -> int:
        """All rows, the plain ones at the end included."""
        return sum(run.every * run.times for run in self.runs) + self.plain_end

    @property
    def intervals(self) -> tuple[int, ...]:
        """The rows knitted before each event, in order."""
        return tuple(run.every for run in self.runs for _ in range(run.times))

    def stitches(self, start: int, change: int) -> int:
        """Stitches knitted over all rows, from a start count and the change at each event."""
        total, count = 0, start
        for run in self.runs:
            # so many times the count, which grows by the change after each time
            total += run.every * run.times * (2 * count + (run.times - 1) * change) // 2
            count += run.times * change
        return total + self.plain_end * count

    def __str__(self) -> str:
        parts = [str(run) for run in self.runs]
        if self.plain_end:
            plain = ngettext("%(count)s plain row", "%(count)s plain rows", self.plain_end)
            parts.append(plain % {"count": self.plain_end})
        return reduce(_then, parts) if parts else _("nothing to work")


def _then(before: str, after: str) -> str:
    return _("%(before)s, then %(after)s") % {"before": before, "after": after}


@lru_cache(maxsize=4096)
def spread_any_row(rows: int, events: int, plain_end: int = 0) -> Schedule:
    """Spreads events over rows; any row may be shaped. Short intervals first.

    The trade's method (common practice): q = n div k, r = n mod k; k − r times every q rows, then r
    times every q + 1. Refuses more events than rows.

    >>> str(spread_any_row(50, 9))
    'every 5 rows 4 times, then every 6 rows 5 times'
    """
    _check_spread(rows, events, plain_end)
    free = rows - plain_end
    if events == 0:
        return Schedule((), rows)
    if events > free:
        raise ShapingError(_too_many(free, events, free))
    every, longer = divmod(free, events)
    return Schedule(_runs(every, events - longer, every + 1, longer), plain_end)


@lru_cache(maxsize=4096)
def spread_even_rows(rows: int, events: int, plain_end: int = 0) -> Schedule:
    """Spreads events over double rows, so that the carriage is back at its side each time.

    Works in u = n div 2 double rows; an odd row stays plain at the end. Refuses more events than
    double rows.

    >>> str(spread_even_rows(108, 16, plain_end=6))
    'every 6 rows 13 times, then every 8 rows 3 times, then 6 plain rows'
    """
    _check_spread(rows, events, plain_end)
    free = rows - plain_end
    doubles = free // 2
    if events == 0:
        return Schedule((), rows)
    if events > doubles:
        raise ShapingError(_too_many(free, events, doubles))
    every, longer = divmod(doubles, events)
    runs = _runs(2 * every, events - longer, 2 * (every + 1), longer)
    return Schedule(runs, plain_end + free - 2 * doubles)


def event_rows(rows: int, events: int) -> tuple[int, ...]:
    """The straightest line: events after rows floor(i·n/k), the even spacing of line drawing.

    Same intervals as spread_any_row, only interleaved (Bresenham's rule, from memory).

    >>> event_rows(40, 7)
    (5, 11, 17, 22, 28, 34, 40)
    """
    _check_spread(rows, events, 0)
    return tuple(i * rows // events for i in range(1, events + 1))


def carriage_rows(rows: int, events: int) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Rows after which the left and the right side are shaped, each at the carriage's side.

    With the carriage starting at the right, left events fall after odd rows, right after even ones.

    >>> carriage_rows(24, 4)
    ((5, 11, 17, 23), (6, 12, 18, 24))
    """
    right, row = [], 0
    for interval in spread_even_rows(rows, events).intervals:
        row += interval
        right.append(row)
    return tuple(row - 1 for row in right), tuple(right)


def stitches_at_once(rows: int, changes: int) -> tuple[tuple[int, int], ...]:
    """When there are more changes than rows: (how many rows, stitches each) pairs that add up.

    >>> stitches_at_once(50, 60)
    ((40, 1), (10, 2))
    """
    if rows <= 0 or changes < 0:
        raise ShapingError(
            _("Without a single row nothing can be shaped; give the part more rows.")
        )
    most = -(-changes // rows)
    pairs = ((rows * most - changes, most - 1), (changes - rows * (most - 1), most))
    return tuple(pair for pair in pairs if pair[0] > 0 and pair[1] > 0)


def increases_across(stitches: int, increases: int) -> tuple[int, ...]:
    """After which stitches of one row to increase, centred: floor((2i − 1)·n / 2m).

    >>> increases_across(113, 1)
    (56,)
    """
    return tuple((2 * i - 1) * stitches // (2 * increases) for i in range(1, increases + 1))


def decreases_across(stitches: int, decreases: int) -> tuple[int, ...]:
    """Plain stitches before, between and after the k2tog of one row.

    >>> decreases_across(110, 8)
    (10, 10, 11, 10, 11, 10, 11, 10, 11)
    """
    plain = stitches - 2 * decreases
    if plain < 0:
        raise ShapingError(
            _("%(decreases)s decreases need %(needed)s stitches, and the row has %(stitches)s.")
            % {"decreases": decreases, "needed": 2 * decreases, "stitches": stitches}
        )
    gaps = decreases + 1
    return tuple(j * plain // gaps - (j - 1) * plain // gaps for j in range(1, gaps + 1))


def held_groups(stitches: int, groups: int) -> tuple[int, ...]:
    """Stitches to hold in each double row of a slope, larger groups first (from the outer edge).

    >>> held_groups(31, 5)
    (7, 6, 6, 6, 6)
    """
    if groups <= 0 or stitches < 0:
        raise ShapingError(_("A slope needs at least one group of stitches to hold."))
    size, larger = divmod(stitches, groups)
    return (size + 1,) * larger + (size,) * (groups - larger)


@lru_cache(maxsize=1024)
def neck_curve(half_width: int, double_rows: int) -> tuple[int, ...]:
    """Stitches taken away on one side of a round neck in each double row; the first is half the
    centre bind-off.

    A quarter ellipse, rounded, then sorted largest first, as rounding can make it wobble.

    >>> neck_curve(26, 4)
    (17, 6, 2, 1)
    """
    if double_rows <= 0 or half_width < 0:
        raise ShapingError(_("A neck needs at least two rows; make it deeper."))
    reach = [
        round_half_up(half_width * square_root(1 - (1 - Fraction(j, double_rows)) ** 2))
        for j in range(double_rows + 1)
    ]
    steps = (after - before for before, after in pairwise(reach))
    return tuple(sorted(steps, reverse=True))


def _check_spread(rows: int, events: int, plain_end: int) -> None:
    if rows < 0 or events < 0 or not 0 <= plain_end <= rows:
        raise ShapingError(
            _(
                "%(events)s shapings over %(rows)s rows with %(plain)s plain rows cannot be "
                "worked; give the part more rows."
            )
            % {"events": events, "rows": rows, "plain": plain_end}
        )


def _too_many(rows: int, events: int, places: int) -> str:
    return ngettext(
        "%(events)s shapings do not fit into %(rows)s rows (%(places)s place); make the part "
        "longer, change the width less, or shape several stitches at once.",
        "%(events)s shapings do not fit into %(rows)s rows (%(places)s places); make the part "
        "longer, change the width less, or shape several stitches at once.",
        places,
    ) % {"events": events, "rows": rows, "places": places}


def _runs(short: int, short_times: int, long: int, long_times: int) -> tuple[Run, ...]:
    runs = (Run(short, short_times), Run(long, long_times))
    return tuple(run for run in runs if run.times)
