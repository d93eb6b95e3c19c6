"""The waistcoat: by hand, shaped to the waist, fronts made twice, bands in two parts.

24 stitches x 32 rows = 10 cm (w 2.4, c 3.2, w/c 0.75); how each number was found stands in the
pattern file. Size XS or M, expected values worked by hand.
"""

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from alterations.amounts import net_metres
from alterations.changes import changes
from alterations.errors import KindError
from alterations.findings import findings
from alterations.follows import picked_up
from alterations.gauge import Gauge
from alterations.kinds import (
    AnyAlteration,
    ArmholeDepth,
    BodyLength,
    BodyWidth,
    NeckDepth,
    NeckWidth,
    OtherEdge,
    OtherHeight,
    OwnFigure,
    PartLength,
    Strand,
    StrandsTogether,
    WorkedInHalves,
    WorkedInPanels,
    YarnSwap,
)
from alterations.measures import measure
from alterations.panels import panels_of
from alterations.pattern import EDGES, Follow, Pattern, Section, Size
from alterations.patterncheck import problems_of
from alterations.patternfile import load_pattern, read_pattern
from alterations.patterntext import write_pattern
from alterations.recalculate import Result, recalculate
from alterations.rounding import nearest_even, round_half_up, snap_down, up_to_ten
from alterations.shaping import neck_curve
from alterations.stitches import knitted, schedule_of
from alterations.units import parse_length

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


# ---- the pattern's own numbers ----


def test_it_contradicts_itself_nowhere(waistcoat: Pattern) -> None:
    assert problems_of(waistcoat) == []
    assert [findings(made(waistcoat, size=name)) for name in waistcoat.size_names] == [()] * 6


def test_its_text_reads_back_to_the_same_pattern(waistcoat: Pattern) -> None:
    assert load_pattern(write_pattern(waistcoat)) == waistcoat


def test_back_and_fronts_are_as_wide_as_the_body_and_its_ease(waistcoat: Pattern) -> None:
    for size in waistcoat.sizes:
        assert size.to_fit_cm is not None
        half = (size.to_fit_cm + 8) / 2
        assert isinstance(half, Fraction)
        front = (half - Fraction("2.5")) / 2
        assert ends(size, "back.correction") == nearest_even(half * WIDTH + 2)
        assert ends(size, "back.hip") == nearest_even((half - 4) * WIDTH + 2)
        assert ends(size, "front.correction") == round_half_up(front * WIDTH + 1)
        assert ends(size, "front.hip") == round_half_up((front - 2) * WIDTH + 1)


def test_back_and_fronts_are_cast_on_to_k2p2(waistcoat: Pattern) -> None:
    for size in waistcoat.sizes:
        for key in ("back", "front"):
            target = ends(size, f"{key}.correction")
            assert size.piece(key).cast_on == snap_down(target, 4, 2)


