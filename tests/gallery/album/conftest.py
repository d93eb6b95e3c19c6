"""The album's cast: a series, knitters with chosen permissions, photos of stamp size."""

import datetime
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

import pytest
from django.conf import settings as site
from django.contrib.auth.models import User
from django.test import Client
from django.utils import timezone
from PIL import Image

from alterations.records.load import load_pattern
from alterations.records.models import Sheet
from gallery import jobs
from gallery.album.collect import begin
from gallery.album.making import ask_for_film
from gallery.album.models import Album, Render
from gallery.consent import ledger
from gallery.consent.models import Entry
from gallery.consent.purposes import FILM, NAME, NOTES, PUBLIC_PAGES
from gallery.consent.texts import current_texts
from gallery.contributions.models import Contribution, Photo
from gallery.contributions.pictures import FILM as FILM_SIZE
from gallery.contributions.pictures import safe_pictures
from gallery.review.models import Verdict
from gallery.series.models import Series

PATTERN = site.CHECKOUT / "gallery" / "demo" / "ostrimane_tunic.toml"
EVERYTHING = (FILM, PUBLIC_PAGES, NOTES, NAME)
FIRST_DAY = datetime.datetime(2026, 3, 1, 12, tzinfo=datetime.UTC)


@pytest.fixture(autouse=True)
def places(tmp_path: Path, settings: Any) -> None:
    """Files of a test lie in its own folder; its films are of stamp size."""
    settings.MEDIA_ROOT = tmp_path
    for name in ("ORIGINALS", "PICTURES", "FILMS", "SEGMENTS"):
        setattr(settings, f"{name}_DIR", tmp_path / name.lower())
    settings.FILM_WIDTH, settings.FILM_HEIGHT, settings.FILM_FPS = 320, 180, 24
    settings.STATIC_ROOT = tmp_path / "static"
    settings.STATIC_ROOT.mkdir()
    settings.STORAGES = {
        **settings.STORAGES,
        "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
    }


@pytest.fixture
def odalys(db: None) -> User:
    return User.objects.create_user("odalys")


@pytest.fixture
def series(odalys: User) -> Series:
    today = timezone.localdate()
    return Series.objects.create(
        slug="ostrimane-evenings",
        short_code="ostri",
        title="The Ostrimane Evenings",
        teacher=odalys,
        teacher_name="Odalys Brimworth",
        pattern_version=load_pattern(PATTERN.read_text(encoding="utf-8")),
        opens_on=today - datetime.timedelta(days=10),
        closes_on=today + datetime.timedelta(days=10),
    )


@pytest.fixture
def film_master(tmp_path: Path) -> Callable[[Photo], str]:
    """Make a photo's film size, of its own colour, and keep it as the intake does."""

    def make(photo: Photo) -> str:
        path = tmp_path / f"{photo.pk}.jpg"
        colour = (37 * photo.pk % 200 + 40, 61 * photo.pk % 200 + 40, 120)
        Image.new("RGB", (480, 270), colour).save(path, "JPEG")
        kept = safe_pictures().put_file(path)
        photo.renditions.create(
            size=FILM_SIZE, sha256=kept.sha256, width=480, height=270, bytes=kept.size
        )
        return kept.sha256

    return make


@pytest.fixture
def garment(series: Series, odalys: User, film_master: Callable[[Photo], str]) -> Any:
    """Send a garment with one photo: who, what is allowed, whether the teacher approved it."""

    def send(
        name: str = "Wrenna Quist",
        allowed: Iterable[str] = EVERYTHING,
        *,
        approved: bool = True,
        words_approved: bool = True,
        is_ready: bool = True,
        stage: str = Contribution.Stage.FINISHED,
    ) -> Photo:
        number = Contribution.objects.count() + 1
        answers = {text: text.purpose in allowed for text in current_texts()}
        contribution = Contribution.objects.create(
            series=series,
            agreement=ledger.open_agreement(answers, actor="sender", way="form"),
            sheet=Sheet.objects.create(version=series.pattern_version, size_name="3"),
            draft_sha256=f"{number:064x}",
            stage=stage,
            credit_name=name,
            sent_at=FIRST_DAY + datetime.timedelta(days=number),
        )
        photo = contribution.photos.create(
            position=1,
            people=Photo.People.NOBODY,
            original_sha256=f"{number:064x}",
            kind="JPEG",
            bytes=1,
            width=480,
            height=270,
            description=f"The tunic of knitter {number} on a chair.",
        )
        if is_ready:
            film_master(photo)
        if approved:
            Verdict.objects.create(
                contribution=contribution, photo=photo, decision="approve", by=odalys
            )
        if words_approved:
            Verdict.objects.create(contribution=contribution, decision="approve", by=odalys)
        return photo

    return send


@pytest.fixture
def take_back() -> Callable[[Photo, str], None]:
    """Withdraw one permission, as the private page does."""

    def withdraw(photo: Photo, purpose: str) -> None:
        text = next(text for text in current_texts() if text.purpose == purpose)
        agreement = photo.contribution.agreement
        ledger.add_entry(
            agreement, text, Entry.Answer.WITHDRAWN, actor="sender", way="private_page"
        )

    return withdraw


@pytest.fixture
def album(series: Series) -> Callable[[], Album]:
    """Begin an album of what is there, two seconds a photo."""

    def make() -> Album:
        begun = begin(series, "The closing film")
        begun.seconds_per_slide = 2
        begun.save()
        return begun

    return make


@pytest.fixture
def filmed(odalys: User) -> Callable[[Album], Render]:
    """Ask for the film of an album and work off every job."""

    def make(album: Album) -> Render:
        wish = ask_for_film(album, odalys)
        jobs.work_off()
        return Render.objects.get(pk=wish.pk)

    return make


@pytest.fixture
def desk(odalys: User) -> Client:
    """The teacher's browser."""
    browser = Client()
    browser.force_login(odalys)
    return browser
