"""Files by their content: written whole or not at all, named by their SHA-256."""

import contextlib
import errno
import hashlib
import os
import secrets
import shutil
import time
from collections.abc import Container, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

CHUNK = 1024 * 1024
FILE_MODE = 0o640
FOLDER_MODE = 0o750
PART = ".part"
LEAST_FREE_BYTES = 2 * 1024**3
LEAST_FREE_SHARE = 20  # one twentieth: 5 %
_BINARY = getattr(os, "O_BINARY", 0)  # Windows would turn line ends over without it


class VaultError(Exception):
    """A file that could not be kept; the text says why and what to do."""


class TooLargeError(VaultError):
    """More bytes arrived than were allowed."""


@dataclass(frozen=True)
class Kept:
    """A kept file: the SHA-256 of its bytes (hex) and their number."""

    sha256: str
    size: int


class Vault:
    """One folder of files named by their content.

    Keeping follows one order: write beside, fsync, rename, fsync the folders. A power cut or a
    full disk at any point leaves no half file under a final name.
    """

    def __init__(self, root: Path) -> None:
        self.root = Path(root)

    def path(self, sha256: str) -> Path:
        """Where the file of that content lies or would lie; refuses what is no SHA-256."""
        if len(sha256) != 64 or not set(sha256) <= set("0123456789abcdef"):
            raise VaultError("This is not the name of a kept file.")
        return self.root / sha256[:2] / sha256

    def holds(self, sha256: str) -> bool:
        """Whether a file of that content is kept."""
        return self.path(sha256).is_file()

    def open(self, sha256: str) -> BinaryIO:
        """The kept file, to be read; raises VaultError where it is not there."""
        try:
            return self.path(sha256).open("rb")
        except OSError as error:
            raise VaultError("This file is not here any more.") from error

    def put(self, chunks: Iterable[bytes], *, limit: int | None = None) -> Kept:
        """Keep what the chunks hold; the same content twice is one file.

        Raises TooLargeError above `limit` bytes and VaultError where the disk refuses.
        """
        part = self.root / f"{secrets.token_hex(16)}{PART}"
        try:
            _make_folder(self.root)
            kept = _write(part, chunks, limit)
            self._settle(part, kept)
        except OSError as error:
            raise VaultError(_why(error)) from error
        finally:
            with contextlib.suppress(OSError):
                part.unlink(missing_ok=True)
        return kept

    def put_file(self, path: Path, *, limit: int | None = None) -> Kept:
        """Keep a copy of that file."""
        try:
            with path.open("rb") as file:
                return self.put(iter(lambda: file.read(CHUNK), b""), limit=limit)
        except OSError as error:
            raise VaultError(_why(error)) from error

    def remove(self, sha256: str) -> None:
        """Forget the file of that content, if it is there."""
        try:
            self.path(sha256).unlink(missing_ok=True)
        except OSError as error:
            raise VaultError(_why(error)) from error

    def sweep(self, referenced: Container[str], older_than_seconds: float) -> int:
        """Remove forgotten parts and files nobody refers to; give how many.

        Only those untouched for that long: a file is kept before the row that refers to it.
        """
        before = time.time() - older_than_seconds
        try:
            forgotten = [path for path in self._files() if path.name not in referenced]
            return sum(_removed_if_older(path, before) for path in forgotten)
        except OSError as error:
            raise VaultError(_why(error)) from error

    def _files(self) -> Iterator[Path]:
        yield from self.root.glob(f"*{PART}")
        yield from self.root.glob("[0-9a-f][0-9a-f]/*")

    def _settle(self, part: Path, kept: Kept) -> None:
        final = self.path(kept.sha256)
        _make_folder(final.parent)
        if final.is_file() and final.stat().st_size == kept.size:
            os.utime(final)  # so that a sweep running now does not take it for forgotten
        else:
            part.replace(final)
        # Also where the file was there: an earlier try may have stopped between rename and here.
        _sync_folder(final.parent)
        _sync_folder(self.root)


def has_room(
    root: Path,
    wanted: int,
    *,
    least_bytes: int = LEAST_FREE_BYTES,
    least_share: int = LEAST_FREE_SHARE,
) -> bool:
    """Whether the disk under `root` keeps max(2 GiB, 5 %) free after `wanted` more bytes."""
    while not root.exists():
        root = root.parent
    disk = shutil.disk_usage(root)
    return disk.free - wanted >= max(least_bytes, disk.total // least_share)


def _make_folder(folder: Path) -> None:
    if folder.is_dir():
        return
    _make_folder(folder.parent)
    folder.mkdir(mode=FOLDER_MODE, exist_ok=True)
    _sync_folder(folder.parent)


def _write(part: Path, chunks: Iterable[bytes], limit: int | None) -> Kept:
    digest = hashlib.sha256()
    size = 0
    descriptor = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL | _BINARY, FILE_MODE)
    try:
        for chunk in chunks:
            size += len(chunk)
            if limit is not None and size > limit:
                raise TooLargeError(f"The file is larger than {limit} bytes.")
            digest.update(chunk)
            _write_whole(descriptor, chunk)
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
    return Kept(digest.hexdigest(), size)


def _write_whole(descriptor: int, chunk: bytes) -> None:
    rest = memoryview(chunk)
    while rest:  # a nearly full disk may take a part of it and say so
        rest = rest[os.write(descriptor, rest) :]


def _removed_if_older(path: Path, before: float) -> bool:
    with contextlib.suppress(FileNotFoundError):  # settled or removed meanwhile
        if path.stat().st_mtime < before:
            path.unlink()
            return True
    return False


def _sync_folder(folder: Path) -> None:
    if os.name == "nt":  # Windows cannot open folders; its rename is durable by itself
        return
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


def _why(error: OSError) -> str:
    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        return "The disk of the site is full; please try again later."
    return "The site has trouble with its disk; please try again later."
