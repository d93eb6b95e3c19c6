"""The parent's side: lets a limited process decode, and turns whatever happens into an answer."""

import json
import os
import subprocess
import sys
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from gallery.contributions.photos.child import CANNOT
from gallery.contributions.photos.errors import PictureRefused
from gallery.contributions.photos.limits import CHILD_WALL_SECONDS
from gallery.contributions.photos.opening import refuse_by_kind
from gallery.contributions.photos.remake import SMALL, Inspected, Remade

CHECKOUT = Path(__file__).resolve().parents[3]

__all__ = [
    "Inspected",
    "PictureRefused",
    "Received",
    "Remade",
    "inspect_safely",
    "receive_safely",
    "remake_safely",
]


@dataclass(frozen=True)
class Received:
    """What a picture is, and its small size made while it was looked into."""

    inspected: Inspected
    small: Remade


def inspect_safely(path: Path, sent_name: str) -> Inspected:
    """What the picture is; raises PictureRefused. The name as sent decides nothing."""
    with tempfile.TemporaryDirectory() as folder:
        return receive_safely(path, sent_name, Path(folder)).inspected


def receive_safely(path: Path, sent_name: str, out_dir: Path) -> Received:
    """Look into the picture and make its small size; raises PictureRefused."""
    answer = _ask_child(path, out_dir, SMALL)
    kind, width, height, notes = answer["inspected"]
    (small,) = _made(answer)
    return Received(Inspected(kind, width, height, tuple(notes)), small)


def remake_safely(path: Path, out_dir: Path, sizes: Mapping[str, int]) -> tuple[Remade, ...]:
    """Make the sizes (longer side in pixels) in `out_dir`; raises PictureRefused."""
    return _made(_ask_child(path, out_dir, sizes))


def _made(answer: dict[str, Any]) -> tuple[Remade, ...]:
    return tuple(
        Remade(name, Path(path), width, height) for name, path, width, height in answer["made"]
    )


def _ask_child(path: Path, out_dir: Path, sizes: Mapping[str, int]) -> dict[str, Any]:
    refuse_by_kind(path)
    asked = json.dumps({"path": str(path), "out_dir": str(out_dir), "sizes": dict(sizes)})
    try:
        child = subprocess.run(
            [sys.executable, "-m", "gallery.contributions.photos.child"],
            input=asked + "\n",
            capture_output=True,
            text=True,
            timeout=CHILD_WALL_SECONDS,
            cwd=CHECKOUT,
            env={**os.environ, "OMP_NUM_THREADS": "1"},
            check=False,
        )
        answer: dict[str, Any] = json.loads(child.stdout)
    except (subprocess.TimeoutExpired, json.JSONDecodeError) as error:
        # Killed by the kernel or by the clock: that picture asked for too much.
        raise PictureRefused("unreadable", CANNOT) from error
    if "refused" in answer:
        raise PictureRefused(*answer["refused"])
    return answer
