"""Recalculated garments: size 3 at 21 × 28 unless said. Expected numbers were worked out by a
separate script from the wanted centimetres; the steps by hand stand beside them."""

import itertools
from dataclasses import replace
from fractions import Fraction

import pytest

from alterations.amounts import net_metres
from alterations.errors import AlterationsError, KindError, PatternError
from alterations.gauge import Gauge
from alterations.kinds import (
    AnyAlteration,
    BodyLength,
    FreeNote,
    SleeveLength,
    SleeveWidth,
    WorkedInHalves,
    YarnSwap,
)
from alterations.measures import measure
from alterations.panels import panels_of
from alterations.pattern import Pattern, number_at
from alterations.recalculate import Result, recalculate
from alterations.rounding import round_half_up, to_step
from alterations.stitches import knitted, schedule_of, stitches_in
from alterations.units import parse_length

COTTON_GAUGE = Gauge(Fraction(19), Fraction(26))
COTTON = YarnSwap("Kelvarrick Cotton", Fraction(50), Fraction(95), COTTON_GAUGE)
LONGER = BodyLength(parse_length("5 cm"))
LONG_SLEEVES = SleeveLength(parse_length("4 cm"))
TAPERED = SleeveWidth(parse_length("20 cm"))


def made(result: Result, *addresses: str) -> list[int]:
    return [number_at(result.after.size, address) for address in addresses]


def amount(result: Result) -> tuple[int, int]:
    return result.after.amount.metres, result.after.amount.balls


def net(result: Result) -> Fraction:
    return to_step(net_metres(result.pattern, result.after.size), Fraction(1, 10))


def tenths(result: Result, key: str) -> list[Fraction]:
    cms = (measure(garment.measures, key) for garment in (result.before, result.after))
    return [to_step(cm, Fraction(1, 10)) for cm in cms]


def sleeve_schedule(result: Result) -> str:
    return str(schedule_of(result.after.size.piece("sleeve").section("taper")))


# 37.143 + 5 = 42.143 cm · 2.8 = 118 rows.
def test_a_longer_body_has_more_rows_in_back_and_front(tunic: Pattern) -> None:
    result = recalculate(tunic, "3", [LONGER])
    assert made(result, "back.body.rows", "front.body.rows") == [118, 118]


def test_a_longer_body_is_longer_to_the_shoulder(tunic: Pattern) -> None:
    result = recalculate(tunic, "3", [LONGER])
    assert tenths(result, "length") == [Fraction("63.1"), Fraction("68.1")]


# 14 rows · 114 stitches · 2 = 3192; 1.08 · 1169.2 = 1262.8 m, up to 1270; / 120 = 10.6.
def test_a_longer_body_takes_more_yarn(tunic: Pattern) -> None:
    result = recalculate(tunic, "3", [LONGER])
    more = knitted(result.after.size) - knitted(result.before.size)
    assert (dict(more), net(result)) == ({"plain": 3192}, Fraction("1169.2"))
    assert amount(result) == (1270, 11)


def test_a_longer_body_leaves_sleeves_and_band_as_they_were(tunic: Pattern) -> None:
    result = recalculate(tunic, "3", [LONGER])
    before, after = result.before.size, result.after.size
    assert [after.piece(key) for key in ("sleeve", "neckband")] == [
        before.piece(key) for key in ("sleeve", "neckband")
    ]


# 38.571 + 4 = 42.571 cm · 2.8 = 119.2, even 120; less 6 plain 114 = 57 double rows for 16 pairs.
def test_longer_sleeves_are_spread_anew(tunic: Pattern) -> None:
    result = recalculate(tunic, "3", [LONG_SLEEVES])
    assert made(result, "sleeve.taper.rows", "sleeve.taper.stitches") == [120, 86]
    assert sleeve_schedule(result) == (
        "every 6 rows 7 times, then every 8 rows 9 times, then 6 plain rows"
    )


