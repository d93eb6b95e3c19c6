"""The colours the demo's knitters chose: named after dye plants and undyed wools."""

from dataclasses import dataclass

Colour = tuple[int, int, int]  # red, green, blue, 0 to 255


@dataclass(frozen=True)
class Dye:
    """A yarn's colour; a marled yarn winds two plies of different colours together."""

    main: Colour
    second: Colour | None = None


DYES: dict[str, Dye] = {
    "undyed cream": Dye((222, 208, 182)),
    "oatmeal": Dye((190, 168, 134)),
    "madder": Dye((150, 66, 50)),
    "weld": Dye((204, 162, 58)),
    "indigo": Dye((50, 72, 112)),
    "woad": Dye((104, 138, 160)),
    "walnut": Dye((112, 78, 54)),
    "moss": Dye((110, 118, 62)),
    "lichen": Dye((160, 166, 134)),
    "heather": Dye((142, 112, 136)),
    "rose hip": Dye((178, 114, 104)),
    "slate": Dye((84, 96, 102)),
    "pine": Dye((52, 84, 72)),
    "apricot": Dye((216, 152, 104)),
    "oat marl": Dye((212, 194, 160), (124, 96, 70)),
    "sea marl": Dye((186, 196, 190), (64, 106, 122)),
    "ember marl": Dye((178, 78, 50), (92, 56, 52)),
}


def dye_named(name: str) -> Dye:
    """The dye of that name; refuses one that is not on the shelf and names those that are."""
    if name not in DYES:
        raise KeyError(f"No yarn colour is called “{name}”; choose one of {', '.join(DYES)}.")
    return DYES[name]
