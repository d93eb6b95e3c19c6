"""The parent's side: lets a limited process decode, and turns whatever happens into an answer."""

import json
import logging
import os
import subprocess
import sys
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from gallery.contributions.photos.answers import Inspected, Remade
from gallery.contributions.photos.errors import CANNOT, PictureRefused
from gallery.contributions.photos.limits import CHILD_WALL_SECONDS
from gallery.contributions.photos.sniff import refuse_by_kind

CHECKOUT = Path(__file__).resolve().parents[3]
CHILD = (sys.executable, "-m", "gallery.contributions.photos.child")
LONGEST_COMPLAINT = 2000  # characters in the log; the end says what happened
SMALL = {"small": 400}  # longer side in pixels of what is shown at once while sending

log = logging.getLogger(__name__)

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
    """Make the sizes (longer side in pixels) in `out_dir`, largest first.

    Raises PictureRefused, and OSError where our own disk is at fault and a later try may do.
    """
    return _made(_ask_child(path, out_dir, sizes))


def _made(answer: dict[str, Any]) -> tuple[Remade, ...]:
    return tuple(
        Remade(name, Path(path), width, height) for name, path, width, height in answer["made"]
    )


def _ask_child(path: Path, out_dir: Path, sizes: Mapping[str, int]) -> dict[str, Any]:
    refuse_by_kind(path)
    asked = {"path": str(path.resolve()), "out_dir": str(out_dir.resolve()), "sizes": dict(sizes)}
    answer = _answer_of_child(json.dumps(asked) + "\n")
    if "failed" in answer:
        raise OSError(answer["failed"])
    if "refused" in answer:
        raise PictureRefused(*answer["refused"])
    return answer


def _answer_of_child(request: str) -> dict[str, Any]:
    try:
        child = subprocess.run(  # noqa: S603 (our own interpreter and module, no shell)
            CHILD,
            input=request,
            capture_output=True,
            encoding="utf-8",
            errors="replace",
            timeout=CHILD_WALL_SECONDS,
            cwd=CHECKOUT,
            env={**os.environ, "PYTHONPATH": str(CHECKOUT)},
            check=False,
        )
    except subprocess.TimeoutExpired as error:
        log.warning("A picture was given up after %s seconds.", CHILD_WALL_SECONDS)
        raise PictureRefused("unreadable", CANNOT) from error
    if child.stderr:
        log.warning("The process that reads pictures said: %s", child.stderr[-LONGEST_COMPLAINT:])
    try:
        answer: dict[str, Any] = json.loads(child.stdout)
    except json.JSONDecodeError as error:
        # Ended by the kernel: that picture asked for too much.
        log.warning("The process that reads pictures ended with %s.", child.returncode)
        raise PictureRefused("unreadable", CANNOT) from error
    return answer
