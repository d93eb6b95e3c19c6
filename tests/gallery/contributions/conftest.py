"""The front door's cast: a series that is open, pictures made on the spot, a filled-in form."""

import datetime
import io
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from django.conf import settings
from django.contrib.auth.models import User
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.utils import timezone
from PIL import Image

from alterations.records.load import load_pattern
from gallery.contributions import limits, suspicion
from gallery.contributions.models import Contribution
from gallery.contributions.tokens import kept_of, new_token
from gallery.series.models import Series

PATTERN = settings.CHECKOUT / "gallery" / "demo" / "ostrimane_tunic.toml"


@pytest.fixture(autouse=True)
def places(tmp_path: Path, settings: Any) -> None:
    """Files of a test lie in its own folder, and the pages need no collected static files."""
    settings.ORIGINALS_DIR = tmp_path / "originals"
    settings.PICTURES_DIR = tmp_path / "pictures"
    settings.STATIC_ROOT = tmp_path / "static"
    settings.STATIC_ROOT.mkdir()
    settings.STORAGES = {
        **settings.STORAGES,
        "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
    }


@pytest.fixture(autouse=True)
def nobody_waits(monkeypatch: pytest.MonkeyPatch) -> None:
    """A test does not look at the page for three seconds before it sends."""
    monkeypatch.setattr(suspicion, "LEAST_SECONDS", 0)


@pytest.fixture(autouse=True)
def room_on_the_disk(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whether this machine's disk is full is no matter of these tests."""
    monkeypatch.setattr(limits, "has_room", lambda _: True)


@pytest.fixture
def series(db: None) -> Series:
    today = timezone.localdate()
    return Series.objects.create(
        slug="ostrimane-evenings",
        short_code="ostri",
        title="Carriage and Comb: The Ostrimane Evenings",
        teacher=User.objects.create_user("odalys"),
        teacher_name="Odalys Brimworth",
        pattern_version=load_pattern(PATTERN.read_text(encoding="utf-8")),
        opens_on=today - datetime.timedelta(days=10),
        closes_on=today + datetime.timedelta(days=10),
    )


def picture(colour: str = "sienna", name: str = "front.jpg") -> SimpleUploadedFile:
    """A small picture; another colour is another picture."""
    file = io.BytesIO()
    Image.new("RGB", (64, 48), colour).save(file, "JPEG")
    return SimpleUploadedFile(name, file.getvalue(), "image/jpeg")


def broken(name: str = "broken.jpg") -> SimpleUploadedFile:
    """A file that only calls itself a picture."""
    return SimpleUploadedFile(name, b"this is no picture", "image/jpeg")


def _number(files: Any) -> int:
    return len(files) if isinstance(files, list) else int(files is not None)


class Knitter:
    """Somebody in front of the sending page, with a browser that keeps its cookies."""

    def __init__(self, series: Series) -> None:
        self.browser = Client()
        self.token = new_token()
        self.send_address = f"/series/{series.slug}/send/"
        self.sent_address = f"/series/{series.slug}/sent/"

    def post(self, button: str = "send", **given: Any) -> Any:
        """Press a button of the page with everything needed, and what else is given."""
        asked = self.browser.get(self.send_address).context["sending"].permissions.wording
        form = {
            "draft": self.token,
            "asked": asked,
            "shown": suspicion.stamp(),
            "size": "3",
            "is_old_enough": "on",
            "new_people": ["nobody"] * _number(given.get("pictures")),
            button: "yes",
            **given,
        }
        data = {name: value for name, value in form.items() if value is not None}
        answer = self.browser.post(self.send_address, data)
        is_again = answer.get("Location", "").startswith(self.send_address)
        return self.browser.get(answer["Location"]) if is_again else answer

    @property
    def garment(self) -> Contribution:
        return Contribution.objects.get(draft_sha256=kept_of(self.token))

    @property
    def link(self) -> str:
        """The private link as the thank-you page shows it, without the site's address."""
        shown: str = self.browser.get(self.sent_address).context["link"]
        return shown.removeprefix(settings.BASE_URL)


@pytest.fixture
def knitter(series: Series) -> Iterator[Knitter]:
    yield Knitter(series)


@pytest.fixture
def another(series: Series) -> Callable[[], Knitter]:
    return lambda: Knitter(series)