def test_necks_are_curved_by_the_rule(waistcoat: Pattern) -> None:
    for size in waistcoat.sizes:
        neck = size.piece("back").section("neck")
        first, second = neck_curve((neck.start - neck.end) // 2, 2)
        assert (neck.centre, neck.steps) == (2 * first, (second,))


def test_front_and_back_are_equally_long_stretch_by_stretch(waistcoat: Pattern) -> None:
    for size in waistcoat.sizes:
        assert size.piece("front").rows == size.piece("back").rows


# Size XS by hand. Back: hip 3946, waist 980, bust 4938, bind-off 7, armhole slope 1068, armhole
# 3936, neck 180, shoulders 84; a front: 1859, 460, 2325, 0, 498, 304, V 1167, top 84, shoulder 42.
# Rib: 19 · 106 + 2 · 19 · 50 + 2 · 6 · 110 + 2 · 8 · 158.
def test_every_stitch_of_every_row_is_counted(waistcoat: Pattern) -> None:
    assert knitted(waistcoat.size("XS")) == {"plain": 15139 + 2 * 6739, "rib": 7762}


# √(21.6 / 7.68) = 1.67705 cm; (28 617 + 0.9 · 7762) · 1.67705 / 100 = 597.08 m; · 1.08 = 644.8.
def test_the_published_metres_are_the_model_and_its_allowance(waistcoat: Pattern) -> None:
    assert abs(net_metres(waistcoat, waistcoat.size("XS")) - Fraction("597.08")) < Fraction(1, 100)
    found = [up_to_ten(Fraction("1.08") * net_metres(waistcoat, one)) for one in waistcoat.sizes]
    assert found == [size.metres for size in waistcoat.sizes] == [650, 710, 790, 870, 970, 1080]


# ---- lengths ----


# 5 cm · 3.2 = 16 rows, 50 → 66; 16 · 0.75 = 12 stitches more along each front, 168 + 12 → 178.
def test_a_longer_body_is_followed_by_fronts_and_front_bands(waistcoat: Pattern) -> None:
    result = made(waistcoat, BodyLength(parse_length("5 cm")))
    assert [at(result, f"{piece}.bust").rows for piece in ("back", "front")] == [66, 66]
    assert at(result, "front_band.band").start == 178
    assert at(result, "armhole_band.band").start == 126


# By hand any row may be the last: 3 rows stay 3 rows.
def test_rows_may_be_odd(waistcoat: Pattern) -> None:
    result = made(waistcoat, BodyLength(parse_length("3 rows")))
    assert at(result, "front.bust").rows == 53
    assert str(schedule_of(at(result, "back.bust"))) == (
        "every 9 rows 3 times, then every 10 rows 2 times, then 6 plain rows"
    )


# 46.875 cm · … : 47 + 2 · 3.2 = 53.4, 53 rows; 8 + 6 below the V; band 2 · 6 · 0.75 = 9: 126 → 134.
def test_a_deeper_armhole_moves_the_v_and_widens_the_band(waistcoat: Pattern) -> None:
    result = made(waistcoat, ArmholeDepth(parse_length("2 cm")))
    assert (at(result, "back.armhole").rows, at(result, "front.armhole").rows) == (53, 14)
    assert at(result, "front.vneck").rows == 39
    assert at(result, "armhole_band.band").start == 134


# 39 + 6.4 = 45.4, 45 rows; 47 − 45 = 2 below it; the front as long as before, and its band.
def test_a_deeper_v_begins_earlier(waistcoat: Pattern) -> None:
    result = made(waistcoat, NeckDepth(parse_length("2 cm")))
    assert (at(result, "front.vneck").rows, at(result, "front.armhole").rows) == (45, 2)
    assert at(result, "front_band.band") == at(made(waistcoat), "front_band.band")


def test_a_v_that_would_begin_below_the_armhole_is_refused(waistcoat: Pattern) -> None:
    with pytest.raises(KindError, match="none of its 8 rows would be left"):
        made(waistcoat, NeckDepth(parse_length("4 cm")))


# 0.288 · 10 = 2.88 cm, 9.2 rows; without sleeves nothing else.
def test_a_taller_wearer_gets_a_longer_body_only(waistcoat: Pattern) -> None:
    result = made(waistcoat, OtherHeight(parse_length("10 cm")))
    assert {one.part for one in changes(result) if one.reason == "entered"} == {"back.bust"}
    assert at(result, "back.bust").rows == 59


@pytest.mark.parametrize("where", ["back", "front", "back.bust", "front.bust", "body length"])
def test_any_name_of_the_body_lengthens_back_and_fronts(waistcoat: Pattern, where: str) -> None:
    result = made(waistcoat, PartLength(where, parse_length("5 cm")))
    assert [at(result, f"{piece}.bust").rows for piece in ("back", "front")] == [66, 66]


# ---- widths ----


# Visible back 52.5 and fronts 25 cm of 102.5: 6 cm are shared as 3.073 and 1.463 cm.
# Back (52.5 + 3.073) · 2.4 + 2 = 135.4, even 136; front (25 + 1.463) · 2.4 + 1 = 64.5, up to 65.
def test_a_wider_body_is_shared_by_back_and_both_fronts(waistcoat: Pattern) -> None:
    result = made(waistcoat, BodyWidth(parse_length("6 cm")))
    assert [at(result, f"{piece}.bust").end for piece in ("back", "front")] == [136, 65]
    assert [at(result, f"{piece}.hip").end for piece in ("back", "front")] == [126, 60]
    assert [at(result, f"{piece}.hem").start for piece in ("back", "front")] == [134, 62]
    assert [at(result, f"{piece}.underarm").end for piece in ("back", "front")] == [106, 50]


def test_a_body_wider_in_the_shoulders_is_so_on_fronts_and_back(waistcoat: Pattern) -> None:
    result = made(waistcoat, BodyWidth(parse_length("6 cm"), "shoulders"))
    groups = [at(result, f"{piece}.shoulders").groups for piece in ("back", "front")]
    assert groups == [(9, 9, 9), (9, 9, 9)]  # (96 − 42) / 2 = 27 on both


# (42 / 2.4 + 2) · 2.4 = 46.8, even 46: shoulders (88 − 46) / 2 = 21; curve 20 and 3 of 23.
def test_a_wider_neck_takes_from_all_shoulders(waistcoat: Pattern) -> None:
    result = made(waistcoat, NeckWidth(parse_length("2 cm")))
    assert (at(result, "back.neck").centre, at(result, "back.neck").steps) == (40, (3,))
    assert at(result, "front.vneck").end == 21
    assert at(result, "back.shoulders").groups == at(result, "front.shoulders").groups == (7, 7, 7)


# ---- edges and bands ----


# T5.8's rule: 128 ≡ 2 and 61 ≡ 1 (mod 3): 128 and 59.
def test_another_hem_is_cast_on_to_its_repeat_on_back_and_fronts(waistcoat: Pattern) -> None:
    result = made(waistcoat, OtherEdge("hem", "K2P1"))
    assert [at(result, f"{piece}.hem").start for piece in ("back", "front")] == [128, 59]
    assert [at(result, f"{piece}.correction").end for piece in ("back", "front")] == [128, 61]


# 19 rows are 5.94 cm; 10 cm are 32 rows; kept: 50 rows less 13 (15.625 + 5.9375 − 10 = 11.5625 cm).
def test_a_deeper_hem_may_keep_the_length_of_all_three_pieces(waistcoat: Pattern) -> None:
    deeper = OtherEdge("hem", depth=parse_length("10 cm"), keeps_length=True)
    result = made(waistcoat, deeper)
    assert [at(result, f"{piece}.hem").rows for piece in ("back", "front")] == [32, 32]
    assert [at(result, f"{piece}.bust").rows for piece in ("back", "front")] == [37, 37]


# 196 rows · 0.75 + 21 = 168; K2P1 ≡ 2 (mod 3): 167.
def test_a_band_in_another_rib_is_picked_up_to_its_own_repeat(waistcoat: Pattern) -> None:
    result = made(waistcoat, OtherEdge("front band", "K2P1", parse_length("4 cm")))
    band = at(result, "front_band.band")
    assert (band.start, band.rows) == (167, 13)


# Folded, 20 rows lie in 10: (206 − 10) · 0.75 + 21 = 168, down to 166 as before.
def test_a_band_is_picked_up_along_the_rows_of_a_fold_that_show(waistcoat: Pattern) -> None:
    folded = OtherEdge("hem", "hung hem", parse_length("3 cm"), keeps_length=True)
    assert at(made(waistcoat, folded), "front_band.band").start == 166


# T6.8 (common practice): 160 rows · 0.75 = 120, K2P1 with one seam stitch 119.
def test_t6_8_a_band_along_160_rows_of_a_front(waistcoat: Pattern) -> None:
    size = waistcoat.size("M")
    front, band = size.piece("front"), replace(size.piece("front_band"), edge=EDGES["K2P1"])
    longer = front.with_section("bust", front.section("bust").but(rows=160))
    follow = Follow("front_band.band.stitches", "picked up", ("front.bust.rows",))
    pieces = tuple({"front": longer, "front_band": band}.get(p.key, p) for p in size.pieces)
    assert picked_up(follow, replace(size, pieces=pieces), waistcoat.gauge, waistcoat) == 119


# ---- panels, beds, yarn ----


# 128 / 2 + 1 = 65, cast on SNAP(65, 4, 2) = 62; a bind-off of 11 at the outer edge only.
def test_the_backs_halves_keep_their_outer_shaping(waistcoat: Pattern) -> None:
    half, other = panels_of(made(waistcoat, WorkedInHalves()).after.size.piece("back"))
    assert half.section("correction").end == other.section("correction").end == 65
    assert (half.cast_on, half.section("underarm").end) == (62, 54)
    assert half.section("neck").start - half.section("neck").end == 42 // 2 + 1
    assert half.section("shoulders").groups == (8, 8, 7)


def test_three_panels_lose_two_stitches_a_seam(waistcoat: Pattern) -> None:
    panels = panels_of(made(waistcoat, WorkedInPanels()).after.size.piece("back"))
    assert sum(one.section("correction").end for one in panels) - 4 == 128


def test_a_piece_shaped_at_one_edge_is_not_halved(waistcoat: Pattern) -> None:
    with pytest.raises(KindError, match="The front cannot be worked in panels"):
        made(waistcoat, WorkedInHalves(("front",)))


def test_hand_needles_hold_every_width_and_a_bed_does_not(waistcoat: Pattern) -> None:
    by_hand = recalculate(waistcoat, "2XL")
    on_a_bed = recalculate(waistcoat, "2XL", needles=150)
    assert "bed" not in {one.code for one in findings(by_hand)}
    found = [one.where for one in findings(on_a_bed) if one.code == "bed"]
    assert found == ["back", "front_band"]


# 790 · √(5.4 / 7.68) = 662.4, up to 670 m; 670 / 95 = 7.05, 8 balls.
def test_another_yarn_keeps_the_measurements(waistcoat: Pattern) -> None:
    result = made(waistcoat, COTTON)
    assert (result.after.amount.metres, result.after.amount.balls) == (670, 8)
    # 52.5 · 2 + 2 = 107, even 108 (tie up); 25 · 2 + 1 = 51; 15.625 · 2.7 = 42.2.
    assert [at(result, f"{piece}.bust").end for piece in ("back", "front")] == [108, 51]
    assert at(result, "back.bust").rows == 42


def test_another_yarn_may_keep_the_counts(waistcoat: Pattern) -> None:
    result = made(waistcoat, replace(COTTON, keep="counts"))
    assert result.after.size == result.before.size
    assert measure(result.after.measures, "chest") == Fraction(126 + 60 + 60, 2)
    assert "size" in {one.code for one in findings(result)}


# At half the stitches and half the rows in 10 cm the same centimetres take half the metres.
@pytest.mark.parametrize("gauge", [(12, 16), (48, 64)])
def test_a_deeper_hem_takes_the_same_share_of_yarn_at_every_gauge(
    waistcoat: Pattern, gauge: tuple[int, int]
) -> None:
    deeper = OtherEdge("hem", depth=parse_length("10 cm"))
    other = YarnSwap("Kelvarrick Cotton", gauge=Gauge(Fraction(gauge[0]), Fraction(gauge[1])))
    own = made(waistcoat, deeper).after.amount.metres
    there = made(waistcoat, deeper, other).after.amount.metres
    # Both are rounded up to ten, and the hem to whole rows.
    assert abs(there - own * Fraction(gauge[0], 24)) <= 20


def test_her_count_of_a_half_is_compared_with_the_half(waistcoat: Pattern) -> None:
    result = made(waistcoat, WorkedInHalves(), OwnFigure("back.correction", stitches=65))
    assert "own stitches" not in {one.code for one in findings(result)}
