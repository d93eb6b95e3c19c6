"""How the film looks: its colours, and the proof that its words can be read on them."""

from dataclasses import dataclass

Colour = tuple[int, int, int]


@dataclass(frozen=True)
class Look:
    """Colours as sRGB; `veil` is what lies between photo and caption, `veil_share` how thick."""

    ground: Colour
    stitch: Colour
    ink: Colour
    soft_ink: Colour
    accent: Colour
    veil: Colour
    veil_share: float
    backdrop_share: float


LOOKS: dict[str, Look] = {
    "evening": Look(
        ground=(45, 33, 31),
        stitch=(58, 43, 39),
        ink=(255, 245, 230),
        soft_ink=(236, 214, 188),
        accent=(233, 173, 112),
        veil=(30, 21, 20),
        veil_share=0.80,
        backdrop_share=0.45,
    ),
    "morning": Look(
        ground=(244, 234, 219),
        stitch=(234, 220, 201),
        ink=(52, 36, 30),
        soft_ink=(86, 56, 42),
        accent=(150, 74, 40),
        veil=(250, 243, 232),
        veil_share=0.86,
        backdrop_share=0.50,
    ),
}


def luminance(colour: Colour) -> float:
    """Relative luminance of an sRGB colour (WCAG 2.2, definition of relative luminance)."""
    red, green, blue = (
        c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4
        for c in (v / 255 for v in colour)
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: Colour, other: Colour) -> float:
    """Contrast ratio of two colours, 1 to 21 (WCAG 2.2, definition of contrast ratio)."""
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def over_photo(look: Look, photo: Colour) -> Colour:
    """The colour behind a caption when the photo there has this colour."""
    share = look.veil_share
    red, green, blue = (
        round(share * v + (1 - share) * p) for v, p in zip(look.veil, photo, strict=True)
    )
    return red, green, blue
