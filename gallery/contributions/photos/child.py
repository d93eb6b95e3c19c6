"""The process that decodes: one request line in, one answer line out, then it ends."""

import json
import sys
from pathlib import Path
from typing import Any

from gallery.contributions.photos.limits import (
    CHILD_CPU_SECONDS,
    CHILD_MEMORY_BYTES,
    LONGEST_REQUEST,
)

try:
    import resource
except ImportError:  # Windows has no such limits; the wall clock of the parent still holds
    resource = None  # type: ignore[assignment]

CANNOT = "This picture cannot be read. Please send it again, or another copy of it."


def main() -> None:
    """Answer one request: {"path", "out_dir", "sizes"}."""
    _limit()
    asked = json.loads(sys.stdin.readline(LONGEST_REQUEST))
    print(json.dumps(_answer(asked)), flush=True)


def _limit() -> None:
    if resource is None:
        return
    resource.setrlimit(resource.RLIMIT_AS, (CHILD_MEMORY_BYTES, CHILD_MEMORY_BYTES))
    resource.setrlimit(resource.RLIMIT_CPU, (CHILD_CPU_SECONDS, CHILD_CPU_SECONDS + 1))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def _answer(asked: dict[str, Any]) -> dict[str, Any]:
    # Inside the limits, since decoders are loaded with it.
    from gallery.contributions.photos.errors import PictureRefused  # noqa: PLC0415
    from gallery.contributions.photos.remake import receive  # noqa: PLC0415

    try:
        inspected, made = receive(Path(asked["path"]), Path(asked["out_dir"]), asked["sizes"])
    except PictureRefused as refused:
        return {"refused": [refused.code, refused.sentence]}
    except (Exception, MemoryError):
        # Decoders raise a dozen kinds of exceptions for damaged files; each means the same here.
        return {"refused": ["unreadable", CANNOT]}
    return {
        "inspected": [inspected.kind, inspected.width, inspected.height, list(inspected.notes)],
        "made": [[one.size_name, str(one.path), one.width, one.height] for one in made],
    }


if __name__ == "__main__":
    main()
