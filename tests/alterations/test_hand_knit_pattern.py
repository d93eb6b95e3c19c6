"""A pattern of quite another build: a gilet by hand, tapered, with V-neck and bands."""

from fractions import Fraction

import pytest

from alterations.__main__ import main
from alterations.amounts import net_metres
from alterations.caption import caption
from alterations.changes import changes
from alterations.drawing import drawing
from alterations.errors import KindError
from alterations.findings import findings
from alterations.follows import picked_up
from alterations.gauge import Gauge
from alterations.kinds import (
    AnyAlteration,
    ArmholeDepth,
    BodyLength,
    BodyWidth,
    NeckWidth,
    OtherEdge,
    PartLength,
    SleeveLength,
    WorkedInHalves,
    WorkedInPanels,
    YarnSwap,
)
from alterations.lines import lines
from alterations.measures import measure
from alterations.outline import area, bands, outline
from alterations.panels import panels_of
from alterations.pattern import EDGES, Follow, Pattern, Piece, Section, Size
from alterations.patternfile import load_pattern
from alterations.patterntext import write_pattern
from alterations.recalculate import Result, recalculate
from alterations.rounding import up_to_ten
from alterations.rowbook import rowbook
from alterations.stitches import schedule_of
from alterations.tables import size_table
from alterations.units import parse_length
from alterations.worksheet import as_text, worksheet

from .conftest import GILET

COTTON = YarnSwap(
    "Kelvarrick Cotton", Fraction(50), Fraction(95), Gauge(Fraction(19), Fraction(26))
)


def made(pattern: Pattern, *given: AnyAlteration, size: str = "M") -> Result:
    return recalculate(pattern, size, given)


def at(result: Result, address: str) -> Section:
    piece, section = address.split(".")
    return result.after.size.piece(piece).section(section)


# The published amount is the stitch model, 8 % for edges and seams, up to the next ten metres.
def test_the_published_metres_are_the_model_and_its_allowance(gilet: Pattern) -> None:
    found = [up_to_ten(Fraction("1.08") * net_metres(gilet, one)) for one in gilet.sizes]
    assert found == [size.metres for size in gilet.sizes]


def test_none_of_its_sizes_needs_a_second_look(gilet: Pattern) -> None:
    assert [findings(made(gilet, size=name)) for name in gilet.size_names] == [()] * 5


# Bust 116: 12 off and on again in 6 pairs, 30 of 33 rows: every 5 rows 6 times, 3 plain.
def test_the_waist_is_shaped_on_any_row(gilet: Pattern) -> None:
    shaped = str(schedule_of(gilet.size("M").piece("back").section("to_waist")))
    assert shaped == "every 5 rows 6 times, then 3 plain rows"


# 5 cm at 3 rows are 15: 6 -> 21, odd as it may be by hand; both fronts with it, and their band.
def test_a_longer_body_is_followed_by_fronts_and_front_band(gilet: Pattern) -> None:
    result = made(gilet, BodyLength(parse_length("5 cm")))
    assert [at(result, f"{piece}.waist").rows for piece in ("back", "front")] == [21, 21]
    # 30 rows more along both fronts pick up 30 · 2.2 / 3 = 22 stitches; 290 + 22 = 312 ≡ 0, so 310.
    assert at(result, "frontband.band").start == 310
    assert at(result, "armband.band").start == 110


# 6 cm all round: back (52 − …) and both fronts by their widths; the underarms take it.
def test_a_wider_body_is_shared_by_back_and_both_fronts(gilet: Pattern) -> None:
    result = made(gilet, BodyWidth(parse_length("6 cm")))
    wider = measure(result.after.measures, "chest") - measure(result.before.measures, "chest")
    assert abs(wider - 6) <= 3 / Fraction("2.2")  # three pieces, each within one stitch
    assert at(result, "back.armhole").end == 90 and at(result, "front.neck").end == 26
    grown = [at(result, f"back.{key}").end for key in ("correction", "waist", "from_waist")]
    assert grown == [122, 110, 122]


# 2 cm are 6 rows: back straight rows 52 + 6, the V-neck beside them the same; 12 rows for the band.
def test_a_deeper_armhole_is_followed_by_neck_and_armband(gilet: Pattern) -> None:
    result = made(gilet, ArmholeDepth(parse_length("2 cm")))
    rows = [at(result, address).rows for address in ("back.armhole", "front.neck")]
    assert rows[0] == rows[1] == at(made(gilet), "back.armhole").rows + 6
    assert at(result, "armband.band").start > 110


# 38 / 2.2 + 2 cm = 19.27 cm, even 42 stitches: shoulders (90 − 42) / 2 = 24 on back and fronts.
def test_a_wider_neck_is_followed_by_the_fronts_shoulders(gilet: Pattern) -> None:
    result = made(gilet, NeckWidth(parse_length("2 cm")))
    assert at(result, "back.shoulders").end == 42
    assert at(result, "front.neck").end == sum(at(result, "front.shoulders").groups) == 24


