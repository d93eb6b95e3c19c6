"""Two languages: every text is there in both, and the address alone says which one is spoken."""

import re
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import polib
import pytest
from django.conf import settings
from django.test import Client
from django.urls import reverse
from django.utils import translation

from gallery.album.film.check import problems
from gallery.album.film.plan import FilmPlan
from tests.served import needs

CATALOGUE = settings.CHECKOUT / "gallery" / "locale" / "de" / "LC_MESSAGES" / "django.po"
PLACES = re.compile(r"%\([a-z_0-9]+\)[sd]|%[sd%]|\{[a-z]+\}|</?[a-z]+[^>]*>|\\[123]")
pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def plain_files(settings: Any) -> None:
    static = {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"}
    settings.STORAGES = {**settings.STORAGES, "staticfiles": static}


@pytest.fixture(scope="module")
def german() -> polib.POFile:
    return polib.pofile(str(CATALOGUE))


def test_nothing_is_untranslated_or_guessed(german: polib.POFile) -> None:
    assert [one.msgid for one in german.untranslated_entries()] == []
    assert [one.msgid for one in german.fuzzy_entries()] == []


def test_both_sides_have_the_same_places_to_fill_in(german: polib.POFile) -> None:
    wrong = [
        (one.msgid, said)
        for one in german
        for asked, said in pairs_of(one)
        if sorted(PLACES.findall(asked)) != sorted(PLACES.findall(said))
    ]
    assert wrong == []


def pairs_of(one: polib.POEntry) -> list[tuple[str, str]]:
    if one.msgid_plural:
        return [(one.msgid_plural, one.msgstr_plural[1])]
    return [(one.msgid, one.msgstr)]


def test_what_runs_is_what_can_be_read(german: polib.POFile) -> None:
    compiled = polib.mofile(str(CATALOGUE.with_suffix(".mo")))
    runs = {(one.msgctxt, one.msgid): one.msgstr or one.msgstr_plural for one in compiled}
    read = {(one.msgctxt, one.msgid): one.msgstr or one.msgstr_plural for one in german}
    assert runs == read


def test_the_catalogue_knows_every_text_of_the_sources(
    german: polib.POFile, tmp_path: Path
) -> None:
    needs("xgettext", "gettext")
    copy = tmp_path / "copy"
    for folder in ("gallery", "alterations", "templates"):
        shutil.copytree(settings.CHECKOUT / folder, copy / folder)
    shutil.copy(settings.CHECKOUT / "manage.py", copy)
    subprocess.run(
        [sys.executable, "manage.py", "makemessages", "-l", "de", "--no-location"],
        cwd=copy,
        env={"PATH": "/usr/bin:/bin", "GALLERY_DATA_DIR": str(tmp_path / "data")},
        capture_output=True,
        check=True,
    )
    told = polib.pofile(str(copy / CATALOGUE.relative_to(settings.CHECKOUT)))
    asked = {(one.msgctxt, one.msgid) for one in told if not one.obsolete}
    assert asked - {(one.msgctxt, one.msgid) for one in german} == set()


@pytest.mark.parametrize(
    ("address", "language", "words"),
    [("/help/", "en-gb", "Sending a garment"), ("/de/help/", "de", "Ein Strickstück schicken")],
)
def test_the_address_says_which_language_is_spoken(
    client: Client, address: str, language: str, words: str
) -> None:
    page = client.get(address, headers={"accept-language": "de, en;q=0.5"}).content.decode()
    assert f'<html lang="{language}"' in page
    assert words in page


def test_a_page_leads_to_itself_in_the_other_language(client: Client) -> None:
    page = client.get("/help/?a=1").content.decode()
    assert 'href="/de/help/?a=1" hreflang="de" lang="de"' in page
    assert f'hreflang="de" href="{settings.BASE_URL}/de/help/?a=1"' in page
    assert 'href="/help/?a=1" hreflang="en-gb"' in client.get("/de/help/?a=1").content.decode()


def test_no_cookie_decides_the_language(client: Client) -> None:
    assert settings.LANGUAGE_COOKIE_NAME not in client.get("/de/privacy/").cookies
    client.cookies[settings.LANGUAGE_COOKIE_NAME] = "de"
    assert '<html lang="en-gb"' in client.get("/privacy/").content.decode()


def test_a_picture_has_one_address_whatever_the_page(settings: Any) -> None:
    with translation.override("de"):
        assert reverse("picture", args=["abc", "small"]) == "/pictures/abc/small.jpg"
        assert reverse("help") == "/de/help/"


ALLOWED = {"·", "→", "←", "QR", "SHA-256", "cm", "in", "m", "ZIP", "JSON", "MP4", "WebVTT", "UUID"}


def test_no_word_of_a_template_stands_outside_a_translation() -> None:
    """What is left of a template without its tags, comments, drawings and translated blocks."""
    wrong = {}
    for path in (settings.CHECKOUT / "templates").rglob("*.html"):
        left = words_left(path.read_text(encoding="utf-8")) - ALLOWED
        if left:
            wrong[path.name] = left
    assert wrong == {}


def words_left(text: str) -> set[str]:
    for gone in (
        r"{% comment %}.*?{% endcomment %}",
        r"{#.*?#}",
        r"{% blocktranslate.*?{% endblocktranslate %}",
        r"{% block main_class %}.*?{% endblock %}",
        r"<style.*?</style>|<script.*?</script>",
        r"{%.*?%}|{{.*?}}",
        r"<[^>]*>",
    ):
        text = re.sub(gone, " ", text, flags=re.DOTALL)
    return set(re.findall(r"[A-Za-z]{2,}", re.sub(r"&[a-z]+;", " ", text)))


def test_the_films_engine_speaks_the_language_of_the_page() -> None:
    empty = FilmPlan()
    with translation.override("de"):
        assert problems(empty)[0].startswith("Der Film hat keine Tafeln")
    assert problems(empty)[0].startswith("The film has no slides")
