"""A pattern written out reads back to the same pattern, whatever it is made of."""

import tomllib
from dataclasses import replace
from fractions import Fraction

import pytest

from alterations.errors import PatternError
from alterations.pattern import Edge, Pattern
from alterations.patternfile import load_pattern
from alterations.patterntext import decimal, text, write_pattern
from alterations.stitches import knitted

# A hand-knitted waistcoat: no machine, odd rows allowed, fronts shaped at one edge, nothing halved.
WAISTCOAT = """
format = 1
[pattern]
name = "Quillmere Waistcoat"
designer = "Odalys Brimworth"
sizes = ["small", "large"]
even_rows = false
[fabrics.plain]
stitches = 20
rows = 27.5
[yarn]
name = "Fennimoor Plain"
ball_grams = 50
ball_metres = 120
metres = [420, 510]
[pieces."left front"]
title = "Left front"
make = 2
edge = [4, 3]
[["pieces"."left front".sections]]
key = "body"
fabric = "plain"
stitches = [43, 47]
rows = [81, 85]
part = "body length"
[["pieces"."left front".sections]]
key = "armhole"
fabric = "plain"
shape = "edges"
where = "left"
stitches = [38, 41]
[["pieces"."left front".sections]]
key = "v-neck"
fabric = "plain"
shape = "spread"
where = "right"
every = "any row"
stitches = [20, 22]
rows = [57, 61]
seams = [0, 0]
"""


def test_the_tunic_reads_back_as_it_was(tunic: Pattern) -> None:
    assert load_pattern(write_pattern(tunic)) == tunic


def test_a_hand_knitted_waistcoat_reads_back_as_it_was() -> None:
    waistcoat = load_pattern(WAISTCOAT)
    assert load_pattern(write_pattern(waistcoat)) == waistcoat


# 43 · 81 = 3483; 18 single decreases over 57 rows are 15 × 3 and 3 × 4 rows: from 38 stitches
# 3 · (38 + … + 24) + 4 · (23 + 22 + 21) = 3 · 465 + 4 · 66 = 1659; two fronts: 2 · 5142 = 10284.
def test_stitches_of_a_front_shaped_at_one_edge_are_counted() -> None:
    assert knitted(load_pattern(WAISTCOAT).size("small")) == {"plain": 10284}


def test_marks_and_signs_in_texts_survive(tunic: Pattern) -> None:
    odd = replace(tunic, note='a "quote" \\ and\na line,\ttab and 編み物')
    assert load_pattern(write_pattern(odd)).note == odd.note


def test_a_delete_sign_is_written_so_that_the_text_is_toml(tunic: Pattern) -> None:
    text = write_pattern(replace(tunic, note="a\x7fb"))
    assert tomllib.loads(text)["pattern"]["note"] == "a\x7fb"


def test_an_edge_of_ones_own_is_written_as_its_numbers(tunic: Pattern) -> None:
    sizes = tuple(
        replace(size, pieces=(replace(size.pieces[3], edge=Edge("1·n + 0", 1, 0)),))
        for size in tunic.sizes
    )
    own = replace(tunic, sizes=sizes, follows=(), measures=())
    assert load_pattern(write_pattern(own)) == own


def test_decimals_are_written_out_exactly() -> None:
    given = [Fraction(13, 2), Fraction(150), Fraction(1, 1000), Fraction(-5, 4)]
    assert [decimal(one) for one in given] == ["6.5", "150", "0.001", "-1.25"]


def test_a_number_without_an_end_is_refused() -> None:
    with pytest.raises(PatternError, match="round it first"):
        decimal(Fraction(1, 3))


def test_a_text_is_quoted_for_the_file() -> None:
    assert text('K2 "P1"') == '"K2 \\"P1\\""'
