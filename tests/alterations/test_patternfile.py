"""Pattern files: every mistake named by its place."""

import re

import pytest

from alterations.errors import PatternFileError
from alterations.fileform import FORM
from alterations.pattern import Pattern
from alterations.patternfile import LARGEST_BYTES, load_pattern


def problems(text: str | bytes) -> list[str]:
    with pytest.raises(PatternFileError) as refusal:
        load_pattern(text)
    return list(refusal.value.problems)


def swapped(text: str, old: str, new: str) -> str:
    """The first place of a text exchanged; a test that finds no such place is no test."""
    assert old in text
    return text.replace(old, new, 1)


def test_the_demo_pattern_is_read_whole(tunic: Pattern) -> None:
    assert [piece.key for piece in tunic.sizes[0].pieces] == ["back", "front", "sleeve", "neckband"]
    assert tunic.size_names == tuple("12345678")


# old, new, how one of the problems must begin.
MISTAKES = [
    ("rows = [100, 100,", "rows = [100,", "pieces.back.sections[3].rows: has 7 values, and 8"),
    ("rows = [100, 100,", "rows = [-4, 100,", "pieces.back.sections[3].rows, size 1: is -4;"),
    ("rows = [100, 100,", "rows = [100, 1.5,", "pieces.back.sections[3].rows, size 2: must be a"),
    ("rows = [100, 100,", "rows = [100, 9999,", "pieces.back.sections[3].rows, size 2: is 9999;"),
    ("ball_grams = 50", "ball_grans = 50", "yarn.ball_grans: is not a name this format knows; did"),
    ("ball_grams = 50", "", "yarn.ball_grams: is missing"),
    ('fabric = "rib"', 'fabric = "lace"', "pieces.back.sections[1].fabric: there is no fabric"),
    ('shape = "spread"', 'shape = "spred"', "pieces.sleeve.sections[3].shape: must be one of"),
    ('rule = "notch"', 'rule = "noch"', "follows[8].rule: must be one of"),
    ('key = "correction"', 'key = "hem"', "pieces.back.sections[2].key: “hem” must be unique"),
    ("stitches = 21", "stitches = 0", "fabrics.plain.stitches: must be between 2 and 200."),
    ("stitches = 21", "stitches = nan", "fabrics.plain.stitches: is nan; write the number out"),
    ("stitches = 21", "stitches = 2.1e1", "fabrics.plain.stitches: is 2.1e1; write the number"),
    ("format = 1", "format = 2", "format: this program reads format 1"),
    (
        "stitches = [92, 101,",
        "stitches = [93, 101,",
        "pieces.back.sections[1].stitches, size 1: 93",
    ),
    ("groups = [[5, 5, 5]", "groups = [[5, 5, 6]", "pieces.back.sections[6].groups, size 1: hold"),
    ("steps = [[5, 2, 1]", "steps = [[5, 2, 2]", "pieces.front.sections[6].steps, size 1: with"),
    ('at = ["back.body", "front', 'at = ["back.bdy", "front', "measures[1].at: “back.bdy” leads"),
    ('what = "front.body.rows"', 'what = "front.body"', "follows[2].what: “front.body” leads now"),
    ('"front.neck.rows"]', '"nowhere.neck.rows"]', "follows[5].of: “nowhere.neck.rows” leads now"),
]


@pytest.mark.parametrize(("old", "new", "start"), MISTAKES)
def test_a_mistake_is_named_by_its_place(tunic_text: str, old: str, new: str, start: str) -> None:
    found = problems(swapped(tunic_text, old, new))
    assert any(one.startswith(start) for one in found), found


def test_all_mistakes_are_named_at_once(tunic_text: str) -> None:
    text = swapped(tunic_text, "ball_grams = 50", "ball_grams = -1")
    found = problems(swapped(text, "rows = [100, 100,", "rows = [-4, 100,"))
    assert [one.split(":")[0] for one in found] == [
        "yarn.ball_grams",
        "pieces.back.sections[3].rows, size 1",
    ]


def test_a_missing_piece_is_named_where_it_is_asked_for(tunic_text: str) -> None:
    without = re.sub(r"\[pieces\.neckband\].*?(?=# What must)", "", tunic_text, flags=re.DOTALL)
    assert problems(without)[0].startswith("follows[9].what: “neckband.band.stitches” leads now")


def test_a_loop_in_what_follows_what_is_named(tunic_text: str) -> None:
    loop = '[[follows]]\nwhat = "back.body.rows"\nrule = "same"\nof = ["front.body.rows"]\n'
    found = problems(swapped(tunic_text, "[[follows]]", f"{loop}\n[[follows]]"))
    assert "in a loop" in found[0] and "back.body.rows" in found[0]


def test_one_number_cannot_follow_two_rules(tunic_text: str) -> None:
    twice = '[[follows]]\nwhat = "front.body.rows"\nrule = "same"\nof = ["back.body.rows"]\n'
    assert (
        "already follows"
        in problems(swapped(tunic_text, "[[follows]]", f"{twice}\n[[follows]]"))[0]
    )


def test_a_piece_that_runs_out_of_stitches_half_way_is_refused(tunic_text: str) -> None:
    found = problems(swapped(tunic_text, "stitches = [92, 102,", "stitches = [0, 102,"))
    assert any("leaves no stitches to go on with" in one for one in found)


NO_PATTERNS: list[tuple[str | bytes, str]] = [
    ("", "pattern: is missing"),
    ("\x00", "TOML"),
    ("a = [", "TOML"),
    (b"\xff\xfe\x00", "UTF-8"),
    ("#" * (LARGEST_BYTES + 1), "larger than"),
    ("a = " + "[" * 5000, "TOML"),
    ("pattern = 1\npieces = 2\nyarn = []\nfabrics = true", "pattern"),
]


@pytest.mark.parametrize(("data", "words"), NO_PATTERNS)
def test_what_is_no_pattern_at_all_is_refused_in_words(data: str | bytes, words: str) -> None:
    assert any(words in one for one in problems(data))


def test_a_file_saved_with_a_byte_order_mark_is_read(tunic_text: str, tunic: Pattern) -> None:
    assert load_pattern(b"\xef\xbb\xbf" + tunic_text.encode()) == tunic


JUNK = ["-1", '"x"', "[]", "[1, 2]", "true", "inf", "99999999", "0", "[[1]]", "{a = 1}", "0.5"]


@pytest.mark.parametrize("junk", JUNK)
def test_no_value_anywhere_brings_anything_but_a_pattern_or_problems(
    tunic_text: str, junk: str
) -> None:
    """Every third line with a value, each in turn exchanged for the same nonsense."""
    for place in list(re.finditer(r"(?m)^(\w+) = [^\"\n].*$", tunic_text))[::3]:
        text = tunic_text[: place.start()] + f"{place[1]} = {junk}" + tunic_text[place.end() :]
        try:
            assert isinstance(load_pattern(text), Pattern)
        except PatternFileError as refusal:
            assert all(refusal.problems)


def test_the_form_explains_every_name_the_demo_pattern_uses(tunic_text: str) -> None:
    names = set(re.findall(r"(?m)^(\w+) =", tunic_text))
    assert [name for name in sorted(names) if name not in FORM] == []
