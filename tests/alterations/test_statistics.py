"""Statistics over garments: the tunic's size 3 (21 × 28 = 10 cm, 1200 m, 500 g) unless said.

Expected values are worked by hand beside each test; quartiles are held against Python's own
statistics module (method "inclusive", which is definition 7 of Hyndman and Fan).
"""

import statistics as python_statistics
from dataclasses import asdict, fields
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from alterations.gauge import Gauge
from alterations.kinds import (
    KINDS,
    AnyAlteration,
    BellSleeve,
    BodyLength,
    Extra,
    FreeNote,
    OtherEdge,
    OwnFigure,
    PartLength,
    SleeveLength,
    SleeveWidth,
    WorkedInHalves,
    YarnSwap,
    from_plain,
)
from alterations.pattern import Pattern
from alterations.recalculate import recalculate
from alterations.spread import Spread, spread_of
from alterations.statistics import Group, Line, Outcome, Summary, outcome_of, summarise
from alterations.units import parse_length

NAMES = ("kind", "what", "cm", "rows", "stitches")
COTTON = YarnSwap(
    "Kelvarrick Cotton", Fraction(50), Fraction(95), Gauge(Fraction(19), Fraction(26))
)
WITH_CHANGE = [
    kind for kind, cls in KINDS.items() if "change" in {field.name for field in fields(cls)}
]
# One example of each kind that has a change: it must be counted with an amount.
EXAMPLES = {
    "body_width": {"change": "6 cm"},
    "sleeve_girth": {"change": "3 cm"},
    "neck_width": {"change": "2 cm"},
    "part_length": {"where": "back.body", "change": "3 cm"},
}


def longer(cm: str) -> BodyLength:
    return BodyLength(parse_length(cm))


def outcome(pattern: Pattern, *given_changes: AnyAlteration, size: str = "3") -> Outcome:
    return outcome_of(recalculate(pattern, size, given_changes))


def entry(pattern: Pattern, *given_changes: AnyAlteration) -> tuple[object, ...]:
    (only,) = outcome(pattern, *given_changes).entries
    return tuple(getattr(only, name) for name in NAMES)


def in_sizes(pattern: Pattern, times: dict[str, int]) -> Summary:
    """So many garments of each size with a body 5 cm longer."""
    made = {size: outcome(pattern, longer("5 cm"), size=size) for size in times}
    return summarise(made[size] for size, many in times.items() for _ in range(many))


def total(summary: Summary, kind: str) -> Line:
    return next(line for line in summary.lines if (line.kind, line.size) == (kind, ""))


def everyone(summary: Summary) -> Group:
    assert summary.everyone is not None
    return summary.everyone


# 1 2 4 8: places 0.75, 1.5, 2.25 of 0…3 lie at 1.75, 3 and 5.
def test_quartiles_lie_on_the_line_between_neighbours() -> None:
    values = [Fraction(value) for value in (8, 1, 4, 2)]
    expected = (4, 1, Fraction(7, 4), 3, 5, 8)
    assert spread_of(values) == Spread(*expected)  # type: ignore[arg-type]


@given(st.lists(st.fractions(-300, 300, max_denominator=60), min_size=2, max_size=40))
def test_quartiles_are_those_of_pythons_inclusive_method(values: list[Fraction]) -> None:
    spread = spread_of(values)
    assert spread is not None
    expected = python_statistics.quantiles(values, n=4, method="inclusive")
    assert [spread.lower, spread.median, spread.upper] == expected


@given(st.lists(st.fractions(-300, 300, max_denominator=60), min_size=1, max_size=20))
def test_the_ends_and_the_count_are_those_of_the_values(values: list[Fraction]) -> None:
    spread = spread_of(values)
    assert spread is not None
    assert (spread.count, spread.smallest, spread.largest) == (
        len(values),
        min(values),
        max(values),
    )


def test_no_values_have_no_spread() -> None:
    assert spread_of([]) is None


def test_a_length_is_counted_in_cm(tunic: Pattern) -> None:
    assert entry(tunic, longer("2 in")) == ("body_length", "", Fraction("5.08"), None, None)


# 14 rows at 2.8 rows in a cm are 5 cm.
def test_rows_are_counted_as_rows_and_in_cm(tunic: Pattern) -> None:
    assert entry(tunic, longer("14 rows")) == ("body_length", "", 5, 14, None)


def test_the_same_kind_twice_is_added_up(tunic: Pattern) -> None:
    assert entry(tunic, longer("5 cm"), longer("5 cm")) == ("body_length", "", 10, None, None)


def test_rows_and_cm_together_are_told_in_cm_only(tunic: Pattern) -> None:
    assert entry(tunic, longer("14 rows"), longer("2 cm")) == ("body_length", "", 7, None, None)


def test_a_wrist_given_twice_alike_is_counted_once(tunic: Pattern) -> None:
    wrist = SleeveWidth(parse_length("20 cm"))
    assert outcome(tunic, wrist, wrist) == outcome(tunic, wrist)


