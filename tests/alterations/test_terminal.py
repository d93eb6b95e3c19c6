"""The library from a terminal: numbers out, or exit code 2 and a sentence."""

import json
from pathlib import Path

import pytest

from alterations.__main__ import main

TUNIC = str(Path(__file__).parents[2] / "gallery" / "demo" / "ostrimane_tunic.toml")


def test_a_longer_body_is_told_in_words(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([TUNIC, "--size", "3", "--body-length", "+5 cm"]) == 0
    told = capsys.readouterr().out
    assert told.startswith("Size 3 · body 5 cm longer (+14 rows)\n")
    assert "104 rows → 118 rows (+14 rows)" in told


def test_a_minus_without_a_space_is_a_length_and_no_option(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main([TUNIC, "--size", "3", "--body-length", "-2in"]) == 0
    assert capsys.readouterr().out.startswith("Size 3 · body 2 in shorter")


def test_another_yarn_is_told_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    swap = ["--yarn", "Kelvarrick Cotton", "--ball", "50/95", "--swatch", "19/26", "--keep-counts"]
    assert main([TUNIC, "--size", "3", *swap, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["caption"] == "Size 3 · Kelvarrick Cotton"
    assert [found["code"] for found in told["findings"]] == ["size", "heavy"]


def test_without_a_size_the_tables_are_shown(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([TUNIC]) == 0
    assert "Ostrimane Tunic: finished measurements" in capsys.readouterr().out


def test_the_tables_are_told_as_json_too(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([TUNIC, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert [table["id"] for table in told] == ["knitted", "finished", "yarn"]


def test_the_format_is_explained(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--format"]) == 0
    assert "[[pieces.KEY.sections]]" in capsys.readouterr().out


REFUSED = [
    ([], "Name a pattern file"),
    (["nowhere.toml"], "cannot be opened"),
    ([TUNIC, "--size", "9"], "choose one of 1, 2"),
    ([TUNIC, "--size", "3", "--body-length", "NaN"], "cannot be read as a length"),
    ([TUNIC, "--size", "3", "--body-length", ""], "No length was given"),
    ([TUNIC, "--size", "3", "--wrist", "-3"], "above zero"),
    ([TUNIC, "--body-length", "5"], "which size"),
    ([TUNIC, "--size", "3", "--ball", "50/95"], "--yarn"),
    ([TUNIC, "--size", "3", "--yarn", "K", "--swatch", "19"], "both its stitches and its rows"),
    ([TUNIC, "--size", "3", "--note", " "], "note is empty"),
    ([TUNIC, "--size", "3", "--gauge", "21/28/3"], "is no gauge"),
    ([TUNIC, "--size", "3", "--keep-counts"], "--yarn or --gauge"),
    (
        [TUNIC, "--size", "3", "--alter", "body_length change=5cm lenght=5cm"],
        "has no field “lenght”",
    ),
    ([TUNIC, "--size", "3", "--alter", "sleeve_width change=2cm change=3cm"], "given twice"),
    ([TUNIC, "--size", "3", "--alter", "body_length change='5"], "cannot be read"),
    ([TUNIC, "--size", "3", "--alter", "other_cuff depth=5cm"], "other_cuff"),
]


@pytest.mark.parametrize(("given", "words"), REFUSED)
def test_bad_input_ends_with_two_and_one_sentence(
    capsys: pytest.CaptureFixture[str], given: list[str], words: str
) -> None:
    assert main(given) == 2
    told = capsys.readouterr()
    assert words in told.err and told.err.count("\n") == 1 and not told.out


def test_an_unknown_option_ends_with_two_and_one_sentence(
    capsys: pytest.CaptureFixture[str],
) -> None:
    with pytest.raises(SystemExit) as ended:
        main([TUNIC, "--lenght", "5"])
    told = capsys.readouterr()
    assert ended.value.code == 2 and told.err.count("\n") == 1 and "--help" in told.err


def test_a_worksheet_begins_with_what_to_watch(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([TUNIC, "--size", "5", "--needles", "130", "--worksheet"]) == 0
    told = capsys.readouterr().out
    assert "! Back: 136 stitches do not fit on 130 needles" in told
    assert told.index("do not fit") < told.index("Cast on")
