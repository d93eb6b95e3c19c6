"""How a sender turned and cut her picture: plain numbers; framed.py applies them to pixels."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

WHOLE = 10_000  # a cut is told in ten-thousandths of the turned picture
TURNS = (0, 90, 180, 270)


@dataclass(frozen=True)
class Framing:
    """A turn in degrees clockwise (0, 90, 180, 270), then a cut: left, top, right, bottom in
    ten-thousandths of the turned picture; an empty cut keeps the whole."""

    turn: int = 0
    cut: tuple[int, ...] = ()

    def __post_init__(self) -> None:
        if self.turn not in TURNS:
            raise ValueError("A picture is turned by quarters: 0, 90, 180 or 270 degrees.")
        if self.cut and not _is_inside(self.cut):
            raise ValueError("A cut lies inside the picture: left before right, top before bottom.")

    @property
    def plain(self) -> dict[str, Any]:
        """As the decoding process is asked."""
        return {"turn": self.turn, "cut": list(self.cut)}

    def size_of(self, width: int, height: int) -> tuple[int, int]:
        """How many pixels are left of an upright picture of that size."""
        if self.turn in (90, 270):
            width, height = height, width
        if not self.cut:
            return width, height
        left, top, right, bottom = self.cut
        return round(width * (right - left) / WHOLE), round(height * (bottom - top) / WHOLE)

    @property
    def least_share(self) -> float:
        """The smaller share of a side that is left: so much larger the picture must be decoded."""
        if not self.cut:
            return 1.0
        left, top, right, bottom = self.cut
        return min(right - left, bottom - top) / WHOLE


def _is_inside(cut: Sequence[int]) -> bool:
    if len(cut) != 4:
        return False
    left, top, right, bottom = cut
    return 0 <= left < right <= WHOLE and 0 <= top < bottom <= WHOLE
