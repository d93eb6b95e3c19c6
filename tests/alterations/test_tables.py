"""The pattern's numbers as tables of sizes. Cells as in the pattern's published table."""

import pytest

from alterations.pattern import Pattern
from alterations.tables import Row, size_table


def rows(pattern: Pattern, table: str) -> list[Row]:
    return list(next(one for one in size_table(pattern) if one.id == table).rows)


def cells(pattern: Pattern, table: str, name: str, unit: str) -> str:
    """The first row of that name."""
    found = next(row for row in rows(pattern, table) if (row.name, row.unit) == (name, unit))
    return " ".join(found.cells)


def test_there_is_a_column_for_each_size(tunic: Pattern) -> None:
    tables = size_table(tunic)
    assert [table.id for table in tables] == ["knitted", "finished", "yarn"]
    assert all(table.columns == tunic.size_names for table in tables)
    assert all(len(row.cells) == 8 for table in tables for row in table.rows if not row.is_group)


def test_each_piece_heads_its_rows(tunic: Pattern) -> None:
    groups = [row.name for row in rows(tunic, "knitted") if row.is_group]
    assert groups == ["Back", "Front", "Sleeve (two)", "Neckband"]


KNITTED = [
    ("Cast on", "stitches", "92 101 113 122 134 146 2 × 77 2 × 83"),
    ("Hem to armhole", "rows", "100 100 104 104 106 106 110 110"),
    ("Notch bind-off, each side", "stitches", "6 9 12 14 17 20 23 26"),
    ("Neck, centre", "stitches", "34 34 34 34 36 36 38 38"),
    ("Neck, then each side", "stitches", "5-2-1 5-2-1 6-2-1 6-2-1 5-3-1 5-3-1 5-3-1 5-3-1"),
    (
        "Shoulders, groups",
        "stitches",
        "5-5-5 6-6-5 7-6-6 8-7-7 8-8-8 9-9-8 9-9-9 10-10-9",
    ),
    ("Taper", "rows", "106 108 108 108 106 106 104 100"),
]
FINISHED = [
    ("Finished chest", "cm", "85.7 95.2 106.7 116.2 127.6 137.1 146.7 156.2"),
    ("Finished chest", "in", "33¾ 37½ 42 45¾ 50¼ 54 57¾ 61½"),
    ("To fit", "in", "30 33¾ 37¾ 41¾ 46 50 54 57¾"),
    ("Length, hem to shoulder tip", "cm", "59.6 61 63.1 63.9 66.7 67.4 69.6 71"),
    ("Length, hem to shoulder tip", "in", "23½ 24 24¾ 25¼ 26¼ 26½ 27½ 28"),
    ("Sleeve total length", "in", "18 19 19½ 20 20¼ 21 21¼ 21¼"),
]


@pytest.mark.parametrize(("name", "unit", "line"), KNITTED)
def test_stitches_and_rows_are_those_of_the_pattern(
    tunic: Pattern, name: str, unit: str, line: str
) -> None:
    assert cells(tunic, "knitted", name, unit) == line


@pytest.mark.parametrize(("name", "unit", "line"), FINISHED)
def test_measurements_stand_in_cm_and_in_quarter_inches(
    tunic: Pattern, name: str, unit: str, line: str
) -> None:
    assert cells(tunic, "finished", name, unit) == line


def test_yarn_stands_in_metres_and_balls(tunic: Pattern) -> None:
    assert cells(tunic, "yarn", "Metres", "m") == "970 1080 1200 1300 1470 1580 1710 1830"
    assert cells(tunic, "yarn", "Balls of 50 g = 120 m", "") == "9 9 10 11 13 14 15 16"


def test_the_sleeve_s_increases_stand_in_the_table_as_they_are_worked(tunic: Pattern) -> None:
    # Size 3, 54 to 86 stitches over 102 rows: 16 pairs, every 6 rows 13 times, every 8 rows 3 times
    # (even spreading over double rows: common practice, no source).
    name = "Taper, increase each side (rows × times)"
    rhythm = next(row for row in rows(tunic, "knitted") if row.name == name)
    assert rhythm.cells[2] == "6×13, 8×3"


def test_the_correction_after_the_hem_stands_in_the_table(tunic: Pattern) -> None:
    # Size 3: 114 wanted, K2P1 casts on 113 = 2 mod 3; size 8 in halves: 84 from 83, each half.
    correction = next(row for row in rows(tunic, "knitted") if row.name == "Correction")
    assert (correction.cells[2], correction.cells[7]) == ("+1", "2 × +1")
