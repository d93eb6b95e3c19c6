"""What this room answers with: the facts of a picture and the sizes made of it."""

from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class Inspected:
    """What a picture is: its kind, its upright size in pixels, notes for the sender, and what
    deserves a second look in it (see measure.py)."""

    kind: str
    width: int
    height: int
    notes: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()
    fingerprint: str = ""


@dataclass(frozen=True)
class Remade:
    """One safe size, written as a JPEG in sRGB."""

    size_name: str
    path: Path
    width: int
    height: int
