"""The worked examples: T numbers follow the formulas (yarn, gauge, edges, rows, shaping, outline),
V numbers are alterations of the Ostrimane Tunic. Beside each stands where its figure comes from.

"derived" means worked out by arithmetic from the formula named; the constants of Munden's relations
are from memory and unverified, so examples that use them prove the arithmetic, not the constants.
"""

from fractions import Fraction

import pytest

from alterations.amounts import net_metres
from alterations.gauge import Gauge, from_swatch, washed
from alterations.kinds import (
    AnyAlteration,
    BodyLength,
    OtherEdge,
    SleeveLength,
    SleeveWidth,
    WorkedInHalves,
    YarnSwap,
)
from alterations.measures import measure
from alterations.outline import area, bands, outline
from alterations.panels import panel_counts, panels_of
from alterations.pattern import EDGES, Pattern, Section
from alterations.recalculate import Result, recalculate
from alterations.rounding import (
    nearest_even,
    round_half_up,
    snap_down,
    square_root,
    to_step,
    up_to_ten,
)
from alterations.shaping import (
    carriage_rows,
    decreases_across,
    event_rows,
    held_groups,
    neck_curve,
    spread_any_row,
    spread_even_rows,
    stitches_at_once,
)
from alterations.stitches import knitted, schedule_of, stitches_in
from alterations.units import parse_length
from alterations.yarn import (
    MUNDEN_KS,
    calibration,
    fabric_mass,
    grams_of,
    loop_for_tightness,
    loop_length_cm,
    metres_of,
    swapped_metres,
    swatch_loop_cm,
    tightness,
)

W, C = Fraction("2.1"), Fraction("2.8")
TUNIC_GAUGE = Gauge(Fraction(21), Fraction(28))
COTTON = YarnSwap(
    "Kelvarrick Cotton", Fraction(50), Fraction(95), Gauge(Fraction(19), Fraction(26))
)


def gauge(stitches: int, rows: int) -> Gauge:
    return Gauge(Fraction(stitches), Fraction(rows))


def to(value: Fraction, step: str) -> Fraction:
    return to_step(value, Fraction(step))


# ---- 3: loop length, metres, mass. Munden 1959 for the relations (constants from memory); the mass
# formula agrees with Textile Technical Handbook (2023), p. 147.


def test_t3_1_a_panel_of_110_by_190() -> None:
    loop = loop_length_cm(gauge(22, 30))
    metres = metres_of(110 * 190, loop)
    assert to(loop, "0.001") == Fraction("1.809") and 110 * 190 == 20_900
    assert to(metres, "0.1") == Fraction("378.1")
    assert to(grams_of(metres, 400), "0.1") == Fraction("151.2")
    assert to(fabric_mass(gauge(22, 30), loop, 400), "0.1") == Fraction("477.6")
    assert to(tightness(400, loop), "0.01") == Fraction("11.06")


def test_t3_2_a_panel_of_152_by_260() -> None:
    loop = loop_length_cm(gauge(28, 40))
    metres = metres_of(152 * 260, loop)
    assert to(loop, "0.001") == Fraction("1.389") and 152 * 260 == 39_520
    assert to(metres, "0.1") == Fraction("548.8")
    assert to(grams_of(metres, 225), "0.1") == Fraction("123.5")
    assert to(tightness(225, loop), "0.01") == Fraction("10.80")


# GATE 2015, Textile Engineering & Fibre Science, Q 54: kw 4.2, kc 5.5, loop 0.5 cm: 92 loops/cm².
def test_t3_3_stitch_density_of_a_published_examination_question() -> None:
    density = Fraction("4.2") * Fraction("5.5") / Fraction("0.5") ** 2
    assert density == Fraction("92.4") and int(density) == 92
    assert MUNDEN_KS["full"] == Fraction("4.2") * Fraction("5.5")


def test_t3_4_the_loop_for_a_wanted_tightness() -> None:
    assert to(loop_for_tightness(Fraction("63.272"), 14), "0.001") == Fraction("0.568")


def test_t3_5_the_same_gauge_dry_and_fully_relaxed() -> None:
    found = [to(loop_length_cm(gauge(22, 30), state), "0.001") for state in ("dry", "full")]
    assert found == [Fraction("1.697"), Fraction("1.871")]


def test_t3_6_a_weighed_swatch() -> None:
    tex = Fraction(1250, 3)
    square_metre = Fraction("18.2") / (Fraction("18.2") * Fraction("20.4")) * 10_000
    weighed = swatch_loop_cm(Fraction("18.2"), tex, 40 * 60)
    # The formula before the gauge is rounded to one decimal; rounded, it gives 1.827.
    density = Fraction(40) / Fraction("18.2") * 60 / Fraction("20.4")
    formula = square_root(MUNDEN_KS["wet"] / density)
    assert to(square_metre, "0.1") == Fraction("490.2")
    assert to(weighed, "0.001") == Fraction("1.820") and to(formula, "0.001") == Fraction("1.828")


