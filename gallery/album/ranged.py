"""Answers with a part of a file, so that a film can be wound forward (RFC 9110, section 14)."""

import re
from collections.abc import Iterator
from pathlib import Path

from django.http import FileResponse, Http404, HttpRequest, HttpResponse, StreamingHttpResponse
from django.http.response import HttpResponseBase

CHUNK = 256 * 1024
_RANGE = re.compile(r"bytes=([0-9]*)-([0-9]*)")


def ranged(request: HttpRequest, path: Path, content_type: str) -> HttpResponseBase:
    """The whole file, or the one range of bytes asked for (206), or 416 for an impossible one.

    Raises Http404 where the file is gone.
    """
    if not path.is_file():
        raise Http404
    size = path.stat().st_size
    bounds = _bounds(request.headers.get("Range", ""), size)
    if bounds is None:
        answer: HttpResponseBase = FileResponse(path.open("rb"), content_type=content_type)
    else:
        answer = _part(path, size, *bounds, content_type)
    answer["Accept-Ranges"] = "bytes"
    return answer


def _bounds(wanted: str, size: int) -> tuple[int, int] | None:
    """First and last byte asked for; None where the whole file is the right answer.

    That is so for several ranges at once and for what is no range (RFC 9110, 14.2).
    """
    found = _RANGE.fullmatch(wanted)
    first, last = found.groups() if found else ("", "")
    if not first:  # the last so many bytes
        return (max(size - int(last), 0), size - 1) if last else None
    if last and int(last) < int(first):
        return None
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
