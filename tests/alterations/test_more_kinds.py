"""Every kind of alteration on the tunic's size 3, in numbers worked by hand.

21 stitches x 28 rows = 10 cm; widths n = EVEN(cm · 2.1 + 2), lengths EVEN(cm · 2.8).
"""

from fractions import Fraction

import pytest

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
    NeckDepth,
    NeckWidth,
    OtherEdge,
    OtherHeight,
    OwnFigure,
    PartLength,
    SleeveGirth,
    SleeveWidth,
    Strand,
    StrandsTogether,
    Swatch,
    WorkedInHalves,
    WorkedInPanels,
    YarnSwap,
    from_plain,
    to_plain,
)
from alterations.measures import measure
from alterations.pattern import Pattern, Section
from alterations.recalculate import Result, recalculate
from alterations.stitches import schedule_of
from alterations.units import parse_length

FENNIMOOR = Strand("Fennimoor Plain", Fraction(50), Fraction(120), 2)


def made(pattern: Pattern, *given: AnyAlteration, size: str = "3") -> Result:
    return recalculate(pattern, size, given)


def at(result: Result, address: str) -> Section:
    piece, section = address.split(".")
    return result.after.size.piece(piece).section(section)


def codes(result: Result) -> set[str]:
    return {one.code for one in findings(result)}


# 6 cm all round: 3 cm more on the back, (53.333 + 3) · 2.1 + 2 = 120.3, even 120; notch 12 → 15.
def test_a_wider_body_ends_at_the_underarm(tunic: Pattern) -> None:
    result = made(tunic, BodyWidth(parse_length("6 cm")))
    ends = [at(result, f"back.{key}").end for key in ("correction", "notch", "armhole")]
    assert ends == [120, 90, 90]
    assert at(result, "back.hem").start == 119  # SNAP(120, 3, 2)


def test_the_front_grows_with_the_back(tunic: Pattern) -> None:
    result = made(tunic, BodyWidth(parse_length("6 cm")))
    assert [at(result, f"front.{key}").end for key in ("correction", "notch")] == [120, 90]


# Notch 15: 14 / 2.1 · 2.8 = 18.67, even 18 (not 14).
def test_the_sleeve_follows_a_wider_notch(tunic: Pattern) -> None:
    assert at(made(tunic, BodyWidth(parse_length("6 cm"))), "sleeve.straight").rows == 18


# Into the shoulders: notch still 12, above it 96; (96 − 52) / 2 = 22 in groups 8-7-7.
def test_a_wider_body_may_go_into_the_shoulders(tunic: Pattern) -> None:
    result = made(tunic, BodyWidth(parse_length("6 cm"), "shoulders"))
    assert at(result, "back.armhole").end == 96
    assert at(result, "back.shoulders").groups == (8, 7, 7)


def test_a_body_narrower_than_what_the_notch_holds_is_refused(tunic: Pattern) -> None:
    with pytest.raises(KindError, match="cannot become 90"):
        made(tunic, BodyWidth(parse_length("-40 cm")))


# (20 + 2) · 2.8 = 61.6, even 62; the sleeve top follows: EVEN(124 · 0.75 + 2) = 96.
def test_a_deeper_armhole_is_followed_by_the_sleeve(tunic: Pattern) -> None:
    result = made(tunic, ArmholeDepth(parse_length("2 cm")))
    assert at(result, "back.armhole").rows == 62
    assert at(result, "front.armhole").rows + at(result, "front.neck").rows == 62
    assert at(result, "sleeve.taper").end == 96


# 4 cm: (24.762 + 4) · 2.1 + 2 = 62.4, even 62 at the wrist; 2 cm deeper armhole, top 96.
def test_a_wider_sleeve_is_met_by_a_deeper_armhole(tunic: Pattern) -> None:
    result = made(tunic, SleeveGirth(parse_length("4 cm")))
    assert (at(result, "sleeve.correction").end, at(result, "sleeve.taper").end) == (62, 96)
    assert at(result, "back.armhole").rows == 62


