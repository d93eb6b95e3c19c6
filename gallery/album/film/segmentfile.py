"""One encoded part in a file of its own: an index of its packets, then the packets.

Our own simple format, read without a demuxer, so that hundreds of parts join in a moment:
eight signs, the length of the index (four bytes, big-endian), the index as JSON, the packets.
"""

import json
import os
import zlib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from gallery.album.film import wholefile
from gallery.album.film.encode import Encoded, Packet
from gallery.album.film.errors import FilmError
from gallery.album.film.saying import gettext as _
from gallery.album.film.wholefile import beside, settle

SIGNS = b"FILMPRT1"


@dataclass(frozen=True)
class Index:
    """What a part holds: for each packet its size, pts, dts and whether it is a key picture."""

    headers: bytes
    packets: tuple[tuple[int, int, int, bool], ...]
    photos: tuple[str, ...]
    checksum: int
    begins: int  # where the packets begin in the file

    @property
    def whole_size(self) -> int:
        return self.begins + sum(size for size, _, _, _ in self.packets)


def write(path: Path, encoded: Encoded, photos: tuple[str, ...]) -> None:
    """Write the part under a temporary name, then rename it: whole or not at all."""
    payload = b"".join(packet.data for packet in encoded.packets)
    index = json.dumps(
        {
            "headers": encoded.headers.hex(),
            "packets": [[len(p.data), p.pts, p.dts, p.is_key] for p in encoded.packets],
            "photos": photos,
            "checksum": zlib.crc32(payload),
        }
    ).encode()
    try:
        _write_whole(path, SIGNS + len(index).to_bytes(4) + index + payload)
    except OSError as trouble:
        raise FilmError(
            _("The film's parts cannot be written: is the disk full? Make room and start again.")
        ) from trouble


def _write_whole(path: Path, data: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    with beside(path) as part:
        part.write_bytes(data)
        settle(part, path)


def read_index(path: Path) -> Index | None:
    """The part's index; None where the file is missing, cut short or no part of ours."""
    try:
        with path.open("rb") as file:
            if file.read(len(SIGNS)) != SIGNS:
                return None
            length = int.from_bytes(file.read(4))
            told: dict[str, Any] = json.loads(file.read(length))
            index = _index(told, len(SIGNS) + 4 + length)
            return index if os.fstat(file.fileno()).st_size == index.whole_size else None
    except (OSError, ValueError, KeyError, TypeError):
        return None


def _index(told: dict[str, Any], begins: int) -> Index:
    packets = tuple((int(s), int(p), int(d), bool(k)) for s, p, d, k in told["packets"])
    headers = bytes.fromhex(told["headers"])
    return Index(headers, packets, tuple(told["photos"]), int(told["checksum"]), begins)


def is_whole(path: Path) -> bool:
    """Whether the part is there in full length."""
    return read_index(path) is not None


def photos_in(path: Path) -> tuple[str, ...]:
    """The photos the part shows; none where it cannot be read."""
    index = read_index(path)
    return index.photos if index else ()


def read(path: Path) -> Encoded:
    """The part with its packets; one that is damaged is removed and refused as FilmError."""
    index = read_index(path)
    payload = path.read_bytes()[index.begins :] if index else b""
    if index is None or zlib.crc32(payload) != index.checksum:
        path.unlink(missing_ok=True)
        raise FilmError(
            _("A stored part of the film was damaged and is gone: start the film again.")
        )
    packets, at = [], 0
    for size, pts, dts, is_key in index.packets:
        packets.append(Packet(payload[at : at + size], pts, dts, is_key))
        at += size
    return Encoded(index.headers, tuple(packets))


def sweep(cache_dir: Path) -> None:
    """Remove half-written parts that a worker left when it was killed."""
    wholefile.sweep(cache_dir.glob("*/.*.tmp"))
