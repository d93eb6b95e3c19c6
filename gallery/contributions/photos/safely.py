"""The parent's side: lets a limited process decode, and turns whatever happens into an answer."""

import json
import logging
import os
import signal
import subprocess
import sys
import tempfile
import threading
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from gallery.contributions.photos.answers import Inspected, Remade
from gallery.contributions.photos.errors import CANNOT, LATER, PictureRefused
from gallery.contributions.photos.framing import Framing
from gallery.contributions.photos.limits import (
    CHILD_WALL_SECONDS,
    CHILDREN_AT_ONCE,
    LONGEST_WAIT_SECONDS,
)
from gallery.contributions.photos.sniff import refuse_by_kind

CHECKOUT = Path(__file__).resolve().parents[3]
CHILD = (sys.executable, "-m", "gallery.contributions.photos.child")
# All that the process gets of our environment: none of the site's secrets stand in these.
PASSED_ON = ("PATH", "LANG", "LC_ALL", "LD_LIBRARY_PATH", "TMPDIR", "TEMP", "TMP", "SYSTEMROOT")
# How it ends when the site is being stopped, or when Python itself does not start: no picture asks
# for that, so none is blamed.
NOT_THE_PICTURE = {1} | {
    -getattr(signal, name) for name in ("SIGHUP", "SIGINT", "SIGTERM") if hasattr(signal, name)
}
LONGEST_COMPLAINT = 2000  # characters in the log; the end says what happened
AS_IT_CAME = Framing()
SMALL = {"small": 400}  # longer side in pixels of what is shown at once while sending

log = logging.getLogger(__name__)
places = threading.BoundedSemaphore(CHILDREN_AT_ONCE)

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


def receive_safely(
    path: Path, sent_name: str, out_dir: Path, framing: Framing = AS_IT_CAME
) -> Received:
    """Look into the picture and make its small size; raises PictureRefused."""
    try:
        answer = _ask_child(path, out_dir, SMALL, framing)
    except OSError as trouble:
        # Somebody waits for this answer, so it is a sentence too.
        log.exception("A picture could not be looked at.")
        raise PictureRefused("later", LATER) from trouble
    said = answer["inspected"]
    told = {name: tuple(said[name]) for name in ("notes", "doubts")}
    (small,) = _made(answer)
    return Received(Inspected(**{**said, **told}), small)


def remake_safely(
    path: Path, out_dir: Path, sizes: Mapping[str, int], framing: Framing = AS_IT_CAME
) -> tuple[Remade, ...]:
    """Make the sizes (longer side in pixels) in `out_dir`, largest first, turned and cut.

    Raises PictureRefused, and OSError where not the picture is at fault and a later try may do.
    """
    return _made(_ask_child(path, out_dir, sizes, framing))


def _made(answer: dict[str, Any]) -> tuple[Remade, ...]:
    return tuple(
        Remade(name, Path(path), width, height) for name, path, width, height in answer["made"]
    )


def _ask_child(
    path: Path, out_dir: Path, sizes: Mapping[str, int], framing: Framing
) -> dict[str, Any]:
    refuse_by_kind(path)
    asked = {
        "path": str(path.resolve()),
        "out_dir": str(out_dir.resolve()),
        "sizes": dict(sizes),
        "framing": framing.plain,
    }
    answer = _answer_of_child(json.dumps(asked) + "\n")
    if "failed" in answer:
        raise OSError(answer["failed"])
    if "refused" in answer:
        raise PictureRefused(*answer["refused"])
    return answer


def _answer_of_child(request: str) -> dict[str, Any]:
    try:
        if not places.acquire(timeout=LONGEST_WAIT_SECONDS):
            raise OSError("Too many pictures are being looked at.")
        try:
            child = _run(request)
        finally:
            places.release()
    except subprocess.TimeoutExpired as error:
        log.warning("A picture was given up after %s seconds.", CHILD_WALL_SECONDS)
        raise PictureRefused("unreadable", CANNOT) from error
    if child.stderr:
        log.warning("The process that reads pictures said: %s", child.stderr[-LONGEST_COMPLAINT:])
    try:
        answer: dict[str, Any] = json.loads(child.stdout)
    except json.JSONDecodeError as error:
        log.warning("The process that reads pictures ended with %s.", child.returncode)
        if child.returncode in NOT_THE_PICTURE:
            raise OSError("The process that reads pictures was stopped.") from error
        # Ended by the kernel: that picture asked for too much.
        raise PictureRefused("unreadable", CANNOT) from error
    return answer


def _run(request: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(  # noqa: S603 (our own interpreter and module, no shell)
        CHILD,
        input=request,
        capture_output=True,
        encoding="utf-8",
        errors="replace",
        timeout=CHILD_WALL_SECONDS,
        cwd=CHECKOUT,
        env=_environment(),
        start_new_session=True,  # Ctrl-C at the terminal is for the site, not for a picture
        check=False,
    )


def _environment() -> dict[str, str]:
    kept = {name: os.environ[name] for name in PASSED_ON if name in os.environ}
    places_of_packages = (str(CHECKOUT), os.environ.get("PYTHONPATH", ""))
    return kept | {"PYTHONPATH": os.pathsep.join(filter(None, places_of_packages))}