# Gathered: (40 + 4) · 2.1 + 2 = 94.4, even 94, the armhole as before.
def test_a_wider_sleeve_may_be_gathered_in(tunic: Pattern) -> None:
    result = made(tunic, SleeveGirth(parse_length("4 cm"), "gathers"))
    assert (at(result, "sleeve.taper").end, at(result, "back.armhole").rows) == (94, 56)
    assert "gathers" in codes(result) and "fit" not in codes(result)


# Bell 44 cm: 44 · 2.1 + 2 = 94.4, even 94; over 20 cm 56 rows; 94 → 54 in 20 pairs over 28 double
# rows: 12 every 2, 8 every 4 rows.
def test_a_bell_narrows_to_the_wrist_over_its_length(tunic: Pattern) -> None:
    result = made(tunic, BellSleeve(parse_length("44 cm"), parse_length("20 cm")))
    bell = at(result, "sleeve.bell")
    assert (bell.start, bell.end, bell.rows) == (94, 54, 56)
    assert str(schedule_of(bell)) == "every 2 rows 12 times, then every 4 rows 8 times"


def test_a_bell_leaves_the_sleeve_as_long_as_it_was(tunic: Pattern) -> None:
    result = made(tunic, BellSleeve(parse_length("44 cm"), parse_length("20 cm")))
    before = measure(result.before.measures, "sleeve_length")
    assert measure(result.after.measures, "sleeve_length") == before
    assert at(result, "sleeve.cuff").start == 92  # SNAP(94, 3, 2)


@pytest.mark.parametrize(
    ("edge", "over", "words"),
    [("20 cm", "20 cm", "no wider"), ("44 cm", "60 cm", "does not fit into the 108 rows")],
)
def test_a_bell_that_cannot_be_is_refused(tunic: Pattern, edge: str, over: str, words: str) -> None:
    with pytest.raises(KindError, match=words):
        made(tunic, BellSleeve(parse_length(edge), parse_length(over)))


# 8 + EVEN(…): (2.857 + 4) · 2.8 = 19.2, even 20 rows; the front armhole gives 12 of its 48.
def test_a_deeper_neck_starts_earlier(tunic: Pattern) -> None:
    result = made(tunic, NeckDepth(parse_length("4 cm")))
    assert (at(result, "front.neck").rows, at(result, "front.armhole").rows) == (20, 36)


def test_the_band_follows_a_deeper_neck(tunic: Pattern) -> None:
    result = made(tunic, NeckDepth(parse_length("4 cm")))
    assert at(result, "neckband.band").start > 116
    assert "fit" not in codes(result)


# (52 / 2.1 + 4) · 2.1 = 60.4, even 60: shoulders (90 − 60) / 2 = 15.
def test_a_wider_neck_takes_from_the_shoulders(tunic: Pattern) -> None:
    result = made(tunic, NeckWidth(parse_length("4 cm")))
    assert (at(result, "back.shoulders").end, at(result, "back.shoulders").groups) == (
        60,
        (5, 5, 5),
    )
    front = at(result, "front.neck")
    assert front.start - front.end == 60


# V10: 10 cm of rib at 30 rows = 30 rows; the length grows by 4 cm, 12 plain rows would keep it.
def test_a_deeper_hem_is_counted_in_its_own_fabric(tunic: Pattern) -> None:
    result = made(tunic, OtherEdge("hem", depth=parse_length("10 cm")))
    assert [at(result, f"{piece}.hem").rows for piece in ("back", "front")] == [30, 30]
    [asked] = [one for one in findings(result) if one.code == "length"]
    assert "4 cm longer" in asked.sentence and "12 fewer rows" in asked.sentence


# V10, the length kept: EVEN((37.143 − 4) · 2.8) = 92 = 104 − 12.
def test_a_deeper_hem_may_keep_the_length(tunic: Pattern) -> None:
    result = made(tunic, OtherEdge("hem", depth=parse_length("10 cm"), keeps_length=True))
    assert [at(result, f"{piece}.body").rows for piece in ("back", "front")] == [92, 92]


