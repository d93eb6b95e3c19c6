"""The vault: whole files under final names, whatever fails in between."""

import errno
import hashlib
import itertools
import os
import time
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from gallery import vault as vault_module
from gallery.vault import TooLargeError, Vault, VaultError, has_room

CONTENT = b"knit one row, purl one row\n" * 5000
NAME = hashlib.sha256(CONTENT).hexdigest()
GIB = 1024**3
CALLS = ("open", "write", "fsync", "mkdir", "replace", "unlink", "utime", "stat")


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
    """Lets the n-th of the watched calls fail: once, or it and all that follow."""

    def __init__(self, number: int, code: int, *, for_good: bool, torn: bool) -> None:
        self.left, self.code, self.for_good, self.torn = number, code, for_good, torn
        self.struck = False

    def watch(self, name: str) -> Callable[..., Any]:
        call = getattr(os, name)

        def watched(*args: Any, **kwargs: Any) -> Any:
            self.left -= 1
            if self.left > 0 or (self.left < 0 and not self.for_good):
                return call(*args, **kwargs)
            self.struck = True
            if name == "write" and self.torn:
                call(args[0], args[1][: len(args[1]) // 2])
            raise OSError(self.code, os.strerror(self.code))

        return watched

    def put(self, vault: Vault, patch: pytest.MonkeyPatch) -> bool:
        """Whether the vault says that the content is kept."""
        for name in CALLS:
            patch.setattr(os, name, self.watch(name))
        try:
            return vault.put(halves()).sha256 == NAME
        except VaultError:
            return False


@pytest.mark.parametrize("torn", [False, True])
@pytest.mark.parametrize("for_good", [False, True])
@pytest.mark.parametrize("code", [errno.ENOSPC, errno.EIO])
def test_whatever_call_fails_no_half_file_has_a_final_name_and_a_retry_works(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, code: int, for_good: bool, torn: bool
) -> None:
    for number in itertools.count(1):
        vault = Vault(tmp_path / str(number))
        fault = Fault(number, code, for_good=for_good, torn=torn)
        with monkeypatch.context() as patch:
            kept = fault.put(vault, patch)
        assert all(path.read_bytes() == CONTENT for path in final_files(vault.root))
        assert vault.holds(NAME) or not kept
        assert vault.put(halves()).sha256 == NAME
        if not fault.struck:  # the loop ran past the last call
            break
    assert number > 10


def test_a_fault_that_passes_leaves_no_part_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as patch:
        patch.setattr(os, "fsync", Fault(1, errno.EIO, for_good=False, torn=False).watch("fsync"))
        with pytest.raises(VaultError):
            Vault(tmp_path).put(halves())
    assert [path for path in tmp_path.rglob("*") if path.is_file()] == []


def test_a_full_disk_is_said_in_a_sentence(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    fault = Fault(1, errno.ENOSPC, for_good=True, torn=True)
    with monkeypatch.context() as patch:
        patch.setattr(os, "write", fault.watch("write"))
        with pytest.raises(VaultError) as caught:
            Vault(tmp_path).put(halves())
    assert str(caught.value) == "The disk of the site is full; please try again later."


def test_a_write_that_takes_only_a_part_is_gone_on_with(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write = os.write
    with monkeypatch.context() as patch:
        patch.setattr(os, "write", lambda to, part: write(to, part[:1000]))
        Vault(tmp_path).put(halves())
    assert Vault(tmp_path).path(NAME).read_bytes() == CONTENT


def named_order(patch: pytest.MonkeyPatch) -> list[str]:
    """The calls that make a file lasting, in the order in which they come."""
    calls: list[str] = []

    def noted(name: str, call: Callable[..., Any]) -> Callable[..., Any]:
        return lambda *args, **kwargs: (calls.append(name), call(*args, **kwargs))[1]

    for name in ("write", "fsync", "replace"):
        patch.setattr(os, name, noted(name, getattr(os, name)))
    return calls


@pytest.mark.skipif(os.name == "nt", reason="Windows cannot sync folders")
def test_a_file_is_synced_before_it_gets_its_name_and_its_folders_after(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / NAME[:2]).mkdir()
    with monkeypatch.context() as patch:
        calls = named_order(patch)
        Vault(tmp_path).put(halves())
    assert calls == ["write", "write", "fsync", "replace", "fsync", "fsync"]


@pytest.mark.skipif(os.name == "nt", reason="Windows cannot sync folders")
def test_folders_are_synced_again_where_the_file_was_there_already(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    Vault(tmp_path).put(halves())
    with monkeypatch.context() as patch:
        calls = named_order(patch)
        Vault(tmp_path).put(halves())
    assert calls == ["write", "write", "fsync", "fsync", "fsync"]


def test_a_kept_file_cut_short_by_the_disk_is_mended_by_the_next_copy(tmp_path: Path) -> None:
    vault = Vault(tmp_path)
    vault.put(halves())
    os.truncate(vault.path(NAME), 10)
    vault.put(halves())
    assert vault.path(NAME).read_bytes() == CONTENT


def test_a_copy_of_a_file_is_kept_and_can_be_read(tmp_path: Path) -> None:
    (tmp_path / "front.jpg").write_bytes(CONTENT)
    vault = Vault(tmp_path / "vault")
    with vault.open(vault.put_file(tmp_path / "front.jpg").sha256) as file:
        assert file.read() == CONTENT


def test_a_file_that_is_gone_is_said_in_a_sentence(tmp_path: Path) -> None:
    vault = Vault(tmp_path)
    vault.put(halves())
    vault.remove(NAME)
    with pytest.raises(VaultError, match="not here any more"):
        vault.open(NAME)


def test_a_folder_of_the_vault_is_closed_to_other_users(tmp_path: Path) -> None:
    vault = Vault(tmp_path / "vault")
    vault.put(halves())
    folders = [vault.root, vault.path(NAME).parent]
    assert [folder.stat().st_mode & 0o027 for folder in folders] == [0, 0]


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


def test_a_file_removed_while_the_sweep_looks_does_not_stop_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    vault = Vault(tmp_path)
    gone, forgotten = vault.path("0" * 64), vault.put([b"forgotten"])
    os.utime(vault.path(forgotten.sha256), (0, 0))
    monkeypatch.setattr(vault, "_files", lambda: [gone, vault.path(forgotten.sha256)])
    assert vault.sweep(set(), older_than_seconds=86_400) == 1


@pytest.fixture
def disk(monkeypatch: pytest.MonkeyPatch) -> Callable[[int, int], None]:
    """Let the disk be of that size with so much free, in GiB."""

    def of(total: int, free: int) -> None:
        usage = SimpleNamespace(total=total * GIB, used=0, free=free * GIB)
        monkeypatch.setattr(vault_module.shutil, "disk_usage", lambda path: usage)

    return of


def test_two_gibibytes_of_a_small_disk_stay_free(tmp_path: Path, disk: Any) -> None:
    disk(20, 3)  # 5 % of 20 GiB would be 1 GiB
    assert has_room(tmp_path, GIB)
    assert not has_room(tmp_path, GIB + 1)


def test_five_hundredths_of_a_large_disk_stay_free(tmp_path: Path, disk: Any) -> None:
    disk(100, 6)  # 5 % of 100 GiB are 5 GiB
    assert has_room(tmp_path, GIB)
    assert not has_room(tmp_path, GIB + 1)


def test_room_is_asked_of_a_folder_that_is_not_there_yet(tmp_path: Path) -> None:
    assert has_room(tmp_path / "a" / "b", 0, least_bytes=0, least_share=10**9)
