"""How hard our pages on permissions are to read.

Measure: the grade of J. P. Kincaid and others, "Derivation of new readability formulas for Navy
enlisted personnel" (Research Branch Report 8-75, 1975):
0.39 words a sentence + 11.8 syllables a word - 15.59. Grade 8 is what plain-language guides ask of
texts for everybody (common practice, no source). Syllables are counted by groups of vowels.
"""

import html
import re
from typing import Any

import pytest
from django.test import Client

pytestmark = pytest.mark.django_db
LIMIT = 8.0


def grade(words: str) -> float:
    sentences = [one for one in re.split(r"[.!?:]+\s", words) if re.search(r"[a-z]", one)]
    found = re.findall(r"[A-Za-z][a-z']*", words)
    syllables = sum(syllables_of(one) for one in found)
    return 0.39 * len(found) / len(sentences) + 11.8 * syllables / len(found) - 15.59


def syllables_of(word: str) -> int:
    low = word.lower()
    silent = low.endswith("e") and not low.endswith(("le", "ee")) and len(low) > 3
    return max(1, len(re.findall(r"[aeiouy]+", low)) - silent)


def words_of(page: str) -> str:
    """The text of a page's main part, each paragraph, item and heading a sentence."""
    main = page.split("<main", 1)[1].split("</main>", maxsplit=1)[0]
    main = re.sub(r"<(script|style|form).*?</\1>", " ", main, flags=re.S)
    main = re.sub(r"</(p|li|h1|h2|h3|dt|dd|summary|label|a)>", ". ", main)
    text = html.unescape(re.sub(r"<[^>]+>", " ", main))
    return re.sub(r"[.:]\s*\.\s", ". ", re.sub(r"\s+", " ", text))


# The paper's own coefficients: three words of one syllable make 0.39 · 3 + 11.8 - 15.59.
def test_the_measure_is_the_published_one() -> None:
    assert grade("The cat sat. The dog ran. ") == pytest.approx(0.39 * 3 + 11.8 - 15.59)
    assert [syllables_of(one) for one in ("picture", "permission", "made", "table")] == [2, 3, 1, 2]


@pytest.mark.parametrize("page", ["/privacy/", "/help/", "call"])
def test_the_pages_that_explain_are_in_plain_words(series: Any, page: str) -> None:
    page = f"/series/{series.slug}/" if page == "call" else page
    assert grade(words_of(Client().get(page).content.decode())) <= LIMIT


def test_the_private_page_is_in_plain_words(shown: Any) -> None:
    browser = shown.sender()
    for path in ("", "receipt/", "withdraw/", "erase/", "people/"):
        page = browser.get(f"/mine/{shown.row.public_id}/{path}").content.decode()
        assert grade(words_of(page)) <= LIMIT, path


RIGHTS = [
    "responsible",
    "legal basis is your consent",
    "Who is responsible",
    "backups are gone after",
    "take any yes back",
    "complain to the data protection authority",
    "not legal advice",
    "Nobody else gets it",
    "Does a picture show you",
]


@pytest.mark.parametrize("said", RIGHTS)
def test_the_notice_says_all_it_has_to(said: str) -> None:
    assert said in Client().get("/privacy/").content.decode()
