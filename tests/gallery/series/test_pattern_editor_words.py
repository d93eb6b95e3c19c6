"""What is wrong is said once, beside its field, of what was typed there; nothing of a file is lost
in silence."""

import pytest
from django.contrib.auth.models import User
from django.core.files.uploadedfile import SimpleUploadedFile

from gallery.series.editor.checking import check
from gallery.series.editor.document import from_toml, to_toml
from gallery.series.editor.importing import left_out
from gallery.series.models import PatternDraft
from tests.alterations.conftest import TUNIC
from tests.gallery.series.test_pattern_editor_kept import BODY, at_desk, said

TEXT = TUNIC.read_text(encoding="utf-8")
GAUGE = "fabrics.0.stitches"


# ---- beside the cells ----


def test_commas_between_the_sizes_are_said_to_be_none() -> None:
    found = said(**{BODY: "100,100,104,104,106,106,110,110"})
    assert len(found) == 1 and "is no single number: no comma parts two sizes" in found[0][2]


def test_a_comma_before_a_blank_only_parts() -> None:
    assert said(**{BODY: "100, 100, 104, 104, 106, 106, 110, 110,"}) == []


def test_a_decimal_among_whole_numbers_is_shown_as_it_was_typed() -> None:
    found = said(**{BODY: "100 100,5 104 104 106 106 110 110"})
    assert found == [(BODY, "2", "“100,5” is no whole number, and no comma parts two sizes.")]


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("-1", "-1 is too small; 1 is the least."),
        ("\u22124", "-4 is too small; 1 is the least."),
        ("0", "0 is too small; 1 is the least."),
        ("9999", "9999 is too large; 3000 is the most."),
        ("9" * 5000, f"“{'9' * 20}…” is too large a number."),
        ("?", "A number is missing here."),
    ],
)
def test_a_number_out_of_reach_is_told_its_bounds(typed: str, sentence: str) -> None:
    found = said(**{BODY: f"100 100 {typed} 104 106 106 110 110"})
    assert found == [(BODY, "3", sentence)]


def test_a_size_named_twice_is_one_note_and_no_row_is_measured_by_it() -> None:
    assert said(pattern__sizes="1 2 3 3 5 6 7 8") == [
        ("pattern.sizes", "", "“3” stands there twice; give each one a name of its own.")
    ]


def test_without_sizes_only_the_sizes_are_asked_for() -> None:
    assert [field for field, _size, _words in said(pattern__sizes="")] == ["pattern.sizes"]


def test_a_measurement_that_is_none_is_named_by_its_size() -> None:
    found = said(pattern__to_fit_cm="76 0 96 106 117 127 137 147")
    sentence = "“0” is no number above zero; write one like 81 or 76.5."
    assert found == [("pattern.to_fit_cm", "2", sentence)]


def test_dashes_that_make_no_list_are_told() -> None:
    row = "5-5-5 6--5 7-6-6 8-7-7 8-8-8 9-9-8 9-9-9 10-10-9"
    [(field, size, sentence)] = said(pieces__0__sections__5__groups=row)
    assert (field, size) == ("pieces.0.sections.5.groups", "2") and "like 7-6-6" in sentence


@pytest.mark.parametrize("typed", ["0", "NaN", "21½", "-21", "1e3", "1", "201"])
def test_a_gauge_that_is_none_is_said_once_beside_its_own_field(typed: str) -> None:
    found = said(**{GAUGE: typed})
    assert [field for field, _size, _words in found] == [GAUGE]
    assert "gauge of 1" not in found[0][2]


def test_a_control_character_is_refused_beside_its_field() -> None:
    assert said(pattern__name="Tu\x01nic") == [
        (
            "pattern.name",
            "",
            "Character number 3 is an invisible control character; "
            "please delete it and type the text again.",
        )
    ]


def test_a_control_character_in_the_name_of_a_size_is_refused() -> None:
    [(field, _size, sentence)] = said(pattern__sizes="1 2\x02 3 4 5 6 7 8")
    assert field == "pattern.sizes" and "invisible control character" in sentence


def test_a_nul_in_a_file_never_reaches_the_database() -> None:
    text = TEXT.replace('name = "Ostrimane Tunic"', 'name = "Ostri\\u0000mane"', 1)
    assert from_toml(text)["pattern"]["name"] == "Ostrimane"


# ---- what a file says and the page cannot hold ----


def told(old: str, new: str) -> tuple[str, ...]:
    assert old in TEXT
    text = TEXT.replace(old, new, 1)
    return left_out(from_toml(text), text)


def test_a_file_that_is_held_whole_loses_nothing() -> None:
    assert left_out(from_toml(TEXT), TEXT) == ()


def test_an_unknown_name_in_a_section_is_told_with_its_section() -> None:
    sentence = "Not taken over from the file: pieces.back.sections[1].opening (Back, Hem)."
    assert told('key = "hem"', 'key = "hem"\nopening = 3') == (sentence,)


def test_an_unknown_table_is_told() -> None:
    assert told("[yarn]", "[care]\nwash = 30\n[yarn]") == ("Not taken over from the file: care.",)


def test_a_misspelt_shape_is_told_and_its_numbers_stay() -> None:
    [sentence] = told('shape = "held"', 'shap = "held"')
    assert "sections[6].shap (Back, Shoulders)" in sentence
    assert "If “shape” was meant: the section is straight now" in sentence
    document = from_toml(TEXT.replace('shape = "held"', 'shap = "held"', 1))
    assert document["pieces"][0]["sections"][5]["groups"].startswith("5-5-5")


def test_unknown_names_are_told_beside_other_mistakes() -> None:
    text = TEXT.replace("stitches = 21", "stitches = nan", 1).replace("ball_grams", "ball_grans")
    assert "yarn.ball_grans" in left_out(from_toml(text), text)[0]


def test_a_list_where_a_table_belongs_is_told() -> None:
    text = TEXT.replace("[machine]", "[[machine]]", 1)
    assert left_out(from_toml(text), text) == ("Not taken over from the file: machine.",)


def test_all_that_is_left_out_stands_on_the_page_after_the_import(teacher: User) -> None:
    text = TEXT.replace('shape = "held"', 'shap = "held"', 1)
    text = text.replace("[yarn]", "[care]\nwash = 30\n[yarn]", 1)
    file = SimpleUploadedFile("p.toml", text.encode())
    page = at_desk(teacher).post("/desk/patterns/", {"pattern_file": file}, follow=True)
    words = page.content.decode()
    assert "from the file: care." in words and "If “shape” was meant" in words


def test_a_gauge_of_nan_in_a_file_is_named_beside_its_field(teacher: User) -> None:
    text = TEXT.replace("stitches = 21", "stitches = nan", 1)
    notes = check(from_toml(text)).notes
    assert [note.field for note in notes] == [GAUGE]
    assert notes[0].sentence == "“nan” is no number; write one like 21 or 6.5."


def test_a_file_in_another_alphabets_bytes_is_refused_in_a_sentence(teacher: User) -> None:
    file = SimpleUploadedFile("p.toml", TEXT.encode("utf-16"))
    page = at_desk(teacher).post("/desk/patterns/", {"pattern_file": file}).content.decode()
    assert "save it again as text in UTF-8" in page and "codec" not in page
    assert not PatternDraft.objects.exists()


def test_a_negative_number_is_written_as_one() -> None:
    document = from_toml(TEXT)
    document["pieces"][0]["sections"][2]["rows"] = "-04"
    assert "rows = -4\n" in to_toml(document)
