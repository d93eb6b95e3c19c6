"""A full and an empty site, each served by a process of its own, and one browser for them all."""

import json
import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from django.conf import settings
from playwright.sync_api import Browser, BrowserContext, Page

SERVE = "from tests.gallery.accessible.stage import serve; serve(is_full={})"
WIDE, NARROW, PHONE = (1280, 900), (320, 640), (390, 844)
At = Callable[..., Page]
Windows = Callable[..., BrowserContext]


@dataclass(frozen=True)
class Site:
    """A served site: its address, what stands in it by name, the cookies of each person."""

    base: str
    names: dict[str, str]
    cookies: dict[str, dict[str, str]]

    def address(self, path: str) -> str:
        """Where a page stands; {…} in its path are names of the cast."""
        return self.base + path.format_map(self.names)


@contextmanager
def served(data: Path, *, is_full: bool) -> Iterator[Site]:
    words = [sys.executable, "manage.py", "shell", "--verbosity", "0", "-c", SERVE.format(is_full)]
    serving = subprocess.Popen(
        words,
        cwd=settings.CHECKOUT,
        env={**os.environ, "GALLERY_DATA_DIR": str(data)},
        stdout=subprocess.PIPE,
        text=True,
    )
    try:
        assert serving.stdout is not None
        yield Site(**json.loads(serving.stdout.readline()))
    finally:
        serving.kill()
        serving.communicate()


@pytest.fixture(scope="session")
def full(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    """The site with garments in every state; its tests leave it as it is."""
    with served(tmp_path_factory.mktemp("full"), is_full=True) as site:
        yield site


@pytest.fixture(scope="session")
def empty(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    """The site on its first day: a teacher's account and nothing else."""
    with served(tmp_path_factory.mktemp("empty"), is_full=False) as site:
        yield site


@pytest.fixture(scope="module")
def changing(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    """A full site of a module's own, whose tests press its buttons."""
    with served(tmp_path_factory.mktemp("changing"), is_full=True) as site:
        yield site


def window_of(browser: Browser, site: Site, who: str, **how: Any) -> BrowserContext:
    """A browser of one person of the cast."""
    context = browser.new_context(**how)
    context.set_default_timeout(20_000)
    for name, value in site.cookies.get(who, {}).items():
        context.add_cookies([{"name": name, "value": value, "url": site.base}])
    return context


@pytest.fixture(scope="session")
def windows(browser: Browser) -> Iterator[Windows]:
    """One browser for each person on each site, kept open: nothing is fetched twice."""
    kept: dict[Any, BrowserContext] = {}

    def window(site: Site, who: str, **how: Any) -> BrowserContext:
        key = (site.base, who, *sorted(how.items()))
        if key not in kept:
            kept[key] = window_of(browser, site, who, **how)
        return kept[key]

    yield window
    for context in kept.values():
        context.close()


@pytest.fixture
def at(windows: Windows, full: Site) -> Iterator[At]:
    """Open a page of the full site as one person, in a window of a given size."""
    pages = []

    def go(path: str, who: str = "", size: tuple[int, int] = WIDE, **how: Any) -> Page:
        site = how.pop("site", full)
        pages.append(windows(site, who, **how).new_page())
        pages[-1].set_viewport_size({"width": size[0], "height": size[1]})
        pages[-1].goto(site.address(path))
        return pages[-1]

    yield go
    for page in pages:
        page.close()


@pytest.fixture
def blank(browser: Browser) -> Iterator[Page]:
    """A page without a site, to try a measure on."""
    with browser.new_context(viewport={"width": 320, "height": 640}) as window:
        yield window.new_page()
