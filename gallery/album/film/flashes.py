"""Does a film flash? Counted on its decoded frames as WCAG 2.2 defines it (2.3.1, glossary).

A general flash is a pair of opposing changes of relative luminance by 0.1 or more whose darker
side is below 0.8; a red flash a pair of changes to or from a saturated red (R/(R+G+B) of 0.8 or
more) by more than 0.2 in the CIE 1976 diagram. More than three within a second, on a quarter or
more of any field of 10 degrees (a third of the picture's width and height), are too many.
"""

from collections import deque

import numpy as np
from numpy.typing import NDArray

COLUMNS, ROWS = 48, 27  # the film as places, each the mean of its pixels
FIELD_COLUMNS, FIELD_ROWS = COLUMNS // 3, ROWS // 3
MOST_FLASHES = 3  # in any one second
LEAST_SHARE = 0.25  # of a field
LEAST_CHANGE, BRIGHT = 0.1, 0.8  # of relative luminance
REDNESS, RED_CHANGE = 0.8, 0.2
_LUMINANCE = np.array([0.2126, 0.7152, 0.0722])
_TO_XYZ = np.array(  # linear sRGB to CIE XYZ (IEC 61966-2-1)
    [[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]]
)
Places = NDArray[np.float64]
Marks = NDArray[np.bool_]


class FlashMeter:
    """Takes frame after frame; `worst` is how many flashes began in the worst second so far."""

    def __init__(self, fps: int) -> None:
        self._luminance, self._redness = _Luminance(), _Redness()
        self._general, self._red = _Second(fps), _Second(fps)

    def add(self, rgb: NDArray[np.uint8]) -> None:
        """One frame: ROWS times COLUMNS places in sRGB."""
        linear = _linear(rgb / 255)
        self._general.add(self._luminance.changes(linear @ _LUMINANCE))
        self._red.add(self._redness.changes(linear))

    @property
    def worst(self) -> int:
        """Flashes of one kind within one second, on a quarter of a field or more."""
        return max(self._general.worst, self._red.worst)

    @property
    def is_too_much(self) -> bool:
        """Whether it flashed more than may be."""
        return self.worst > MOST_FLASHES


class _Luminance:
    """Where luminance turned round by enough: up after down, or down after up."""

    def __init__(self) -> None:
        self._high = np.full((ROWS, COLUMNS), -np.inf)
        self._low = np.full((ROWS, COLUMNS), np.inf)
        self._way = np.zeros((ROWS, COLUMNS), dtype=np.int8)  # 1 up, -1 down, 0 not known yet

    def changes(self, now: Places) -> Marks:
        self._high, self._low = np.maximum(self._high, now), np.minimum(self._low, now)
        fell = (self._high - now >= LEAST_CHANGE) & (now < BRIGHT) & (self._way >= 0)
        rose = (now - self._low >= LEAST_CHANGE) & (self._low < BRIGHT) & (self._way <= 0)
        changed: Marks = fell | rose
        self._way = np.where(fell, np.int8(-1), np.where(rose, np.int8(1), self._way))
        # The way back is measured from the turn on.
        self._high, self._low = (np.where(changed, now, it) for it in (self._high, self._low))
        return changed


class _Redness:
    """Where the colour went to or from a saturated red."""

    def __init__(self) -> None:
        self._before: Places | None = None
        self._was_red: Marks = np.zeros((ROWS, COLUMNS), dtype=bool)

    def changes(self, linear: Places) -> Marks:
        now, is_red = _chromaticity(linear), _is_red(linear)
        if self._before is None:
            self._before, self._was_red = now, is_red
        apart = np.linalg.norm(now - self._before, axis=-1) > RED_CHANGE
        changed: Marks = apart & (is_red | self._was_red)
        self._before = np.where(changed[..., None], now, self._before)
        self._was_red = np.where(changed, is_red, self._was_red)
        return changed


class _Second:
    """How many flashes began at each place within the last second."""

    def __init__(self, fps: int) -> None:
        self._frames: deque[Marks] = deque()
        self._fps = fps
        self._changes = np.zeros((ROWS, COLUMNS), dtype=np.int64)
        self.worst = 0

    def add(self, changed: Marks) -> None:
        self._frames.append(changed)
        self._changes += changed
        if len(self._frames) > self._fps:
            self._changes -= self._frames.popleft()
        begun = (self._changes + 1) // 2  # two changes are a flash; one has begun one
        while begun.max() > self.worst and _share(begun > self.worst) >= LEAST_SHARE:
            self.worst += 1


def _share(marks: Marks) -> float:
    """The largest share of a field that is marked, over all its positions."""
    sums = np.zeros((ROWS + 1, COLUMNS + 1))
    sums[1:, 1:] = marks.cumsum(axis=0).cumsum(axis=1)
    below, above = sums[FIELD_ROWS:], sums[:-FIELD_ROWS]
    fields = (below - above)[:, FIELD_COLUMNS:] - (below - above)[:, :-FIELD_COLUMNS]
    return float(fields.max()) / (FIELD_ROWS * FIELD_COLUMNS)


def _linear(rgb: Places) -> Places:
    """sRGB without its curve, as the definition of relative luminance takes it off."""
    linear: Places = np.where(rgb <= 0.04045, rgb / 12.92, ((rgb + 0.055) / 1.055) ** 2.4)
    return linear


def _is_red(linear: Places) -> Marks:
    red: Marks = linear[..., 0] >= REDNESS * np.maximum(linear.sum(axis=-1), 1e-9)
    return red


def _chromaticity(linear: Places) -> Places:
    """u' and v' of CIE 1976; black has those of white."""
    x, y, z = np.moveaxis(linear @ _TO_XYZ.T + np.array([0.9505, 1, 1.089]) * 1e-6, -1, 0)
    whole = x + 15 * y + 3 * z
    return np.stack([4 * x / whole, 9 * y / whole], axis=-1)
