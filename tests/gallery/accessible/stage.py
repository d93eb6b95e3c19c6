"""A site of its own for the browser, full or empty, served until it is ended.

Run by `manage.py shell` with GALLERY_DATA_DIR set. Prints one line of JSON: where it is served,
what stands in it, and the cookies of each person.
"""

import json
import os

from django.conf import settings
from django.contrib.auth.models import User
from django.core.management import call_command
from django.test import Client

from gallery.contributions.drafts import COOKIE
from gallery.serving import web_server
from tests.gallery.accessible import cast

PASSWORD = "carriage-and-comb"


def serve(*, is_full: bool) -> None:
    """Fill, tell, serve."""
    os.fsync = lambda descriptor: None  # type: ignore[assignment] # no power is cut in a test
    settings.FILM_WIDTH, settings.FILM_HEIGHT, settings.FILM_FPS = 320, 180, 24
    call_command("migrate", verbosity=0)
    call_command("collectstatic", interactive=False, verbosity=0)
    teacher = User.objects.create_user("odalys", password=PASSWORD)
    names, tokens = cast.fill(teacher) if is_full else ({}, {})
    cookies = {"teacher": signed_in(teacher)}
    cookies |= {who: come_in(who, token) for who, token in tokens.items()}
    server = web_server("127.0.0.1", 0)
    server.adj.connection_limit = 500  # a dozen browsers keep six connections each
    base = f"http://127.0.0.1:{server.effective_port}"
    print(json.dumps({"base": base, "names": names, "cookies": cookies}), flush=True)
    server.run()


def signed_in(teacher: User) -> dict[str, str]:
    browser = Client()
    browser.force_login(teacher)
    return {name: cookie.value for name, cookie in browser.cookies.items()}


def come_in(who: str, token: str) -> dict[str, str]:
    """What a browser holds that opened its private link, and sent its garment itself."""
    browser = Client()
    way = "guardian" if who == "guardian" else "mine"
    browser.get(f"/{way}/link/{token}/")
    return {f"{COOKIE}ostrimane-evenings": token} | {
        name: cookie.value for name, cookie in browser.cookies.items()
    }
