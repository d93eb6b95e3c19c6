"""What deserves a second look, and what does not."""

import re
from dataclasses import replace
from fractions import Fraction

import pytest

from alterations.findings import Finding, findings
from alterations.gauge import Gauge
from alterations.kinds import (
    AnyAlteration,
    ArmholeDepth,
    BodyLength,
    SleeveLength,
    WorkedInHalves,
    WorkedInPanels,
    YarnSwap,
)
from alterations.panels import panels_of
from alterations.pattern import Follow, Machine, Pattern
from alterations.recalculate import recalculate
from alterations.units import parse_length

COTTON = YarnSwap(
    "Kelvarrick Cotton", Fraction(50), Fraction(95), Gauge(Fraction(19), Fraction(26))
)


def found(pattern: Pattern, size: str, *given: AnyAlteration) -> dict[str, Finding]:
    return {one.code: one for one in findings(recalculate(pattern, size, given))}


def small_bed(pattern: Pattern) -> Pattern:
    return replace(pattern, machine=Machine(130))


def test_the_patterns_own_sizes_need_no_second_look(tunic: Pattern) -> None:
    assert [found(tunic, size.name) for size in tunic.sizes] == [{}] * 8


def test_a_piece_wider_than_the_bed_is_a_warning(tunic: Pattern) -> None:
    bed = found(small_bed(tunic), "5")["bed"]
    assert bed.severity == "warning" and "136 stitches do not fit on 130 needles" in bed.sentence


def test_halves_fit_the_small_bed_again(tunic: Pattern) -> None:
    assert "bed" not in found(small_bed(tunic), "5", WorkedInHalves())


def test_hand_needles_hold_any_width(tunic: Pattern) -> None:
    assert found(replace(tunic, machine=None), "8") == {}


# 16 pairs need 32 rows and 6 plain ones; 38.571 − 26 = 12.571 cm · 2.8 = 35.2, even 36.
def test_a_taper_too_short_for_its_increases_is_a_problem(tunic: Pattern) -> None:
    shaping = found(tunic, "3", SleeveLength(parse_length("-26 cm")))["shaping"]
    assert shaping.severity == "problem" and "16 shapings do not fit" in shaping.sentence


# 16 pairs in 16 double rows and 6 plain rows: 38 = 108 − 70.
def test_a_taper_with_just_enough_rows_is_none(tunic: Pattern) -> None:
    assert "shaping" not in found(tunic, "3", SleeveLength(parse_length("-70 rows")))


def test_kept_counts_at_another_gauge_change_the_size(tunic: Pattern) -> None:
    size = found(tunic, "3", replace(COTTON, keep="counts"))["size"]
    assert "117.9 cm instead of 106.7 cm (+11.2 cm)" in size.sentence


# 579 g of 500 g is 16 % more: no warning; 689 g of 500 g is 38 %.
def test_only_more_than_a_fifth_is_much_heavier(tunic: Pattern) -> None:
    heavy = found(tunic, "3", replace(COTTON, keep="counts"))["heavy"]
    assert "38 % heavier" in heavy.sentence and "heavy" not in found(tunic, "3", COTTON)


# 21 / 42: rows to stitches 2.0, outside 1.2 to 1.5 (common practice).
def test_a_swatch_far_from_the_usual_ratio_is_a_note(tunic: Pattern) -> None:
    swatch = replace(COTTON, gauge=Gauge(Fraction(21), Fraction(42)))
    assert found(tunic, "3", swatch)["swatch"].severity == "note"


# 10 g = 400 m is 25 tex: sqrt(25) / 1.917 = 2.6, below 8.
def test_a_thread_at_a_yarns_gauge_gives_a_net(tunic: Pattern) -> None:
    thread = YarnSwap("Kelvarrick Cotton", Fraction(10), Fraction(400))
    assert "net-like" in found(tunic, "3", thread)["tightness"].sentence


# 100 g = 60 m is 1667 tex: sqrt(1667) / 1.917 = 21.3, above 17.
def test_a_rope_at_a_yarns_gauge_is_too_firm(tunic: Pattern) -> None:
    rope = YarnSwap("Kelvarrick Cotton", Fraction(100), Fraction(60))
    assert "very firm" in found(tunic, "3", rope)["tightness"].sentence


def test_half_a_ball_band_is_no_ball(tunic: Pattern) -> None:
    result = recalculate(tunic, "3", [YarnSwap("Kelvarrick Cotton", ball_metres=Fraction(95))])
    assert result.after.amount.balls == 10 and findings(result)[0].code == "ball"


# A rule the numbers do not obey: EVEN((56 + 48) · 0.75 + 2) = 80, and there are 14.
def test_a_sleeve_top_that_no_longer_fits_is_a_warning(tunic: Pattern) -> None:
    rule = Follow("sleeve.straight.rows", "sleeve top", ("back.armhole.rows", "front.armhole.rows"))
    fit = found(replace(tunic, follows=(rule,)), "3")["fit"]
    assert fit.severity == "warning" and "no longer fit" in fit.sentence


def test_an_inch_typed_for_a_centimetre_is_asked_about(tunic: Pattern) -> None:
    great = found(tunic, "3", BodyLength(parse_length("15 in")))["great"]
    assert "Is the unit right?" in great.sentence


def test_grave_findings_stand_first(tunic: Pattern) -> None:
    short = SleeveLength(parse_length("-26 cm"))
    result = recalculate(small_bed(tunic), "5", [short])
    grave, *others = [one.severity for one in findings(result)]
    assert grave == "problem" and set(others) == {"warning"}


# Rows come in pairs: the tunic's 104 rows to the armhole and 5 more make 109, worked as 110.
def test_rows_asked_for_and_rows_worked_are_both_told(tunic: Pattern) -> None:
    told = found(tunic, "3", BodyLength(parse_length("5 rows")))["rounded"]
    assert "5 rows were asked for, 6 are worked" in told.sentence and told.severity == "note"
    assert "rounded" not in found(tunic, "3", BodyLength(parse_length("6 rows")))


def test_a_measure_that_falls_below_half_is_a_warning(tunic: Pattern) -> None:
    assert found(tunic, "3", ArmholeDepth(parse_length("-15 cm")))["great"].severity == "warning"


@pytest.mark.parametrize(("panels", "words"), [(2, "two halves"), (3, "three panels")])
def test_a_small_bed_is_offered_the_panels_that_would_be_made(
    tunic: Pattern, panels: int, words: str
) -> None:
    parted = WorkedInHalves() if panels == 2 else WorkedInPanels()
    made = recalculate(tunic, "5", [parted]).after.size.piece("front")
    widest = [one.widest for one in panels_of(made)]
    told = {
        int(n)
        for way in found(small_bed(tunic), "5")["bed"].ways_out
        if words in way
        for n in re.findall(r"\d+", way)
    }
    assert len(widest) == panels and told == set(widest)
