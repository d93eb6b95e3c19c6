"""Somebody sends in German: every word she reads is German, and so is what she agrees to."""

from typing import Any

import pytest
from django.core import mail
from django.test import Client
from django.utils import translation

from gallery.album.asking import Allowed
from gallery.consent.models import ConsentText
from gallery.consent.purposes import FILM
from gallery.consent.texts import add_text, current_texts, wordings
from gallery.contributions.permissions import standing

from .conftest import Knitter, picture

pytestmark = pytest.mark.django_db
TO = "anna@example.org"


@pytest.fixture
def german(knitter: Knitter) -> Knitter:
    knitter.send_address = f"/de{knitter.send_address}"
    knitter.sent_address = f"/de{knitter.sent_address}"
    return knitter


@pytest.fixture
def sent(german: Knitter) -> Knitter:
    german.post("add", pictures=picture())
    name = f"picture-{german.garment.photos.get().public_id}"
    german.post(
        email=TO,
        allow_film="yes",
        allow_notes="yes",
        body_length_amount="5,5",
        **{f"{name}-people": "nobody"},
    )
    return german


def test_the_ledger_holds_the_german_words(sent: Knitter) -> None:
    assert sent.garment.agreement is not None
    texts = {entry.text for entry in sent.garment.agreement.entries.all()}
    assert {text.language for text in texts} == {"de"}
    assert any("im Abschlussfilm" in text.sentence for text in texts)


def test_her_language_is_remembered_and_her_letter_is_written_in_it(
    german: Knitter, django_capture_on_commit_callbacks: Any, request: Any, settings: Any
) -> None:
    settings.POSTS_LETTERS = True
    with django_capture_on_commit_callbacks(execute=True):
        sent = request.getfixturevalue("sent")
    assert sent.garment.language == "de"
    [letter] = mail.outbox
    assert letter.subject == "Ihr Strickstück ist angekommen"
    assert "/de/mine/link/" in str(letter.body)


def test_numbers_have_a_decimal_comma_on_her_pages(sent: Knitter) -> None:
    mine = f"mine/{sent.garment.public_id}/"
    german, english = (sent.browser.get(f"{at}{mine}").content.decode() for at in ("/de/", "/"))
    assert "+5,7 cm (2¼ Zoll)" in german
    assert "+5.7 cm (2¼ in)" in english


def test_a_mistake_is_told_in_german_beside_its_field(german: Knitter) -> None:
    german.post("add", pictures=picture())
    page = german.post(size=None).content.decode()
    assert "Bitte wählen Sie die Größe, die Sie gestrickt haben." in page


def test_the_film_speaks_the_sites_language_whoever_looks(sent: Knitter) -> None:
    row = sent.garment
    with translation.override("de"):
        seen = Allowed(row, row.photos.get(), True, True, True)
        assert seen.caption == "Size 3 · body 5.5 cm longer (+16 rows)"
        assert seen.description.startswith("Picture 1")


def test_words_in_another_language_are_no_newer_words(sent: Knitter) -> None:
    with translation.override("en-gb"):
        film = next(one for one in standing(sent.garment) if one.purpose == FILM)
    assert film.is_given
    assert film.text.language == "de"
    assert film.newer is None


def test_newer_german_words_are_offered_to_her(sent: Knitter) -> None:
    newer = add_text(FILM, "Dürfen wir?", "Wirklich?", language="de")
    film = next(one for one in standing(sent.garment) if one.purpose == FILM)
    assert film.newer == newer


def test_a_teachers_own_words_in_one_language_are_asked_in_every_language(series: Any) -> None:
    own = add_text(FILM, "May we?", "Really?", language="en", scope=series.slug)
    with translation.override("de"):
        asked = current_texts(scope=series.slug)
    assert asked[0] == own
    assert {text.language for text in asked[1:]} == {"de"}
    assert wordings(FILM, series.slug, "de")[0] == own


def test_both_languages_ask_the_same_questions_in_the_same_order(db: None) -> None:
    english, german = current_texts("en"), current_texts("de")
    assert [one.purpose for one in english] == [one.purpose for one in german]
    assert ConsentText.objects.count() == 8


def test_a_draft_goes_on_in_the_other_language(german: Knitter) -> None:
    german.post("add", pictures=picture(), notes="Halb fertig.")
    page = german.browser.get(german.send_address.removeprefix("/de")).content.decode()
    assert '<html lang="en-gb"' in page
    assert "Halb fertig." in page


def syllables(word: str) -> int:
    """Groups of vowels: near enough for a measure of whole texts."""
    groups, before = 0, False
    for letter in word.lower():
        is_vowel = letter in "aeiouyäöü"
        groups += is_vowel and not before
        before = is_vowel
    return max(groups, 1)


def test_the_german_questions_are_easy_enough_to_read(db: None) -> None:
    """Flesch's reading ease for German: 180 - words a sentence - 58.5 x syllables a word.

    T. Amstad, "Wie verständlich sind unsere Zeitungen?", Zürich 1978; newspapers have 30 to 60.
    """
    text = " ".join(f"{one.sentence} {one.meaning}" for one in current_texts("de"))
    sentences = text.count(".") + text.count("?")
    words = [word.strip(".,:?") for word in text.split()]
    ease = 180 - len(words) / sentences - 58.5 * sum(map(syllables, words)) / len(words)
    assert ease >= 50


def test_each_page_of_the_front_door_says_that_it_is_german(sent: Knitter) -> None:
    for path in (sent.send_address, f"/de/mine/{sent.garment.public_id}/", "/de/mine/lost/"):
        assert '<html lang="de"' in sent.browser.get(path).content.decode()
    assert '<html lang="de"' in Client().get("/de/privacy/").content.decode()