# T5.8 on the back's 114: K1P1 is even, 114 itself; K2P2 ≡ 2 (mod 4) 114 itself; K3P3 110.
@pytest.mark.parametrize(("edge", "cast_on"), [("K1P1", 114), ("K2P2", 114), ("K3P3", 110)])
def test_another_edge_is_cast_on_to_its_own_repeat(tunic: Pattern, edge: str, cast_on: int) -> None:
    result = made(tunic, OtherEdge("hem", edge))
    assert (at(result, "back.hem").start, at(result, "back.body").start) == (cast_on, 114)


# Folded: 6 cm at 28 rows = 16.8, even 16, twice: 32 rows, measuring 5.7 cm.
def test_a_hung_hem_is_worked_twice_as_deep(tunic: Pattern) -> None:
    hem = at(made(tunic, OtherEdge("hem", "hung hem")), "back.hem")
    assert (hem.rows, hem.rows_seen, hem.fabric) == (32, 16, "plain")


# §6.4, T6.9: 10 cm taller: body +2.88 cm, 8 rows; sleeve +3.32 cm, 10 rows (from 38.571 cm:
# 41.891 · 2.8 = 117.3, even 118).
def test_a_taller_wearer_gets_a_proposal(tunic: Pattern) -> None:
    result = made(tunic, OtherHeight(parse_length("10 cm")))
    assert (at(result, "back.body").rows, at(result, "sleeve.taper").rows) == (112, 118)
    assert "height" in codes(result)


@pytest.mark.parametrize("where", ["back.body", "front.body", "front", "body length"])
def test_front_and_back_are_lengthened_together(tunic: Pattern, where: str) -> None:
    result = made(tunic, PartLength(where, parse_length("5 cm")))
    assert [at(result, f"{piece}.body").rows for piece in ("back", "front")] == [118, 118]


@pytest.mark.parametrize(
    ("where", "words"),
    [
        ("sleeve.straight", "follows from other numbers .back.notch.; change those"),
        ("back.notch", "within one row"),
        ("collar", "choose one of back.hem"),
    ],
)
def test_a_part_that_has_no_length_of_its_own_is_refused(
    tunic: Pattern, where: str, words: str
) -> None:
    with pytest.raises(KindError, match=words):
        made(tunic, PartLength(where, parse_length("5 cm")))


def test_a_hem_longer_on_one_side_only_is_a_finding(tunic: Pattern) -> None:
    assert "side seam" in codes(made(tunic, PartLength("back.hem", parse_length("6 rows"))))


def test_halves_and_panels_of_one_piece_contradict_each_other(tunic: Pattern) -> None:
    with pytest.raises(KindError, match="two halves and in three panels"):
        made(tunic, WorkedInHalves(), WorkedInPanels())


# Four seam stitches a row instead of none: 4 · (104 + …) more stitches, so more yarn.
def test_three_panels_take_more_yarn_than_one_piece(tunic: Pattern) -> None:
    assert made(tunic, WorkedInPanels()).after.amount.metres > 1200


# §9.1, T9.2/T9.3: every strand needs all the metres; strands of one yarn share their balls.
def test_two_strands_of_one_yarn_share_their_balls(tunic: Pattern) -> None:
    amount = made(tunic, StrandsTogether((FENNIMOOR,))).after.amount
    assert (amount.metres, amount.balls) == (1200, 20)  # 2 · 1200 / 120
    assert amount.grams == 1000


def test_different_strands_are_bought_each_for_itself(tunic: Pattern) -> None:
    pair = tuple(Strand(name, Fraction(100), Fraction(350)) for name in ("A", "B"))
    amount = made(tunic, StrandsTogether(pair)).after.amount
    assert [one.balls for one in amount.strands] == [4, 4]  # T9.3


def test_strands_together_ask_for_a_swatch(tunic: Pattern) -> None:
    assert "no swatch" in codes(made(tunic, StrandsTogether((FENNIMOOR,))))