# 876 more in each of two sleeves; 1.08 · 1141.6 = 1233.0 m.
def test_longer_sleeves_take_more_yarn(tunic: Pattern) -> None:
    result = recalculate(tunic, "3", [LONG_SLEEVES])
    more = knitted(result.after.size) - knitted(result.before.size)
    assert (dict(more), net(result)) == ({"plain": 2 * 876}, Fraction("1141.6"))
    assert amount(result) == (1240, 11)


# EVEN(20 · 2.1 + 2) = 44 ≡ 2 (mod 3); (86 − 44) / 2 = 21 pairs over 51 double rows.
def test_a_narrower_wrist_is_cast_on_and_spread_anew(tunic: Pattern) -> None:
    result = recalculate(tunic, "3", [TAPERED])
    piece = result.after.size.piece("sleeve")
    assert (piece.cast_on, piece.section("correction").end) == (44, 44)
    assert sleeve_schedule(result) == (
        "every 4 rows 12 times, then every 6 rows 9 times, then 6 plain rows"
    )


def test_a_narrower_sleeve_counts_its_stitches_anew(tunic: Pattern) -> None:
    piece = recalculate(tunic, "3", [TAPERED]).after.size.piece("sleeve")
    plain = [stitches_in(part) for part in piece.sections if part.fabric == "plain"]
    assert sum(plain) == 8464


# EVEN(53.333 · 1.9 + 2) = 104; rows EVEN(37.143 · 2.6) = 96; 52 = EVEN(20 · 2.6).
COTTON_COUNTS = {
    "back.correction.stitches": 104,
    "back.notch.stitches": 82,
    "back.shoulders.stitches": 48,
    "back.body.rows": 96,
    "back.armhole.rows": 52,
    "front.body.rows": 96,
    "sleeve.correction.stitches": 50,
    "sleeve.taper.stitches": 78,
    "sleeve.taper.rows": 100,
    "sleeve.straight.rows": 14,
}


@pytest.mark.parametrize("address", COTTON_COUNTS)
def test_another_gauge_keeps_the_measurements(tunic: Pattern, address: str) -> None:
    result = recalculate(tunic, "3", [COTTON])
    assert made(result, address) == [COTTON_COUNTS[address]]


# 104 ≡ 2 (mod 3); (104 − 82) / 2 = 11; (82 − 48) / 2 = 17.
def test_another_gauge_is_cast_on_and_shaped_anew(tunic: Pattern) -> None:
    result = recalculate(tunic, "3", [COTTON])
    back = result.after.size.piece("back")
    assert (back.cast_on, sum(back.section("shoulders").groups)) == (104, 17)
    assert sleeve_schedule(result) == (
        "every 6 rows 9 times, then every 8 rows 5 times, then 6 plain rows"
    )


# Half a neck of 24: 16, 5, 2 and 1. Edge: 16 / 1.9 = 8.421; slopes over 2 / 2.6 cm 2.742, 1.304 and
# 0.932; 6 rows straight 2.308: 15.707 cm · 1.9 = 29.8; 48 + 2 · 30 = 108, snapped 107.
def test_the_band_is_counted_along_the_neck_as_it_is_curved_anew(tunic: Pattern) -> None:
    size = recalculate(tunic, "3", [COTTON]).after.size
    neck = size.piece("front").section("neck")
    assert (neck.centre, neck.steps) == (32, (5, 2, 1))
    assert size.piece("neckband").cast_on == 107


# 1200 · sqrt(4.94 / 5.88) = 1099.9 m, up to 1100; / 95 = 11.6; 1100 · 50 / 95 = 578.9 g.
def test_another_yarn_is_compared_by_metres(tunic: Pattern) -> None:
    result = recalculate(tunic, "3", [COTTON])
    grams = round_half_up(result.after.amount.grams)
    assert (*amount(result), grams) == (1100, 12, 579)


# 2 · 112 / 1.9 = 117.9 cm instead of 2 · 112 / 2.1 = 106.7 cm.
def test_kept_counts_make_another_size(tunic: Pattern) -> None:
    result = recalculate(tunic, "3", [replace(COTTON, keep="counts")])
    assert result.after.size == result.before.size
    assert tenths(result, "chest") == [Fraction("106.7"), Fraction("117.9")]


