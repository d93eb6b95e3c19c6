"""Answers with a part of a file, so that a film can be wound forward (RFC 9110, section 14)."""

import re
from collections.abc import Iterator
from pathlib import Path

from django.http import FileResponse, HttpRequest, HttpResponse, StreamingHttpResponse
from django.http.response import HttpResponseBase

CHUNK = 256 * 1024
_RANGE = re.compile(r"bytes=(\d*)-(\d*)")


def ranged(request: HttpRequest, path: Path, content_type: str) -> HttpResponseBase:
    """The whole file, or the one range of bytes asked for (206), or 416 for an impossible one."""
    size = path.stat().st_size
    wanted = _RANGE.fullmatch(request.headers.get("Range", ""))
    if wanted is None or wanted.groups() == ("", ""):
        answer: HttpResponseBase = FileResponse(path.open("rb"), content_type=content_type)
    else:
        answer = _part(path, size, *_bounds(wanted, size), content_type)
    answer["Accept-Ranges"] = "bytes"
    return answer


def _bounds(wanted: re.Match[str], size: int) -> tuple[int, int]:
    first, last = wanted.groups()
    if not first:  # the last so many bytes
        return max(size - int(last), 0), size - 1
    return int(first), min(int(last), size - 1) if last else size - 1


def _part(path: Path, size: int, first: int, last: int, content_type: str) -> HttpResponseBase:
    if first > last:
        return HttpResponse(status=416, headers={"Content-Range": f"bytes */{size}"})
    answer = StreamingHttpResponse(
        _bytes(path, first, last - first + 1), status=206, content_type=content_type
    )
    answer["Content-Range"] = f"bytes {first}-{last}/{size}"
    answer["Content-Length"] = str(last - first + 1)
    return answer


def _bytes(path: Path, first: int, left: int) -> Iterator[bytes]:
    with path.open("rb") as file:
        file.seek(first)
        while left > 0:
            chunk = file.read(min(CHUNK, left))
            if not chunk:
                return
            left -= len(chunk)
            yield chunk