# The pattern's wrist: (54 − 2) / 2.1 = 520/21 cm; 20 − 520/21 = −100/21.
def test_a_new_wrist_is_counted_by_how_much_wider_it_is(tunic: Pattern) -> None:
    expected = ("sleeve_width", "", Fraction(-100, 21), None, None)
    assert entry(tunic, SleeveWidth(parse_length("20 cm"))) == expected


# 44 − 520/21 = 404/21 cm.
def test_a_bell_is_counted_by_how_much_wider_than_the_wrist_it_is(tunic: Pattern) -> None:
    bell = BellSleeve(parse_length("44 cm"), parse_length("20 cm"))
    assert entry(tunic, bell) == ("bell_sleeve", "", Fraction(404, 21), None, None)


# The hem has 18 rows at 3 in a cm: 6 cm.
def test_another_edge_is_counted_by_part_and_edge_with_its_depth(tunic: Pattern) -> None:
    edge = OtherEdge("hem", "K1P1", parse_length("10 cm"))
    assert entry(tunic, edge) == ("other_edge", "hem, K1P1", 4, None, None)


# 30 rows at 3 in a cm: 10 cm, 4 more; 12 rows more.
def test_a_depth_in_rows_is_counted_in_rows_too(tunic: Pattern) -> None:
    edge = OtherEdge("hem", depth=parse_length("30 rows"))
    assert entry(tunic, edge) == ("other_edge", "hem", 4, 12, None)


def test_a_stretch_is_named_by_the_patterns_own_word(tunic: Pattern) -> None:
    front = PartLength("front.body", parse_length("3 cm"))
    assert entry(tunic, front) == ("part_length", "body length", 3, None, None)


# Size 3 has 104 rows and 114 stitches there.
def test_own_counts_are_told_less_the_computed_ones(tunic: Pattern) -> None:
    counted = OwnFigure("back.body", rows=106, stitches=113)
    assert entry(tunic, counted) == ("own_figure", "back.body", None, 2, -1)


def test_an_added_part_is_counted_without_its_words(tunic: Pattern) -> None:
    pocket = Extra("pocket", words="for Wimbrel Oxtaby's whistle")
    assert entry(tunic, pocket) == ("extra", "pocket added", None, None, None)


@pytest.mark.parametrize("kind", WITH_CHANGE)
def test_every_kind_with_a_change_is_counted_with_its_amount(tunic: Pattern, kind: str) -> None:
    one = from_plain(kind, EXAMPLES.get(kind, {"change": "3 cm"}))
    (only,) = outcome(tunic, one).entries
    assert only.cm == one.change.amount  # type: ignore[union-attr]


# 19 in 10 cm are 19.304 in 4 in, so category 4; 1200·√(4.94/5.88) = 1099.9, so 1100 m;
# 1100 m of 50 g in 95 m are 11000/19 g, against 500 g: 300/19 % more.
def test_another_yarn_is_counted_by_gauge_category_metres_and_weight(tunic: Pattern) -> None:
    made = outcome(tunic, COTTON)
    assert (made.stitches_per_10cm, made.rows_per_10cm, made.categories) == (19, 26, {4})
    assert (made.published_metres, made.metres) == (1200, 1100)
    assert made.weight_percent == Fraction(300, 19)


# 2 3 5 10 cm longer: median 4, quartiles 2.75 and 6.25.
def test_a_line_tells_how_many_the_median_and_the_spread(tunic: Pattern) -> None:
    made = [outcome(tunic, longer(f"{cm} cm")) for cm in (10, 2, 5, 3)]
    line = total(summarise(made), "body_length")
    expected = Spread(4, Fraction(2), Fraction("2.75"), Fraction(4), Fraction("6.25"), Fraction(10))
    assert (line.garments, line.cm) == (4, expected)


def test_only_those_who_gave_rows_are_counted_in_rows(tunic: Pattern) -> None:
    made = [outcome(tunic, longer(text)) for text in ("14 rows", "3 cm", "28 rows")]
    line = total(summarise(made), "body_length")
    assert line.cm is not None and line.rows is not None
    assert (line.cm.median, line.rows.count, line.rows.median) == (5, 2, 21)


# A body 5 cm longer takes 1270 m instead of 1200.
def test_metres_are_told_as_published_as_used_and_as_the_difference(tunic: Pattern) -> None:
    whole = everyone(summarise([outcome(tunic, longer("5 cm"))] * 3))
    spreads = (whole.published_metres, whole.metres, whole.metres_more)
    assert [spread.median for spread in spreads if spread] == [1200, 1270, 70]


def test_sizes_stand_in_the_patterns_order_after_all_sizes(tunic: Pattern) -> None:
    summary = in_sizes(tunic, {"8": 1, "1": 1, "3": 2})
    assert [(one.size, one.garments) for one in summary.sizes] == [("1", 1), ("3", 2), ("8", 1)]
    assert [line.size for line in summary.lines] == ["", "1", "3", "8"]