def test_another_hem_is_cast_on_to_its_repeat_on_every_piece(gilet: Pattern) -> None:
    result = made(gilet, OtherEdge("hem", "K2P1"))
    assert {at(result, f"{piece}.hem").start % 3 for piece in ("back", "front")} == {2}
    assert at(result, "front.correction").end == 56


def test_what_it_does_not_have_is_refused_with_what_it_has(gilet: Pattern) -> None:
    with pytest.raises(KindError, match=r"has no sleeve length .* body length"):
        made(gilet, SleeveLength(parse_length("4 cm")))


def test_it_may_be_worked_in_another_yarn(gilet: Pattern) -> None:
    result = made(gilet, COTTON)
    widths = [measure(one.measures, "chest") for one in (result.before, result.after)]
    assert abs(widths[0] - widths[1]) <= 3 / Fraction("1.9")
    assert result.after.amount.metres < result.before.amount.metres


@pytest.mark.parametrize("kind", [WorkedInHalves, WorkedInPanels])
def test_its_back_may_be_parted_and_loses_nothing(
    gilet: Pattern, kind: type[AnyAlteration]
) -> None:
    back = made(gilet, kind()).after.size.piece("back")  # type: ignore[call-arg]
    counts = [panel.section("correction").end for panel in panels_of(back)]
    assert sum(counts) - 2 * (len(counts) - 1) == 116


def test_it_is_never_too_wide_for_hand_needles(gilet: Pattern) -> None:
    assert "bed" not in {one.code for one in findings(made(gilet, size="2XL"))}


def test_a_machine_knitters_bed_is_asked_all_the_same(gilet: Pattern) -> None:
    result = recalculate(gilet, "2XL", needles=120)
    assert {one.where for one in findings(result) if one.code == "bed"} >= {"back"}


# T6.8 (common practice): 160 rows · 0.75 = 120, down to 119 for K2P1 with one seam stitch.
def test_t6_8_a_band_is_picked_up_along_rows(tunic: Pattern) -> None:
    edge = Section("edge", "Edge", "plain", 20, 20, 160)
    band = Section("band", "Band", "rib", 1, 1, 8)
    pieces = (Piece("front", "Front", (edge,)), Piece("band", "Band", (band,), edge=EDGES["K2P1"]))
    follow = Follow("band.band.stitches", "picked up", ("front.edge.rows",))
    gauge = Gauge(Fraction(21), Fraction(28))
    assert picked_up(follow, Size("1", pieces, 100), gauge, tunic) == 119


@pytest.mark.parametrize("key", ["back", "front", "armband", "frontband"])
def test_every_piece_is_drawn_with_the_area_of_its_sections(gilet: Pattern, key: str) -> None:
    result = made(gilet, BodyLength(parse_length("5 cm")))
    found = bands(gilet, result.after.size.piece(key), gilet.gauge)
    assert area(outline(found)) == sum((band.area for band in found), Fraction(0))
    assert drawing(result, key).startswith("<svg")


def test_it_is_told_in_lines_changes_caption_and_tables(gilet: Pattern) -> None:
    result = made(gilet, BodyLength(parse_length("5 cm")))
    assert caption(result) == "Size M · body 5 cm longer (+15 rows)"
    assert "Back and front: waist" in [line.what for line in lines(result)]
    assert changes(result)[0].part == "back.waist"
    assert [table.id for table in size_table(gilet)] == ["knitted", "finished", "yarn"]


def test_its_text_reads_back_to_the_same_pattern(gilet: Pattern) -> None:
    assert load_pattern(write_pattern(gilet)) == gilet


def test_its_rows_are_worked_to_the_last_stitch(gilet: Pattern) -> None:
    for piece in gilet.size("L").pieces:
        steps = rowbook(piece, by_hand=True)
        assert steps[-1].stitches == 0 and all(step.stitches >= 0 for step in steps)


def test_its_worksheet_is_written_for_hand_needles(gilet: Pattern) -> None:
    text = as_text(worksheet(made(gilet, BodyLength(parse_length("5 cm")))))
    assert "Worked: by hand" in text and "carriage" not in text and "knit 1 row" not in text
    assert "Work the second one with left and right exchanged." in text
    assert "Pick up 310 stitches." in text


def test_the_terminal_reads_it_too(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([str(GILET), "--size", "M", "--alter", "armhole_depth change=2cm"]) == 0
    assert "armhole 2 cm deeper" in capsys.readouterr().out


def test_a_part_of_a_front_is_changed_where_it_follows_from(gilet: Pattern) -> None:
    result = made(gilet, PartLength("front.waist", parse_length("5 rows")))
    assert [at(result, f"{piece}.waist").rows for piece in ("back", "front")] == [11, 11]
