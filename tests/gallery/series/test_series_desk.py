"""The teacher's own series: opened with a pattern file, changed, and closed to others."""

import datetime
from pathlib import Path
from typing import Any

import pytest
from django.conf import settings
from django.contrib.auth.models import User
from django.core.files.uploadedfile import SimpleUploadedFile
from django.core.management import CommandError, call_command
from django.test import Client

from alterations.records.models import PatternVersion
from gallery.series.models import Series

PATTERN = settings.CHECKOUT / "gallery" / "demo" / "ostrimane_tunic.toml"
TEXT = PATTERN.read_text(encoding="utf-8")


@pytest.fixture
def desk(teacher: User) -> Client:
    client = Client()
    client.force_login(teacher)
    return client


def upload(text: str, name: str = "pattern.toml") -> SimpleUploadedFile:
    return SimpleUploadedFile(name, text.encode(), "application/toml")


def details(**other: Any) -> dict[str, Any]:
    today = datetime.date.today()
    return {
        "title": "Winter Evenings",
        "slug": "winter-evenings",
        "short_code": "Wint",
        "teacher_name": "Odalys Brimworth",
        "introduction": "",
        "opens_on": today,
        "closes_on": today + datetime.timedelta(days=30),
        "minimum_age": 16,
        "pattern_file": upload(TEXT),
        **other,
    }


def test_a_series_is_opened_with_its_pattern(desk: Client, teacher: User) -> None:
    answer = desk.post("/desk/new-series/", details())
    series = Series.objects.get(slug="winter-evenings")
    assert answer["Location"] == "/series/winter-evenings/"
    assert (series.teacher, series.short_code) == (teacher, "wint")
    assert series.pattern_version.pattern.name == "Ostrimane Tunic"


def test_a_mistake_in_the_pattern_file_is_named_by_its_place(desk: Client) -> None:
    broken = TEXT.replace("rows = [100, 100, 104,", "rows = [100, -100, 104,", 1)
    page = desk.post("/desk/new-series/", details(pattern_file=upload(broken)))
    said = " ".join(page.context["form"].errors["pattern_file"])
    assert "back" in said and "size 2" in said
    assert not Series.objects.exists()


def test_a_file_that_is_no_text_is_refused_in_words(desk: Client, series: Series) -> None:
    photo = SimpleUploadedFile("photo.jpg", b"\xff\xd8\xff\xe0\x00\x10JFIF")
    page = desk.post(f"/desk/series/{series.slug}/pattern/", {"pattern_file": photo})
    assert "save it as plain text" in page.context["form"].errors["pattern_file"][0]


def test_a_series_cannot_close_before_it_opens(desk: Client) -> None:
    yesterday = datetime.date.today() - datetime.timedelta(days=1)
    page = desk.post("/desk/new-series/", details(closes_on=yesterday))
    assert "comes after the first" in page.context["form"].errors["closes_on"][0]


def test_a_new_pattern_file_is_a_new_version_and_old_garments_keep_theirs(
    desk: Client, series: Series, garment: Any
) -> None:
    sent = garment().row
    changed = TEXT.replace("rows = 18", "rows = 20", 1)
    desk.post(f"/desk/series/{series.slug}/pattern/", {"pattern_file": upload(changed)})
    series.refresh_from_db()
    sent.sheet.refresh_from_db()
    assert (series.pattern_version.number, sent.sheet.version.number) == (2, 1)


def test_the_same_file_twice_is_one_version(desk: Client, series: Series) -> None:
    for _ in range(2):
        desk.post(f"/desk/series/{series.slug}/pattern/", {"pattern_file": upload(TEXT)})
    assert PatternVersion.objects.count() == 1


@pytest.mark.parametrize("page", ["pattern", "details"])
def test_another_teacher_finds_nothing_there(
    series: Series, other_teacher: User, page: str
) -> None:
    client = Client()
    client.force_login(other_teacher)
    assert client.get(f"/desk/series/{series.slug}/{page}/").status_code == 404


def test_the_details_can_be_changed(desk: Client, series: Series) -> None:
    desk.post(f"/desk/series/{series.slug}/details/", details(title="Summer Evenings"))
    series.refresh_from_db()
    assert series.title == "Summer Evenings"


def test_the_pattern_file_is_explained_where_it_is_loaded(desk: Client, series: Series) -> None:
    page = desk.get(f"/desk/series/{series.slug}/pattern/")
    assert "A pattern file is plain text" in page.content.decode()


def test_the_command_loads_a_pattern_or_names_its_mistakes(
    db: None, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    call_command("load_pattern", str(PATTERN))
    assert "Loaded Ostrimane Tunic (version 1)" in capsys.readouterr().out
    broken = tmp_path / "broken.toml"
    broken.write_text(TEXT.replace('"K2P1"', '"K2P5"', 1), encoding="utf-8")
    with pytest.raises(CommandError, match="back"):
        call_command("load_pattern", str(broken))
    assert PatternVersion.objects.count() == 1
