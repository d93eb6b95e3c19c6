"""The rooms' cast: two teachers, a series, and garments made of rows and small pictures."""

import datetime
import io
import itertools
import os
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Any

import pytest
from django.conf import settings
from django.contrib.auth.models import User
from django.test import Client
from django.utils import timezone, translation
from PIL import Image

from alterations.kinds import AnyAlteration, BodyLength, FreeNote, YarnSwap
from alterations.records import store
from alterations.records.load import load_pattern
from alterations.units import parse_length
from gallery.consent import ledger
from gallery.consent.models import Entry
from gallery.consent.purposes import PURPOSES
from gallery.consent.texts import current_texts
from gallery.contributions.links import open_link
from gallery.contributions.models import Contribution, Photo
from gallery.contributions.pictures import SIZES, originals, safe_pictures
from gallery.contributions.tokens import kept_of, new_token
from gallery.review.models import Verdict
from gallery.series.models import Series
from tests.post_office import post_office  # noqa: F401 (a fixture)

PATTERN = settings.CHECKOUT / "gallery" / "demo" / "ostrimane_tunic.toml"
EVERYTHING = PURPOSES
CHANGES: tuple[AnyAlteration, ...] = (
    BodyLength(parse_length("5 cm")),
    YarnSwap("Kelvarrick Cotton"),
    FreeNote("A pocket on the left."),
)
_colours = itertools.count()


@pytest.fixture(autouse=True)
def places(tmp_path: Path, settings: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    """Files of a test lie in its own folder, and the pages need no collected static files."""
    monkeypatch.setattr(os, "fsync", lambda descriptor: None)  # no power is cut in a test
    settings.ORIGINALS_DIR = tmp_path / "originals"
    settings.PICTURES_DIR = tmp_path / "pictures"
    settings.STATIC_ROOT = tmp_path / "static"
    settings.STATIC_ROOT.mkdir()
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]  # quick
    settings.STORAGES = {
        **settings.STORAGES,
        "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
    }


@pytest.fixture(autouse=True)
def the_sites_language() -> Iterator[None]:
    """A request leaves its language behind; the next test begins in the site's own."""
    translation.activate(settings.LANGUAGE_CODE)
    yield
    translation.activate(settings.LANGUAGE_CODE)


@pytest.fixture
def teacher(db: None) -> User:
    return User.objects.create_user("odalys", password="carriage-and-comb")


@pytest.fixture
def other_teacher(db: None) -> User:
    return User.objects.create_user("perpetua", password="needles-and-hook")


@pytest.fixture
def series(teacher: User) -> Series:
    today = timezone.localdate()
    return Series.objects.create(
        slug="ostrimane-evenings",
        short_code="ostri",
        title="Carriage and Comb: The Ostrimane Evenings",
        teacher=teacher,
        teacher_name="Odalys Brimworth",
        pattern_version=load_pattern(PATTERN.read_text(encoding="utf-8")),
        opens_on=today - datetime.timedelta(days=10),
        closes_on=today + datetime.timedelta(days=10),
    )


def jpeg(size: tuple[int, int] = (40, 50)) -> bytes:
    """A small picture that is like no other."""
    number = next(_colours)
    file = io.BytesIO()
    Image.new("RGB", size, (number % 256, number // 256 % 256, 90)).save(file, "JPEG", quality=98)
    return file.getvalue()


class Garment:
    """One garment as rows: sent, with its answers, its numbers and its photos."""

    def __init__(
        self,
        series: Series,
        *,
        allows: Sequence[str] = (),
        photos: int = 1,
        is_safe: bool = True,
        description: str = "Front, worn over a shirt",
        changes: Sequence[AnyAlteration] = CHANGES,
        **facts: Any,
    ) -> None:
        self.token = new_token()
        self.series = series
        answers = {text: text.purpose in allows for text in current_texts()}
        self.row = Contribution.objects.create(
            series=series,
            agreement=ledger.open_agreement(answers, actor=Entry.Actor.SENDER, way=Entry.Way.FORM),
            sheet=store.keep_sheet(series.pattern_version, "4", changes, tool="machine"),
            draft_sha256=kept_of(self.token),
            **{
                "credit_name": "Tamsin Quillfeather",
                "notes": "It wears like an old friend.",
                "sent_at": timezone.now(),
                **facts,
            },
        )
        open_link(self.row, self.token)
        for position in range(1, photos + 1):
            self._add_photo(position, description, is_safe)

    def _add_photo(self, position: int, description: str, is_safe: bool) -> None:
        original = originals().put([jpeg()])
        photo = self.row.photos.create(
            position=position,
            description=description,
            people=Photo.People.NOBODY,
            original_sha256=original.sha256,
            original_name="IMG_20260101_secret-place.jpg",
            kind="jpeg",
            bytes=original.size,
            width=40,
            height=50,
            safe_at=timezone.now() if is_safe else None,
        )
        for size in SIZES if is_safe else ["small"]:
            made = safe_pictures().put([jpeg()])
            photo.renditions.create(
                size=size, sha256=made.sha256, width=40, height=50, bytes=made.size
            )

    @property
    def photo(self) -> Photo:
        """Its first photo."""
        return self.row.photos.all()[0]

    @property
    def address(self) -> str:
        return f"/garments/{self.row.public_id}/"

    def picture(self, size: str = "medium") -> str:
        """The address of its first photo in one size."""
        return f"/pictures/{self.photo.public_id}/{size}.jpg"

    def decide(self, decision: str = Verdict.Decision.APPROVE) -> "Garment":
        """The same decision on every photo and on the words."""
        for photo in [*self.row.photos.all(), None]:
            self.decide_on(photo, decision)
        return self

    def decide_on(
        self, photo: Photo | None, decision: str = Verdict.Decision.APPROVE, note: str = ""
    ) -> None:
        Verdict.objects.create(
            contribution=self.row,
            photo=photo,
            decision=decision,
            note=note,
            by=self.series.teacher,
        )

    def take_back(self, *purposes: str) -> None:
        """The sender withdraws permissions."""
        for text in current_texts():
            if text.purpose in purposes:
                ledger.add_entry(
                    self.row.agreement,  # type: ignore[arg-type]
                    text,
                    Entry.Answer.WITHDRAWN,
                    actor=Entry.Actor.SENDER,
                    way=Entry.Way.PRIVATE_PAGE,
                )

    def sender(self) -> Client:
        """The browser of its sender, come in by the private link."""
        browser = Client()
        browser.get(f"/mine/link/{self.token}/")
        return browser


@pytest.fixture
def garment(series: Series) -> Callable[..., Garment]:
    """Makes a garment of the series: `allows`, `photos` and facts of the row may be given."""
    return lambda **given: Garment(given.pop("series", series), **given)


@pytest.fixture
def shown(garment: Callable[..., Garment]) -> Garment:
    """A garment that is approved and allowed in everything."""
    return garment(allows=EVERYTHING).decide()


@pytest.fixture
def desk_of() -> Callable[[User], Client]:
    """The browser of a teacher who has signed in."""

    def sign_in(user: User) -> Client:
        browser = Client()
        browser.force_login(user)
        return browser

    return sign_in
