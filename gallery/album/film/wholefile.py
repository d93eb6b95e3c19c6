"""Files that are there whole or not at all: written beside their name, then renamed."""

import glob
import os
import time
import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

STALE_SECONDS = 3600  # a temporary file this old was left by a worker that was killed


@contextmanager
def beside(path: Path) -> Iterator[Path]:
    """A temporary name beside `path`, gone afterwards unless it was renamed."""
    sweep(path.parent.glob(f".{glob.escape(path.name)}.*.tmp"))
    part = path.with_name(f".{path.name}.{uuid.uuid4().hex}.tmp")
    try:
        yield part
    finally:
        part.unlink(missing_ok=True)


def settle(part: Path, path: Path) -> None:
    """Give the written file its name, so that it keeps it even when the power fails now."""
    to_disk(part)
    part.replace(path)
    to_disk(path.parent)


def to_disk(path: Path) -> None:
    """Wait until this file or folder is on the disk."""
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def sweep(paths: Iterator[Path]) -> None:
    """Remove those of these temporary files that nobody is writing any more."""
    for path in paths:
        try:
            if time.time() - path.stat().st_mtime > STALE_SECONDS:
                path.unlink()
        except FileNotFoundError:
            continue  # another worker swept it
