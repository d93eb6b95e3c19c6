"""The vault: whole files under final names, whatever fails in between."""

import contextlib
import errno
import hashlib
import os
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from gallery.vault import TooLargeError, Vault, VaultError, has_room

CONTENT = b"knit one row, purl one row\n" * 5000
NAME = hashlib.sha256(CONTENT).hexdigest()
CALLS = ("open", "fsync", "write", "rename", "mkdir", "utime")


def halves() -> list[bytes]:
    return [CONTENT[:60000], CONTENT[60000:]]


def final_files(root: Path) -> list[Path]:
    return [path for path in root.rglob("*") if path.is_file() and path.suffix != ".part"]


def test_a_file_is_kept_under_the_hash_of_its_content(tmp_path: Path) -> None:
    kept = Vault(tmp_path).put(halves())
    assert (kept.sha256, kept.size) == (NAME, len(CONTENT))
    assert Vault(tmp_path).path(NAME).read_bytes() == CONTENT


def test_the_same_content_twice_is_one_file(tmp_path: Path) -> None:
    vault = Vault(tmp_path)
    vault.put(halves())
    vault.put([CONTENT])
    assert len(final_files(tmp_path)) == 1


def test_a_kept_file_is_closed_to_other_users(tmp_path: Path) -> None:
    Vault(tmp_path).put(halves())
    assert Vault(tmp_path).path(NAME).stat().st_mode & 0o137 == 0


def test_too_many_bytes_are_refused_and_nothing_stays(tmp_path: Path) -> None:
    with pytest.raises(TooLargeError):
        Vault(tmp_path).put(halves(), limit=len(CONTENT) - 1)
    assert [path for path in tmp_path.rglob("*") if path.is_file()] == []


def test_exactly_the_limit_is_kept(tmp_path: Path) -> None:
    assert Vault(tmp_path).put(halves(), limit=len(CONTENT)).size == len(CONTENT)


@pytest.mark.parametrize("name", ["", "../secret", "A" * 64, "0" * 63, "/etc/passwd"])
def test_only_a_hash_names_a_file(tmp_path: Path, name: str) -> None:
    with pytest.raises(VaultError):
        Vault(tmp_path).path(name)


class Fault:
    """Lets the n-th of the watched calls fail, once or for good."""

    def __init__(self, number: int, code: int, for_good: bool) -> None:
        self.left, self.code, self.for_good = number, code, for_good
        self.struck = False

    def watch(self, call: Callable[..., Any]) -> Callable[..., Any]:
        def watched(*args: Any, **kwargs: Any) -> Any:
            self.left -= 1
            if self.left == 0 or (self.for_good and self.left < 0):
                self.struck = True
                raise OSError(self.code, os.strerror(self.code))
            return call(*args, **kwargs)

        return watched


@pytest.mark.parametrize("for_good", [False, True])
@pytest.mark.parametrize("code", [errno.ENOSPC, errno.EIO])
def test_whatever_call_fails_no_half_file_has_a_final_name_and_a_retry_works(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, code: int, for_good: bool
) -> None:
    struck = 0
    for number in range(1, 40):
        root = tmp_path / str(number)
        fault = Fault(number, code, for_good)
        with monkeypatch.context() as patch:
            for name in CALLS:
                patch.setattr(os, name, fault.watch(getattr(os, name)))
            with contextlib.suppress(VaultError):
                Vault(root).put(halves())
        struck += fault.struck
        assert all(path.read_bytes() == CONTENT for path in final_files(root))
        assert Vault(root).put(halves()).sha256 == NAME
    assert struck >= 5


def test_a_reader_of_a_torn_upload_leaves_nothing_under_a_final_name(tmp_path: Path) -> None:
    def torn() -> Any:
        yield CONTENT[:1000]
        raise ConnectionResetError(errno.ECONNRESET, "the sender is gone")

    with pytest.raises(VaultError):
        Vault(tmp_path).put(torn())
    assert final_files(tmp_path) == []


def test_the_sweep_removes_what_nobody_refers_to_and_nothing_else(tmp_path: Path) -> None:
    vault = Vault(tmp_path)
    wanted, forgotten = vault.put([b"wanted"]), vault.put([b"forgotten"])
    (tmp_path / "old.part").write_bytes(b"half")
    for path in [p for p in tmp_path.rglob("*") if p.is_file()]:
        os.utime(path, (time.time() - 100_000,) * 2)
    assert vault.sweep({wanted.sha256}, older_than_seconds=86_400) == 2
    assert (vault.holds(wanted.sha256), vault.holds(forgotten.sha256)) == (True, False)


def test_the_sweep_leaves_young_files_alone(tmp_path: Path) -> None:
    kept = Vault(tmp_path).put([b"just arrived"])
    assert Vault(tmp_path).sweep(set(), older_than_seconds=86_400) == 0
    assert Vault(tmp_path).holds(kept.sha256)


def test_a_nearly_full_disk_has_no_room(tmp_path: Path) -> None:
    assert has_room(tmp_path, 0, least_bytes=0, least_share=10**9)
    assert not has_room(tmp_path, 10**18)