# T3.6: 40 st x 60 r over 18.2 x 20.4 cm: 22.0 x 29.4; weighed 18.2 g, 0.4 % from the formula.
def test_a_swatch_is_counted_and_weighed(tunic: Pattern) -> None:
    swatch = Swatch(40, Fraction("18.2"), 60, Fraction("20.4"), Fraction("18.2"))
    swap = YarnSwap("Fennimoor Plain", Fraction(50), Fraction(120), swatch=swatch)
    result = made(tunic, swap)
    assert result.after.gauge == Gauge(Fraction(22), Fraction("29.4"))
    assert "weighed" not in codes(result)


# Twice the weight: twice the yarn in a stitch, so the swatch counts instead of the formula.
def test_a_swatch_far_from_the_formula_is_trusted(tunic: Pattern) -> None:
    light = Swatch(40, Fraction("18.2"), 60, Fraction("20.4"), Fraction("18.2"))
    heavy = Swatch(40, Fraction("18.2"), 60, Fraction("20.4"), Fraction("36.4"))
    metres = [
        made(tunic, YarnSwap("F", Fraction(50), Fraction(120), swatch=one)).after.amount.metres
        for one in (light, heavy)
    ]
    assert metres[1] > Fraction(19, 10) * metres[0]


# At 28 rows = 10 cm the body's 104 rows are 37.1 cm; 118 rows are 5 cm more.
@pytest.mark.parametrize(("rows", "said"), [(104, False), (106, False), (118, True), (96, True)])
def test_rows_that_disagree_with_the_gauge_are_a_finding(
    tunic: Pattern, rows: int, said: bool
) -> None:
    assert ("own rows" in codes(made(tunic, OwnFigure("back.body", rows=rows)))) is said


# At her own 26 rows 37.143 cm are 96.6, even 96 rows: her 96 agree, the pattern's 104 do not.
@pytest.mark.parametrize(("rows", "said"), [(96, False), (104, True)])
def test_own_rows_are_compared_at_her_own_gauge(tunic: Pattern, rows: int, said: bool) -> None:
    hers = Gauge(Fraction(21), Fraction(26))
    result = recalculate(tunic, "3", [OwnFigure("back.body", rows=rows)], measured=hers)
    assert ("own rows" in codes(result)) is said


def test_own_stitches_are_compared(tunic: Pattern) -> None:
    assert "own stitches" in codes(made(tunic, OwnFigure("back.correction", stitches=110)))


def test_a_longer_body_is_what_own_rows_are_compared_with(tunic: Pattern) -> None:
    given = [BodyLength(parse_length("5 cm")), OwnFigure("back.body", rows=118)]
    assert "own rows" not in codes(recalculate(tunic, "3", given))


def test_own_figures_and_parts_change_no_number(tunic: Pattern) -> None:
    result = made(tunic, OwnFigure("back.body", rows=118), Extra("pocket"))
    assert result.after == result.before


# 130 needles and size 5: V7's halves are offered first.
def test_the_knitters_own_bed_counts(tunic: Pattern) -> None:
    result = recalculate(tunic, "5", needles=130)
    bed = next(one for one in findings(result) if one.code == "bed")
    assert "136 stitches do not fit on 130 needles" in bed.sentence
    assert bed.ways_out[0].startswith("Work it in two halves") and len(bed.ways_out) == 5


def test_hand_needles_have_no_bed(tunic: Pattern) -> None:
    assert "bed" not in codes(recalculate(tunic, "8", by_hand=True))