def test_t3_8_metres_scale_with_the_root_of_the_density() -> None:
    assert to(swapped_metres(1200, gauge(21, 28), gauge(19, 26)), "0.1") == Fraction("1099.9")


def test_t3_9_calibration_to_the_published_amount() -> None:
    factor = Fraction(1200) / Fraction("1108.1")
    more = metres_of(3192, Fraction("1.91663"))
    assert to(factor, "0.0001") == Fraction("1.0829") and to(more, "0.01") == Fraction("61.18")
    assert to(1200 + factor * more, "0.1") == Fraction("1266.3")
    assert up_to_ten(1200 + factor * more) == 1270
    # A published amount that is no rounding of the model keeps its own ratio.
    assert calibration(1300, Fraction("1108.1"), Fraction(8)) == Fraction(1300) / Fraction("1108.1")


# ---- 4: gauge. 4 in = 10.16 cm exactly; the rest derived.


def test_t4_1_gauge_from_a_swatch() -> None:
    assert from_swatch(40, Fraction("18.2")) == 22
    assert from_swatch(60, Fraction("20.4")) == Fraction("29.4")


def test_t4_2_four_inches_measured() -> None:
    four = Gauge(Fraction(22), Fraction(30), "4in")
    assert to(four.stitches_per_cm * 10, "0.001") == Fraction("21.654")


def test_t4_3_rows_before_and_after_washing() -> None:
    after = washed(28, -5)
    assert to(after, "0.001") == Fraction("29.474")
    assert nearest_even(60 * after / 10) == 176
    assert to(176 / C, "0.01") == Fraction("62.86")


def test_t4_4_a_width_at_another_gauge() -> None:
    width = Fraction(114 - 2) / W
    assert to(width, "0.001") == Fraction("53.333")
    assert nearest_even(width * Fraction("1.9") + 2) == 104


def test_t4_6_rows_at_another_gauge() -> None:
    assert nearest_even(104 / C * Fraction("2.6")) == 96


# ---- 5: edges. Check values of the trade (common practice, no source): 4 stitches to the inch.

CHESTS = {
    34: (70, 68, 36, 35),
    36: (74, 74, 38, 38),
    38: (78, 77, 40, 38),
    40: (82, 80, 42, 41),
    42: (86, 86, 44, 44),
    44: (90, 89, 46, 44),
    46: (94, 92, 48, 47),
    48: (98, 98, 50, 50),
    50: (102, 101, 52, 50),
    52: (106, 104, 54, 53),
    54: (110, 110, 56, 56),
}


