"""The process that decodes: one request line in, one answer line out, then it ends."""

import contextlib
import json
import sys
import traceback
from dataclasses import asdict
from pathlib import Path
from typing import Any

from gallery.contributions.photos.errors import CANNOT, PictureRefused
from gallery.contributions.photos.limits import (
    CHILD_CPU_SECONDS,
    CHILD_MEMORY_BYTES,
    LONGEST_REQUEST,
)

try:
    import resource
except ImportError:  # Windows has no such limits; the wall clock of the parent still holds
    resource = None  # type: ignore[assignment]


def main() -> None:
    """Answer one request: {"path", "out_dir", "sizes", "framing"}."""
    _limit_all()
    asked = json.loads(sys.stdin.readline(LONGEST_REQUEST))
    print(json.dumps(_answer(asked)), flush=True)


def _limit_all() -> None:
    if resource is None:
        return
    _limit(resource.RLIMIT_AS, CHILD_MEMORY_BYTES)
    _limit(resource.RLIMIT_CPU, CHILD_CPU_SECONDS)
    _limit(resource.RLIMIT_CORE, 0)


def _limit(what: int, most: int) -> None:
    _, hard = resource.getrlimit(what)
    if hard != resource.RLIM_INFINITY:
        most = min(most, hard)
    # Some systems (macOS) refuse some of them; the others still hold.
    with contextlib.suppress(ValueError, OSError):
        resource.setrlimit(what, (most, hard))


def _answer(asked: dict[str, Any]) -> dict[str, Any]:
    # Inside the limits, since the decoders are loaded with it.
    from gallery.contributions.photos.framing import Framing  # noqa: PLC0415
    from gallery.contributions.photos.remake import receive  # noqa: PLC0415

    wished = asked.get("framing", {})
    framing = Framing(wished.get("turn", 0), tuple(wished.get("cut", ())))
    path, out_dir = Path(asked["path"]), Path(asked["out_dir"])
    try:
        inspected, made = receive(path, out_dir, asked["sizes"], framing)
    except PictureRefused as refused:
        return {"refused": [refused.code, refused.words, refused.facts]}
    except OSError as trouble:
        # The picture's own troubles are told by now: this one is about our disk.
        return {"failed": str(trouble)}
    except Exception:
        # Decoders raise a dozen kinds of exceptions for damaged files; each means the same here.
        traceback.print_exc()
        return {"refused": ["unreadable", CANNOT, {}]}
    return {
        "inspected": asdict(inspected),
        "made": [[one.size_name, str(one.path), one.width, one.height] for one in made],
    }


if __name__ == "__main__":
    main()
