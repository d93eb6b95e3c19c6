"""The site as its keeper runs it (`manage.py serve`), on a data folder of its own, for browsers."""

import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect, sync_playwright

from gallery.demo.chromium import ARGUMENTS, CHROMIUM

CHECKOUT = Path(__file__).resolve().parent.parent
SERIES = "/series/ostrimane-evenings/"


def needs(program: str, package: str) -> str:
    """The program's path; without it the test is skipped, or fails where skips are forbidden."""
    found = shutil.which(program)
    if found:
        return found
    words = f"{program} is missing: install the Debian package {package}"
    if os.environ.get("GALLERY_TESTS_NO_SKIPS") == "1":
        pytest.fail(words)
    pytest.skip(words)


@dataclass(frozen=True)
class Site:
    """A served site, its teacher's password and its data."""

    base: str
    password: str
    data: Path


def manage(data: Path, *words: str) -> str:
    done = subprocess.run(
        [sys.executable, "manage.py", *words],
        cwd=CHECKOUT,
        env={**os.environ, "GALLERY_DATA_DIR": str(data)},
        capture_output=True,
        text=True,
        check=True,
    )
    return done.stdout


SET_UP = (
    "from django.utils import timezone; from gallery.demo.fill import set_the_stage; "
    "print(set_the_stage(timezone.localdate()).password)"
)


@contextmanager
def served(data: Path) -> Iterator[Site]:
    """The demo's series, empty, served until the block ends."""
    needs(CHROMIUM, "chromium")
    manage(data, "migrate", "--verbosity", "0")
    password = manage(data, "shell", "--verbosity", "0", "-c", SET_UP).strip().splitlines()[-1]
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    base = f"http://127.0.0.1:{port}"
    serving = subprocess.Popen(
        [sys.executable, "manage.py", "serve", "--port", str(port)],
        cwd=CHECKOUT,
        env={**os.environ, "GALLERY_DATA_DIR": str(data), "GALLERY_BASE_URL": base},
        stdout=subprocess.DEVNULL,
    )
    try:
        wait_until_served(base)
        yield Site(base, password, data)
    finally:
        serving.terminate()
        serving.wait(60)


def wait_until_served(base: str) -> None:
    for _ in range(120):
        try:
            urllib.request.urlopen(base + "/help/", timeout=5)
        except OSError:
            time.sleep(0.5)
        else:
            return
    pytest.fail("The site did not answer.")


@contextmanager
def chromium() -> Iterator[Browser]:
    """Debian's own browser."""
    needs(CHROMIUM, "chromium")
    with sync_playwright() as play:
        yield play.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)


def tick(page: Page, field: str) -> None:
    """By keyboard: the page may still move a little, when the numbers worked out come in."""
    page.locator(field).press("Space")
    expect(page.locator(field)).to_be_checked()


def go_on(page: Page, button: str, then: str) -> None:
    """Press the button of one step, and wait for the next one."""
    page.get_by_role("button", name=button).click()
    expect(page.locator("legend:visible", has_text=then).first).to_be_visible(timeout=20_000)
