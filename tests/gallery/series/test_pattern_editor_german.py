"""The page's own words are found for a mistake in whichever language the file reader tells it."""

import re

import pytest

from gallery.series.editor.document import from_toml
from gallery.series.editor.importing import left_out
from tests.alterations.test_saying import as_it_was, in_german  # noqa: F401
from tests.gallery.series.test_pattern_editor_kept import BODY, said
from tests.gallery.series.test_pattern_editor_words import GAUGE, TEXT

FIGURES = "100 100 {} 104 106 106 110 110"


@pytest.mark.parametrize(
    "typed",
    [
        {BODY: FIGURES.format("-1")},
        {BODY: FIGURES.format("9999")},
        {BODY: FIGURES.format("?")},
        {BODY: FIGURES.format("100,5")},
        {BODY: "100 100"},
        {"pattern__sizes": "1 2 3 3 5 6 7 8"},
        {"pattern__sizes": ""},
        {"pattern__name": ""},
        {"pattern__audience": "cat"},
        {"pattern__to_fit_cm": "76 0 96 106 117 127 137 147"},
        {"yarn__ball_grams": "0"},
        {GAUGE: "NaN"},
        {GAUGE: "201"},
        {"pieces__0__edge": "K9P9"},
        {"pieces__0__sections__5__groups": "5-5-5 6--5 7-6-6 8-7-7 8-8-8 9-9-8 9-9-9 10-10-9"},
        {"pieces__0__sections__5__groups": "5-5-5 6-5-5 7-6-6 8-7-7 8-8-8 9-9-8 9-9-9 10-10-8"},
        {"pieces__1__sections__5__steps": "9-2-1"},
        {"follows__0__of": "back.nowhere.rows"},
    ],
)
def test_a_note_is_the_same_when_the_file_reader_speaks_german(typed: dict[str, str]) -> None:
    in_english = said(**typed)
    in_german()
    assert without_marks(said(**typed)) == without_marks(in_english) != []


def without_marks(notes: list[tuple[str, str, str]]) -> list[tuple[str, str, str]]:
    """What somebody typed stands in the quotation marks of the language."""
    return [(field, size, re.sub("[“”„]", "", words)) for field, size, words in notes]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('key = "hem"', 'key = "hem"\nopening = 3'),
        ("[yarn]", "[care]\nwash = 30\n[yarn]"),
        ('shape = "held"', 'shap = "held"'),
        ("[machine]", "[[machine]]"),
    ],
)
def test_what_is_left_out_is_the_same_when_the_file_reader_speaks_german(
    old: str, new: str
) -> None:
    text = TEXT.replace(old, new, 1)
    in_english = left_out(from_toml(text), text)
    in_german()
    assert left_out(from_toml(text), text) == in_english != ()
