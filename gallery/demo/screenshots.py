"""Takes pictures of the running site with a real browser, for the README."""

import io
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from django.conf import settings
from django.contrib.auth import BACKEND_SESSION_KEY, HASH_SESSION_KEY, SESSION_KEY
from django.contrib.auth.models import User
from django.contrib.sessions.backends.db import SessionStore
from PIL import Image
from playwright.sync_api import Browser, sync_playwright

from gallery.demo.chromium import ARGUMENTS, CHROMIUM
from gallery.serving import web_server

WIDEST = 1100  # pixels of a picture in the README
QUALITY = 78


@dataclass(frozen=True)
class View:
    """One picture to take: where, how wide and high, as whom."""

    name: str
    path: str
    width: int = 1280
    height: int = 860
    as_teacher: bool = False


def take(views: list[View], folder: Path, teacher: User) -> Iterator[Path]:
    """Take the pictures as WebP; raises OSError where Chromium is missing."""
    if not Path(CHROMIUM).exists():
        raise FileNotFoundError(f"{CHROMIUM} is missing (Debian: chromium).")
    folder.mkdir(exist_ok=True)
    with _served() as base, sync_playwright() as play:
        browser = play.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
        for view in views:
            yield _picture(browser, base, view, folder, teacher)


def _picture(browser: Browser, base: str, view: View, folder: Path, teacher: User) -> Path:
    context = browser.new_context(
        viewport={"width": view.width, "height": view.height}, reduced_motion="reduce"
    )
    if view.as_teacher:
        session = _session_of(teacher)
        context.add_cookies([{"name": settings.SESSION_COOKIE_NAME, "value": session, "url": base}])
    page = context.new_page()
    page.goto(base + view.path, wait_until="networkidle")
    shot = Image.open(io.BytesIO(page.screenshot()), formats=("PNG",)).convert("RGB")
    context.close()
    shot.thumbnail((WIDEST, WIDEST))
    path = folder / f"{view.name}.webp"
    shot.save(path, "WEBP", quality=QUALITY, method=6)
    return path


@contextmanager
def _served() -> Iterator[str]:
    server = web_server("127.0.0.1", 0)
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.effective_port}"
    finally:
        server.close()


def _session_of(user: User) -> str:
    """A signed-in session, so that no password is needed."""
    session = SessionStore()
    session[SESSION_KEY] = str(user.pk)
    session[BACKEND_SESSION_KEY] = settings.AUTHENTICATION_BACKENDS[0]
    session[HASH_SESSION_KEY] = user.get_session_auth_hash()
    session.set_expiry(600)
    session.create()
    return str(session.session_key)
