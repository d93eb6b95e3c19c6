"""What proves permissions holds on PostgreSQL too: its tests again, on a server of their own."""

import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

CHECKOUT = Path(__file__).resolve().parent.parent
AGAIN = (
    "tests/gallery/consent",
    "tests/gallery/review/test_questions.py",
    "tests/gallery/contributions/test_people.py",
)


def programs() -> Path | None:
    """Where PostgreSQL's own programs lie; Debian keeps them out of the path."""
    found = shutil.which("initdb")
    if found:
        return Path(found).parent
    return max(Path("/usr/lib/postgresql").glob("*/bin"), default=None)


def run(*command: str | Path) -> None:
    """As the user "postgres" where we are root, which PostgreSQL refuses."""
    as_whom: dict[str, Any] = {"user": "postgres", "group": "postgres"} if os.geteuid() == 0 else {}
    subprocess.run(
        command, check=True, cwd="/", stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, **as_whom
    )


@pytest.fixture
def server() -> Iterator[Path]:
    """The folder of a new server's socket."""
    found = programs()
    if found is None:
        missing = "PostgreSQL is missing: install the Debian package postgresql"
        if os.environ.get("GALLERY_TESTS_NO_SKIPS"):
            pytest.fail(missing)
        pytest.skip(missing)
    folder = Path(tempfile.mkdtemp())  # pytest's own folders are closed to another user
    if os.geteuid() == 0:
        shutil.chown(folder, "postgres", "postgres")
    try:
        run(found / "initdb", "-D", folder / "data", "-U", "postgres", "-A", "trust", "-N")
        options = f"-k {folder} -c listen_addresses= -c fsync=off"
        log = folder / "log"
        run(found / "pg_ctl", "-D", folder / "data", "-l", log, "-o", options, "-w", "start")
        yield folder
        run(found / "pg_ctl", "-D", folder / "data", "-m", "immediate", "stop")
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def test_permissions_are_proved_on_postgresql_too(server: Path) -> None:
    there = {"PGHOST": str(server), "PGUSER": "postgres", "GALLERY_TESTS_POSTGRES": "gallery"}
    here = {name: value for name, value in os.environ.items() if name != "PYTEST_ADDOPTS"}
    told = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", *AGAIN],
        cwd=CHECKOUT,
        env={**here, **there},
        capture_output=True,
        check=False,
        text=True,
    )
    assert told.returncode == 0, told.stdout[-4000:]
    assert " passed" in told.stdout
