"""One browser for all tests that need one: a second one beside it cannot be started."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser

from tests.served import chromium


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Debian's own Chromium; each test opens windows of its own in it."""
    with chromium() as browser:
        yield browser