@pytest.mark.parametrize(
    ("told", "expected"),
    [
        ([], True),
        ([FreeNote("knitted by the sea")], True),
        ([OwnFigure("back.body", rows=104)], True),
        ([longer("0.1 cm")], True),  # less than a row
        ([longer("5 cm")], False),
        ([WorkedInHalves()], False),
        ([Extra("cord")], False),
        ([YarnSwap("Kelvarrick Cotton")], False),
    ],
)
def test_who_changed_no_number_and_no_yarn_changed_nothing(
    tunic: Pattern, told: list[AnyAlteration], expected: bool
) -> None:
    assert outcome(tunic, *told).is_unchanged is expected


def test_nothing_is_a_summary_too() -> None:
    assert summarise([]).shown() == Summary(0, None, (), ())


@given(st.data())
def test_the_order_of_garments_changes_nothing(tunic: Pattern, data: st.DataObject) -> None:
    told: list[list[AnyAlteration]] = [
        [longer("5 cm"), SleeveLength(parse_length("-4 cm"))],
        [longer("14 rows")],
        [COTTON],
        [],
    ]
    made = [outcome(tunic, *one, size=size) for one in told for size in "381"]
    mixed = data.draw(st.permutations(made))
    assert summarise(mixed) == summarise(made)
    assert summarise(mixed).shown(3) == summarise(made).shown(3)


def test_no_name_no_note_and_no_word_of_hers_leaves(tunic: Pattern) -> None:
    secret = "Quillobar"
    told: list[AnyAlteration] = [
        FreeNote(f"for {secret}"),
        YarnSwap(secret, fibre=secret),
        Extra("other part", words=secret),
        OwnFigure(f"{secret}.body", rows=104),
    ]
    made = outcome(tunic, *told)
    assert secret not in f"{asdict(made)} {asdict(summarise([made]))}"


def test_a_group_of_fewer_than_five_is_withheld_and_counted(tunic: Pattern) -> None:
    shown = in_sizes(tunic, {"3": 4}).shown()
    # everyone, size 3, its line and the line for all sizes
    assert (shown.everyone, shown.sizes, shown.lines, shown.withheld) == (None, (), (), 4)


def test_five_garments_are_enough(tunic: Pattern) -> None:
    summary = in_sizes(tunic, {"3": 5})
    shown = summary.shown()
    assert (shown.sizes[0].garments, len(shown.lines), shown.withheld) == (5, 2, 0)


def test_the_threshold_can_be_given(tunic: Pattern) -> None:
    summary = in_sizes(tunic, {"3": 2, "4": 3})
    assert [one.size for one in summary.shown(fewest=2).sizes] == ["3", "4"]


# 9 + 6 + 1: without size 5 the total would tell its one garment, so the next smallest goes too.
def test_a_withheld_size_cannot_be_found_from_the_total(tunic: Pattern) -> None:
    shown = in_sizes(tunic, {"3": 9, "4": 6, "5": 1}).shown()
    assert [one.size for one in shown.sizes] == ["3"]
    assert [line.size for line in shown.lines] == ["", "3"]


def test_two_who_gave_rows_among_many_are_withheld(tunic: Pattern) -> None:
    made = [outcome(tunic, longer("5 cm"))] * 5 + [outcome(tunic, longer("14 rows"))] * 2
    line = total(summarise(made).shown(), "body_length")
    assert (line.garments, line.rows) == (7, None)


def test_one_yarn_category_among_many_is_withheld(tunic: Pattern) -> None:
    made = [outcome(tunic)] * 9 + [outcome(tunic, COTTON)]
    assert everyone(summarise(made)).categories == ((3, 9), (4, 1))
    # With category 4 missing, 10 garments less the 9 shown would tell it.
    assert everyone(summarise(made).shown()).categories == ()


def test_the_one_who_changed_nothing_is_withheld(tunic: Pattern) -> None:
    made = [outcome(tunic)] + [outcome(tunic, longer("5 cm"))] * 9
    assert everyone(summarise(made)).unchanged == 1
    assert everyone(summarise(made).shown()).unchanged is None


counts = st.dictionaries(st.sampled_from("12345678"), st.integers(1, 12), min_size=1)


@given(counts, st.integers(1, 6))
def test_what_is_withheld_is_never_a_small_number(
    tunic: Pattern, times: dict[str, int], fewest: int
) -> None:
    shown = in_sizes(tunic, times).shown(fewest)
    lines = [line for line in shown.lines if line.size]
    missing = sum(times.values()) - sum(line.garments for line in lines)
    assert missing == 0 or missing >= fewest or not shown.lines
    assert all(one.garments >= fewest for one in (*shown.sizes, *shown.lines))