# l ~ 1 / sqrt(S): 1200 · sqrt(5.88 / 4.94) = 1309.2 m.
def test_the_same_number_of_larger_stitches_takes_more_yarn(tunic: Pattern) -> None:
    result = recalculate(tunic, "3", [replace(COTTON, keep="counts")])
    assert amount(result) == (1310, 14)


# 136 / 2 + 1 = 69 from 68; 69 − 17 = 52 = 102 / 2 + 1; 54 / 2 + 1 = 28.
def test_halves_gain_their_seam_stitches_at_the_centre_only(tunic: Pattern) -> None:
    result = recalculate(tunic, "5", [WorkedInHalves()])
    one = panels_of(result.after.size.piece("back"))[0]
    counts = [one.section(key).end for key in ("correction", "notch", "shoulders")]
    assert [one.cast_on, *counts] == [68, 69, 52, 28]


def test_halves_take_a_little_more_yarn(tunic: Pattern) -> None:
    result = recalculate(tunic, "5", [WorkedInHalves()])
    assert dict(knitted(result.after.size)) == {"plain": 64128, "rib": 7972}
    assert (net(result), *amount(result)) == (Fraction("1366.6"), 1480, 13)


def test_the_order_of_alterations_plays_no_part(tunic: Pattern) -> None:
    given: list[AnyAlteration] = [LONGER, LONG_SLEEVES, TAPERED, COTTON]
    results = [recalculate(tunic, "3", order).after for order in itertools.permutations(given)]
    assert all(one == results[0] for one in results)


# 2.4 + 2.6 = 5 cm: 14 rows, though each by itself would round to 6 or 8.
def test_two_changes_of_one_length_are_added_before_rounding(tunic: Pattern) -> None:
    parts = [BodyLength(parse_length("2.4 cm")), BodyLength(parse_length("2.6 cm"))]
    assert recalculate(tunic, "3", parts).after == recalculate(tunic, "3", [LONGER]).after


def test_changes_that_cancel_out_leave_the_base(tunic: Pattern) -> None:
    result = recalculate(tunic, "3", [LONGER, BodyLength(parse_length("-5 cm"))])
    assert result.after == result.before


def test_a_note_changes_no_number(tunic: Pattern) -> None:
    result = recalculate(tunic, "3", [FreeNote("pocket on the left")])
    assert result.after == result.before


def test_rows_are_rows_at_the_gauge_worked_in(tunic: Pattern) -> None:
    result = recalculate(tunic, "3", [BodyLength(parse_length("12 rows")), COTTON])
    assert made(result, "back.body.rows") == [96 + 12]


def test_another_gauge_with_the_patterns_own_yarn_keeps_the_measurements(tunic: Pattern) -> None:
    result = recalculate(tunic, "3", gauge=COTTON_GAUGE)
    assert made(result, "back.correction.stitches", "back.body.rows") == [104, 96]


REFUSED: list[tuple[list[AnyAlteration], type[AlterationsError], str]] = [
    ([BodyLength(parse_length("-60 cm"))], KindError, "none of its 104 rows would be left"),
    ([COTTON, YarnSwap("Fennimoor Plain")], KindError, "Two main yarns"),
    ([TAPERED, SleeveWidth(parse_length("21 cm"))], KindError, "Two different widths"),
    ([WorkedInHalves(("sleeve",))], KindError, "cannot be worked in panels"),
    ([WorkedInHalves(("hood",))], PatternError, "no piece"),
    ([FreeNote("x")] * 61, KindError, "at most 60"),
]


@pytest.mark.parametrize(("given", "error", "words"), REFUSED)
def test_what_cannot_be_made_is_refused_in_a_sentence(
    tunic: Pattern, given: list[AnyAlteration], error: type[AlterationsError], words: str
) -> None:
    with pytest.raises(error, match=words):
        recalculate(tunic, "3", given)


def test_a_size_that_is_not_there_is_refused_with_those_that_are(tunic: Pattern) -> None:
    with pytest.raises(PatternError, match="choose one of 1, 2, 3"):
        recalculate(tunic, "XL")