EXAMPLES: list[AnyAlteration] = [
    BodyWidth(parse_length("6 cm"), "shoulders"),
    ArmholeDepth(parse_length("-1/2 in")),
    SleeveGirth(parse_length("4 cm"), "gathers"),
    SleeveWidth(parse_length("20 cm")),
    BellSleeve(parse_length("44 cm"), parse_length("56 rows")),
    NeckDepth(parse_length("4 cm")),
    NeckWidth(parse_length("1 in")),
    OtherEdge("hem", "K2P2", parse_length("10 cm"), True),
    OtherHeight(parse_length("-7 cm")),
    PartLength("back.body", parse_length("14 rows")),
    StrandsTogether((FENNIMOOR, Strand("Kelvarrick Cotton", Fraction(50), Fraction(95)))),
    YarnSwap(
        "Kelvarrick Cotton",
        swatch=Swatch(19, Fraction(10), 26, Fraction(10), Fraction(5)),
        fibre="100 % cotton",
    ),
    WorkedInPanels(("back",)),
    Extra("cord", False, "no cord at the neck"),
    OwnFigure("back.body", 118, 114),
]


@pytest.mark.parametrize("one", EXAMPLES, ids=lambda one: one.kind)
def test_every_kind_is_written_and_read_again(one: AnyAlteration) -> None:
    assert from_plain(*to_plain(one)) == one


@pytest.mark.parametrize(
    ("kind", "fields", "words"),
    [
        ("body_width", {"change": "3 rows"}, "cm or inches"),
        ("body_width", {"change": "3 cm", "into": "collar"}, "where the width goes"),
        ("sleeve_girth", {"change": "-3 cm", "meeting": "gathers"}, "cannot be gathered"),
        ("bell_sleeve", {"edge": "44 cm", "over": "0 cm"}, "above zero"),
        ("other_edge", {"where": "hem", "edge": "K9P9"}, "choose one of"),
        ("other_edge", {"where": "hem"}, "which edge was worked"),
        ("extra", {"part": "wings"}, "which part it is"),
        ("extra", {"part": "other part"}, "in a few words"),
        ("own_figure", {"where": "back.body"}, "rows or the stitches"),
        ("own_figure", {"where": "back.body", "rows": "10,5"}, "whole number"),
        ("strands_together", {"name_1": "A", "ball_grams_1": "50"}, "for each strand"),
        ("yarn_swap", {"name": "A", "counted_stitches": "40"}, "A swatch needs"),
        ("other_height", {"change": "9 rows"}, "cm or inches"),
    ],
)
def test_what_cannot_be_read_is_refused_in_a_sentence(
    kind: str, fields: dict[str, str], words: str
) -> None:
    with pytest.raises(KindError, match=words):
        from_plain(kind, fields)


# The hem's share of the yarn is the same at every gauge: 1153.4 of 1108.1 m net, the length of a
# stitch halved and their number four times as large; within ten metres for rows rounded to even.
@pytest.mark.parametrize(("stitches", "rows", "metres"), [(21, 28, 1250), (42, 56, 2500)])
def test_a_deeper_hem_takes_its_share_of_yarn_at_any_gauge(
    tunic: Pattern, stitches: int, rows: int, metres: int
) -> None:
    gauge = Gauge(Fraction(stitches), Fraction(rows))
    hem = OtherEdge("hem", depth=parse_length("10 cm"))
    result = recalculate(tunic, "3", [hem, YarnSwap("K", gauge=gauge)])
    assert abs(result.after.amount.metres - metres) <= 10


def test_an_edge_of_one_piece_alone_cannot_keep_the_common_length(tunic: Pattern) -> None:
    with pytest.raises(KindError, match="give the same edge for both"):
        made(tunic, OtherEdge("front", depth=parse_length("10 cm"), keeps_length=True))


def test_own_stitches_may_be_those_of_a_half(tunic: Pattern) -> None:
    result = made(tunic, OwnFigure("back.correction", stitches=79), size="7")
    assert "own stitches" not in codes(result)


def test_a_gauge_at_which_a_fabric_cannot_be_is_refused_at_once(tunic: Pattern) -> None:
    odd = Gauge(Fraction(2), Fraction(2), "4in")
    with pytest.raises(AlterationsError, match="cannot be right"):
        recalculate(tunic, "1", [OwnFigure("back.hem", rows=0)], measured=odd)