@pytest.mark.parametrize("chest", CHESTS)
def test_t5_1_every_even_chest(chest: int) -> None:
    target, cast_on, half, half_cast_on = CHESTS[chest]
    assert 4 * chest // 2 + 2 == target
    assert snap_down(target, 3, 2) == cast_on
    assert target - cast_on == (chest // 2) % 3  # the closed form
    assert panel_counts(target, 2) == (half, half)
    assert snap_down(half, 3, 2) == half_cast_on


def test_t5_8_k2p2() -> None:
    edge = EDGES["K2P2"]
    assert [snap_down(target, edge.multiple, edge.remainder) for target in (111, 110)] == [110, 110]


# ---- 6: rows and what follows. Derived; the sleeve and notch rules are common practice.


def test_t6_2_rows_are_even() -> None:
    assert nearest_even(37 * C) == 104


def test_t6_3_a_tie_goes_up() -> None:
    assert Fraction("22.5") * C == 63 and nearest_even(63) == 64


def test_t6_4_five_centimetres_more(tunic: Pattern) -> None:
    size = recalculate(tunic, "3", [BodyLength(parse_length("5 cm"))]).after.size
    assert [size.piece(key).section("body").rows for key in ("back", "front")] == [118, 118]


def test_t6_5_the_sleeve_top_lies_along_both_armholes() -> None:
    top = nearest_even(2 * 56 * W / C + 2)
    assert top == 86 and (top - 2) / W == 2 * (56 / C)


def test_t6_6_straight_rows_along_a_notch() -> None:
    visible = (12 - 1) / W
    assert to(visible, "0.01") == Fraction("5.24") and nearest_even(visible * C) == 14


def test_t6_8_a_band_along_a_row_edge() -> None:
    assert snap_down(round_half_up(160 * W / C), 3, 2) == 119


# ---- 7: shaping. The trade's method is common practice; the even spacing is Bresenham's line
# (1965, from memory), described for rhythms by Toussaint, Bridges 2005.


def runs(rows: int, events: int, plain: int = 0, *, even: bool) -> list[tuple[int, int]]:
    schedule = (spread_even_rows if even else spread_any_row)(rows, events, plain)
    return [(run.every, run.times) for run in schedule.runs]


def test_t7_1_nine_over_fifty_rows() -> None:
    assert runs(50, 9, even=False) == [(5, 4), (6, 5)]
    assert event_rows(50, 9) == (5, 11, 16, 22, 27, 33, 38, 44, 50)


def test_t7_2_nine_over_fifty_rows_on_even_rows() -> None:
    assert runs(50, 9, even=True) == [(4, 2), (6, 7)]


def test_t7_3_fourteen_over_a_hundred_on_even_rows() -> None:
    assert runs(100, 14, even=True) == [(6, 6), (8, 8)]


def test_t7_5_seven_over_forty() -> None:
    assert runs(40, 7, even=False) == [(5, 2), (6, 5)]
    assert event_rows(40, 7) == (5, 11, 17, 22, 28, 34, 40)


def test_t7_6_nothing_to_shape() -> None:
    schedule = spread_any_row(30, 0)
    assert (schedule.events, schedule.plain_end) == (0, 30)


def test_t7_7_more_events_than_rows() -> None:
    assert stitches_at_once(50, 60) == ((40, 1), (10, 2))


def test_t7_8_a_sleeve_from_54_to_86() -> None:
    taper = Section("t", "Taper", "p", 54, 86, 108, "spread", plain_end=6)
    assert runs(108, 16, 6, even=True) == [(6, 13), (8, 3)]
    assert (schedule_of(taper).plain_end, stitches_in(taper)) == (6, 7632)


def test_t7_9_a_bell_from_94_to_70() -> None:
    bell = Section("b", "Bell", "p", 94, 70, 56, "spread")
    assert str(schedule_of(bell)) == "every 4 rows 8 times, then every 6 rows 4 times"


def test_t7_11_eight_decreases_across_110() -> None:
    gaps = decreases_across(110, 8)
    assert gaps == (10, 10, 11, 10, 11, 10, 11, 10, 11) and sum(gaps) + 8 == 102


def test_t7_12_a_shoulder_of_31() -> None:
    assert held_groups(31, 5) == (7, 6, 6, 6, 6)


def test_t7_13_a_shoulder_of_24() -> None:
    assert held_groups(24, 4) == (6, 6, 6, 6)


def test_t7_15_a_neck_of_26_in_four_double_rows() -> None:
    first, *steps = neck_curve(26, 4)
    assert (2 * first, steps) == (34, [6, 2, 1])


def test_t7_16_each_side_at_its_carriage() -> None:
    assert carriage_rows(24, 4) == ((5, 11, 17, 23), (6, 12, 18, 24))


# ---- 10: outline. The areas by hand, the shoelace formula as the independent check.


def piece_area(pattern: Pattern, key: str) -> Fraction:
    piece = pattern.size("3").piece(key)
    found = bands(pattern, piece, pattern.gauge)
    assert area(outline(found)) == sum((band.area for band in found), Fraction(0))
    return area(outline(found))


def test_t10_1_the_back_of_size_3(tunic: Pattern) -> None:
    points = outline(bands(tunic, tunic.size("3").piece("back"), tunic.gauge))
    right = {(to(x, "0.001"), to(y, "0.001")) for x, y in points if x > 0}
    wanted = [
        ("26.667", "0"),
        ("26.667", "43.143"),
        ("20.952", "43.143"),
        ("20.952", "63.143"),
        ("12.381", "65.286"),
    ]
    assert {(Fraction(x), Fraction(y)) for x, y in wanted} <= right
    assert to(piece_area(tunic, "back"), "0.001") == Fraction("3210.476")


def test_t10_2_the_sleeve_of_size_3(tunic: Pattern) -> None:
    assert to(piece_area(tunic, "sleeve"), "0.001") == Fraction("1597.551")


def test_t10_3_the_whole_garment_by_area(tunic: Pattern) -> None:
    total = 2 * piece_area(tunic, "back") + 2 * piece_area(tunic, "sleeve")
    mass = fabric_mass(TUNIC_GAUGE, loop_length_cm(TUNIC_GAUGE), tunic.yarn.tex)
    grams = total * mass / 10_000
    assert to(total, "0.01") == Fraction("9616.05") and to(grams, "0.1") == Fraction("451.5")
    by_area = grams * 1000 / tunic.yarn.tex
    assert to(by_area, "0.1") == Fraction("1083.7")
    assert abs(net_metres(tunic, tunic.size("3")) / by_area - 1) < Fraction(5, 100)


# ---- V: alterations of the tunic. Derived from the formulas above by the pattern's designer.


def made(pattern: Pattern, size: str, *given: AnyAlteration) -> Result:
    return recalculate(pattern, size, given)


def net(result: Result) -> Fraction:
    return to(net_metres(result.pattern, result.after.size), "0.1")


def rows_of(result: Result, *addresses: str) -> list[int]:
    pairs = (address.split(".") for address in addresses)
    return [result.after.size.piece(key).section(name).rows for key, name in pairs]


def test_v1_body_5_cm_longer(tunic: Pattern) -> None:
    result = made(tunic, "3", BodyLength(parse_length("5 cm")))
    assert rows_of(result, "back.body", "front.body") == [118, 118]
    length = measure(result.after.measures, "length")
    assert to(length, "0.1") == Fraction("68.1")
    more = knitted(result.after.size)["plain"] - knitted(result.before.size)["plain"]
    assert (more, net(result)) == (3192, Fraction("1169.2"))
    assert (result.after.amount.metres, result.after.amount.balls) == (1270, 11)


def test_v2_sleeves_4_cm_longer(tunic: Pattern) -> None:
    result = made(tunic, "3", SleeveLength(parse_length("4 cm")))
    taper = result.after.size.piece("sleeve").section("taper")
    assert taper.rows == 120
    assert str(schedule_of(taper)) == (
        "every 6 rows 7 times, then every 8 rows 9 times, then 6 plain rows"
    )
    before = result.before.size.piece("sleeve").section("taper")
    assert stitches_in(taper) - stitches_in(before) == 876
    assert (net(result), result.after.amount.metres) == (Fraction("1141.6"), 1240)
    assert result.after.amount.balls == 11


def test_v4_wrist_20_cm(tunic: Pattern) -> None:
    sleeve = made(tunic, "3", SleeveWidth(parse_length("20 cm"))).after.size.piece("sleeve")
    taper = sleeve.section("taper")
    assert (sleeve.cast_on, sleeve.section("correction").end) == (44, 44)
    assert str(schedule_of(taper)) == (
        "every 4 rows 12 times, then every 6 rows 9 times, then 6 plain rows"
    )
    plain = sum(stitches_in(one) for one in sleeve.sections if one.fabric == "plain")
    assert plain == 8464


def test_v6_another_yarn_keeps_the_measurements(tunic: Pattern) -> None:
    result = made(tunic, "3", COTTON)
    back, sleeve = (result.after.size.piece(key) for key in ("back", "sleeve"))
    counts = [back.section(key).end for key in ("correction", "notch", "shoulders")]
    assert (back.cast_on, counts) == (104, [104, 82, 48])
    assert back.section("shoulders").groups == (6, 6, 5)  # 17
    assert rows_of(result, "back.body", "back.armhole", "sleeve.straight") == [96, 52, 14]
    taper = sleeve.section("taper")
    assert (taper.start, taper.end, taper.rows) == (50, 78, 100)
    assert str(schedule_of(taper)) == (
        "every 6 rows 9 times, then every 8 rows 5 times, then 6 plain rows"
    )
    amount = result.after.amount
    assert (amount.metres, amount.balls, round_half_up(amount.grams)) == (1100, 12, 579)


def test_v6b_another_yarn_keeps_the_counts(tunic: Pattern) -> None:
    swap = YarnSwap(COTTON.name, COTTON.ball_grams, COTTON.ball_metres, COTTON.gauge, "counts")
    chest = measure(made(tunic, "3", swap).after.measures, "chest")
    assert to(chest, "0.1") == Fraction("117.9")


def test_v7_size_5_in_halves(tunic: Pattern) -> None:
    result = made(tunic, "5", WorkedInHalves())
    half = panels_of(result.after.size.piece("back"))[0]
    assert (half.cast_on, half.section("correction").end) == (68, 69)
    assert (half.section("notch").end, half.section("shoulders").end) == (52, 28)
    assert knitted(result.before.size)["plain"] == 63_510
    assert dict(knitted(result.after.size)) == {"plain": 64_128, "rib": 7_972}
    assert net(result) == Fraction("1366.6")
    assert (result.after.amount.metres, result.after.amount.balls) == (1480, 13)


def test_v10_a_hem_10_cm_deep(tunic: Pattern) -> None:
    deeper = OtherEdge("hem", depth=parse_length("10 cm"))
    assert rows_of(made(tunic, "3", deeper), "back.hem", "back.body") == [30, 104]
    kept = OtherEdge("hem", depth=parse_length("10 cm"), keeps_length=True)
    assert rows_of(made(tunic, "3", kept), "back.hem", "back.body") == [30, 92]
