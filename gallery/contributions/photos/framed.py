"""Turns and cuts the pixels themselves, so that nothing cut away is in any picture shown."""

from collections.abc import Sequence

from PIL import Image

from gallery.contributions.photos.framing import WHOLE, Framing

_TURNS = {
    90: Image.Transpose.ROTATE_270,  # Pillow turns against the clock
    180: Image.Transpose.ROTATE_180,
    270: Image.Transpose.ROTATE_90,
}


def framed(picture: Image.Image, framing: Framing) -> Image.Image:
    """An upright picture as its sender turned it, then cut it."""
    if framing.turn:
        picture = picture.transpose(_TURNS[framing.turn])
    return picture.crop(_box(framing.cut, picture.size)) if framing.cut else picture


def _box(cut: Sequence[int], size: tuple[int, int]) -> tuple[int, int, int, int]:
    """Whole pixels inside the cut, at least one each way."""
    width, height = size
    left, top = cut[0] * width // WHOLE, cut[1] * height // WHOLE
    right = max(left + 1, cut[2] * width // WHOLE)
    bottom = max(top + 1, cut[3] * height // WHOLE)
    return left, top, right, bottom
