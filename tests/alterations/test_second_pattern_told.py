"""The waistcoat told: every kind of change in lines, drawings, tables, worksheet and terminal.

24 stitches x 32 rows = 10 cm (w 2.4, c 3.2, w/c 0.75); how each number was found stands in the
pattern file. Size XS or M, expected values worked by hand.
"""

import json
from fractions import Fraction
from pathlib import Path

import pytest

from alterations.__main__ import main
from alterations.caption import caption
from alterations.changes import changes
from alterations.drawing import drawing
from alterations.errors import AlterationsError, KindError
from alterations.findings import findings
from alterations.gauge import Gauge
from alterations.kinds import (
    AnyAlteration,
    ArmholeDepth,
    BellSleeve,
    BodyLength,
    BodyWidth,
    Extra,
    FreeNote,
    NeckDepth,
    NeckWidth,
    OtherEdge,
    OtherHeight,
    OwnFigure,
    PartLength,
    SleeveGirth,
    SleeveLength,
    SleeveWidth,
    Strand,
    StrandsTogether,
    WorkedInHalves,
    WorkedInPanels,
    YarnSwap,
)
from alterations.lines import lines, lines_of
from alterations.outline import area, bands, outline
from alterations.pattern import Pattern, Section, Size
from alterations.patternfile import read_pattern
from alterations.recalculate import Result, recalculate
from alterations.rowbook import rowbook
from alterations.tables import size_table
from alterations.units import parse_length
from alterations.worksheet import as_text, worksheet

FILE = Path(__file__).parent / "patterns" / "ostrimane_waistcoat.toml"
WIDTH, ROWS = Fraction("2.4"), Fraction("3.2")
COTTON = YarnSwap(
    "Kelvarrick Cotton", Fraction(50), Fraction(95), Gauge(Fraction(20), Fraction(27))
)
TWO_STRANDS = StrandsTogether((Strand("Fennimoor Plain", Fraction(50), Fraction(120), 2),))


@pytest.fixture(scope="module")
def waistcoat() -> Pattern:
    return read_pattern(FILE)


def made(pattern: Pattern, *given: AnyAlteration, size: str = "M") -> Result:
    return recalculate(pattern, size, given)


def at(result: Result, address: str) -> Section:
    piece, section = address.split(".")
    return result.after.size.piece(piece).section(section)


def ends(size: Size, address: str) -> int:
    piece, section = address.split(".")
    return size.piece(piece).section(section).end


# ---- what it does not have ----


@pytest.mark.parametrize(
    "one",
    [
        SleeveLength(parse_length("4 cm")),
        SleeveWidth(parse_length("20 cm")),
        SleeveGirth(parse_length("3 cm")),
        BellSleeve(parse_length("44 cm"), parse_length("20 cm")),
    ],
    ids=lambda one: one.kind,
)
def test_what_it_lacks_is_refused_with_what_it_has(waistcoat: Pattern, one: AnyAlteration) -> None:
    with pytest.raises(KindError, match=r"has no .* it has hem, body width, body length"):
        made(waistcoat, one)


# ---- it is told everywhere the first pattern is ----

EVERY_KIND: list[AnyAlteration] = [
    BodyLength(parse_length("5 cm")),
    ArmholeDepth(parse_length("-1/2 in")),
    NeckDepth(parse_length("1 cm")),
    OtherHeight(parse_length("-7 cm")),
    PartLength("front.waist", parse_length("5 rows")),
    BodyWidth(parse_length("-6 cm"), "shoulders"),
    NeckWidth(parse_length("1 in")),
    OtherEdge("armhole band", "K1P1", parse_length("3 cm")),
    OtherEdge("hem", "hung hem"),
    COTTON,
    TWO_STRANDS,
    WorkedInHalves(),
    WorkedInPanels(),
    Extra("buttons"),
    OwnFigure("back.bust", 51, 128),
    FreeNote("pockets inside"),
]


@pytest.mark.parametrize("one", EVERY_KIND, ids=lambda one: one.kind)
def test_every_kind_is_told_in_every_way(waistcoat: Pattern, one: AnyAlteration) -> None:
    result = made(waistcoat, one)
    assert caption(result).startswith("Size M")
    assert all(line.what for line in (*lines(result), *lines_of(result, one, "in")))
    assert all(found.sentence.endswith((".", "?")) for found in findings(result))
    assert all(change.delta for change in changes(result))
    assert "Ostrimane Waistcoat, size M" in as_text(worksheet(result))


@pytest.mark.parametrize("key", ["back", "front", "armhole_band", "front_band"])
@pytest.mark.parametrize("one", [BodyLength(parse_length("5 cm")), COTTON], ids=lambda o: o.kind)
def test_every_piece_is_drawn_with_the_area_of_its_sections(
    waistcoat: Pattern, key: str, one: AnyAlteration
) -> None:
    result = made(waistcoat, one)
    found = bands(waistcoat, result.after.size.piece(key), result.after.gauge)
    assert area(outline(found)) == sum((band.area for band in found), Fraction(0))
    assert 'class="made"' in drawing(result, key)


def test_a_front_is_said_to_be_shaped_at_its_one_edge(waistcoat: Pattern) -> None:
    result = made(waistcoat, NeckDepth(parse_length("2 cm")))
    notes = {line.what: line.note for line in lines(result)}
    assert notes["Front: V-neck"].startswith("decrease one stitch at the right edge every 2 rows 9")


def test_its_tables_name_fronts_and_bands(waistcoat: Pattern) -> None:
    knitted_table, finished, _ = size_table(waistcoat)
    groups = [row.name for row in knitted_table.rows if row.is_group]
    assert groups == ["Back", "Front (two)", "Armhole band (two)", "Front band (two)"]
    chest = next(row for row in finished.rows if row.name.startswith("Finished chest"))
    assert chest.cells[2] == "102.5"  # (126 + 60 + 60) / 2.4


def test_its_rows_are_worked_to_the_last_stitch(waistcoat: Pattern) -> None:
    for size in waistcoat.sizes:
        for piece in size.pieces:
            steps = rowbook(piece, by_hand=True)
            assert steps[-1].stitches == 0 and all(step.stitches >= 0 for step in steps)


def test_its_worksheet_speaks_of_hands_and_mirrors(waistcoat: Pattern) -> None:
    text = as_text(worksheet(made(waistcoat, BodyLength(parse_length("5 cm")))))
    assert "Worked: by hand" in text and "carriage" not in text
    assert "Work the second one with left and right exchanged." in text
    assert "Pick up 178 stitches." in text


def test_the_terminal_answers_for_it(capsys: pytest.CaptureFixture[str]) -> None:
    given = [str(FILE), "--size", "M", "--alter", "body_length change=5cm", "--json"]
    assert main(given) == 0
    assert json.loads(capsys.readouterr().out)["caption"] == "Size M · body 5 cm longer (+16 rows)"


def test_the_terminal_refuses_sleeves_in_a_sentence(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([str(FILE), "--size", "M", "--sleeve-length", "4cm"]) == 2
    assert capsys.readouterr().err.strip().endswith("front band.")


def test_a_size_it_does_not_have_is_refused(waistcoat: Pattern) -> None:
    with pytest.raises(AlterationsError, match="choose one of XS, S, M, L, XL, 2XL"):
        recalculate(waistcoat, "3")
