"""What is said around the numbers holds for the numbers."""

from dataclasses import replace
from fractions import Fraction

import pytest

from alterations.amounts import Amount
from alterations.caption import caption
from alterations.errors import KindError
from alterations.finding import Finding
from alterations.findings import findings
from alterations.gauge import Gauge
from alterations.kinds import (
    AnyAlteration,
    BodyLength,
    NeckWidth,
    OtherEdge,
    OtherHeight,
    PartLength,
    SleeveGirth,
    SleeveWidth,
    WorkedInHalves,
    YarnSwap,
)
from alterations.lines import Line, lines
from alterations.pattern import Machine, Pattern
from alterations.recalculate import Result, recalculate
from alterations.units import Length, parse_length
from alterations.worksheet import as_text, worksheet

COTTON_GAUGE = Gauge(Fraction(19), Fraction(26))
NO_BALL = YarnSwap("Kelvarrick Cotton", gauge=COTTON_GAUGE)


def made(pattern: Pattern, size: str, *given: AnyAlteration) -> Result:
    return recalculate(pattern, size, given)


def found(result: Result, code: str) -> list[Finding]:
    return [one for one in findings(result) if one.code == code]


def line(result: Result, what: str) -> Line:
    return next(one for one in lines(result) if one.what == what)


def amount_of(result: Result) -> Amount:
    return result.after.amount


def test_without_a_ball_band_only_the_metres_are_told(tunic: Pattern) -> None:
    result = made(tunic, "3", NO_BALL)
    assert not amount_of(result).is_ball_known
    assert "metres of Kelvarrick Cotton" in found(result, "ball")[0].sentence
    assert [number.made.split()[-1] for number in line(result, "Yarn").numbers] == ["m"]
    facts = dict(worksheet(result).facts)
    assert facts["Yarn"] == f"Kelvarrick Cotton, {amount_of(result).metres} m"


@pytest.mark.parametrize(
    "other",
    [
        OtherHeight(parse_length("10 cm")),
        PartLength("back.body", parse_length("3 cm")),
        OtherEdge("hem", "", Length(Fraction(9)), keeps_length=True),
    ],
)
def test_rows_that_something_else_moved_too_are_nobodys_in_a_caption(
    tunic: Pattern, other: AnyAlteration
) -> None:
    told = caption(made(tunic, "3", BodyLength(parse_length("1 cm")), other))
    assert "body 1 cm longer" in told and "rows" not in told


def test_rows_asked_for_that_cannot_be_worked_are_told_as_worked(tunic: Pattern) -> None:
    told = caption(made(tunic, "3", BodyLength(parse_length("5 rows"))))
    assert told == "Size 3 · body 5 rows longer (+6 rows)"


# 104 rows are 37.1 cm; at 2.6 rows to the cm these are 96, and with 5 cm more 110.
def test_a_line_says_what_is_the_gauges_and_what_the_changes(tunic: Pattern) -> None:
    result = made(tunic, "4", BodyLength(parse_length("5 cm")), NO_BALL)
    told = line(result, "Back and front: hem to armhole")
    assert told.note == "at this gauge the pattern has 96 rows here, so +14 rows"
    assert told.numbers[0].made == "110 rows" and "(+14 rows)" in caption(result)


def test_no_way_out_is_offered_that_the_pattern_refuses(tunic: Pattern) -> None:
    small = replace(tunic, machine=Machine(80))
    for one in found(made(small, "3"), "bed"):
        may_be = small.size("3").piece(one.where).may_be_halved
        assert any("halves" in way for way in one.ways_out) is may_be


def test_a_piece_in_halves_that_fits_whole_is_said_to(tunic: Pattern) -> None:
    told = found(made(tunic, "7", NO_BALL), "whole")
    assert [one.where for one in told] == ["back", "front"] and "142" in told[0].sentence
    assert not found(made(tunic, "7"), "whole")


def test_nobody_is_told_to_cast_on_the_whole_of_a_piece_in_halves(tunic: Pattern) -> None:
    result = made(tunic, "4", WorkedInHalves(), OtherEdge("hem", "K2P2"))
    told = line(result, "Back and front: hem")
    assert not any("cast on" in number.made for number in told.numbers)
    assert "cast on 62 and 62" in line(result, "Back and front: in two halves").note


def test_new_bind_offs_and_held_groups_are_told(tunic: Pattern) -> None:
    result = made(tunic, "3", NeckWidth(parse_length("3 cm")))
    neck, shoulder = line(result, "Front: neck"), line(result, "Front: shoulders")
    assert neck.note.startswith("bind off 38 in the centre, then 6-3-1")
    assert shoulder.note == "held 6-5-5"


def test_shaping_that_does_not_fit_is_offered_with_several_stitches_at_once(
    tunic: Pattern,
) -> None:
    result = made(tunic, "3", SleeveWidth(parse_length("10 cm")), SleeveGirth(Length(Fraction(60))))
    problem = found(result, "shaping")[0]
    assert "stitches at once" in problem.ways_out[0]
    steps = next(one for one in worksheet(result).pieces if one.key == "sleeve").instructions
    refused = next(one.text for one in steps if "do not fit into" in one.text)
    assert "Now" not in refused


def test_changes_that_add_up_to_no_garment_are_refused(tunic: Pattern) -> None:
    with pytest.raises(KindError, match=r"come to 600 cm; let them come to at most 300 cm"):
        made(tunic, "3", *[BodyLength(Length(Fraction(300)))] * 2)


def test_kept_counts_tell_the_room_over_the_body(tunic: Pattern) -> None:
    kept = replace(NO_BALL, keep="counts")
    told = found(made(tunic, "3", kept), "size")[0].sentence
    # V6b: 117.9 cm; the size is meant for 96 cm.
    assert "117.9 cm" in told and "21.9 cm wider than the body of 96 cm" in told


def test_the_teachers_note_and_the_way_to_rib_stand_on_the_worksheet(tunic: Pattern) -> None:
    notes = " ".join(worksheet(made(tunic, "3")).notes)
    assert tunic.note in notes and "latch tool" in notes
    assert "on a single bed" not in " ".join(worksheet(recalculate(tunic, "3", by_hand=True)).notes)


def test_the_teachers_words_stand_once_for_all_panels_of_a_piece(tunic: Pattern) -> None:
    sheet = worksheet(made(tunic, "3", WorkedInHalves()))
    assert as_text(sheet).count(tunic.size("3").piece("back").words) == 1


def test_a_hung_hem_is_named_so_and_begun_open(tunic: Pattern) -> None:
    result = made(tunic, "3", OtherEdge("hem", "hung hem", Length(Fraction(3))))
    assert "hung hem 3 cm deep" in caption(result)
    assert "open cast-on" in worksheet(result).pieces[0].instructions[1].text
