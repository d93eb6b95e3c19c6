"""Bodies: measurements, ease, and which size to take."""

import doctest
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from alterations import bodies
from alterations.bodies import (
    BODY_TABLES,
    LENGTH_CLASSES,
    MEASUREMENTS,
    ease_class,
    ease_of,
    for_height,
    length_class_cm,
    shown_length_classes,
    shown_tables,
    size_for,
)
from alterations.bodytables import CHILD, MEMORY, WOMAN, WOMAN_CHEST_CM, BodyColumn
from alterations.errors import KindError, UnitError
from alterations.rounding import round_half_up

# The finished chest of the demo pattern's sizes 1 to 4: (n − 2) · 2 / 2.1, to the tenth.
FINISHED = {
    "1": Fraction("85.7"),
    "2": Fraction("95.2"),
    "3": Fraction("106.7"),
    "4": Fraction("116.2"),
}


# T8.1: 106.67 − 96 = 10.67 cm = 4.2 in.
def test_t8_1_ease_of_ten_and_a_half_is_loose() -> None:
    ease = ease_of(Fraction("106.67"), 96)
    assert (ease, ease_class(ease).name) == (Fraction("10.67"), "loose")
    assert round_half_up(ease / Fraction("2.54") * 10) == 42


# T8.2: 106.67 − 100 = 6.67 cm = 2.6 in.
def test_t8_2_ease_of_six_and_a_half_is_classic() -> None:
    ease = ease_of(Fraction("106.67"), 100)
    assert (ease, ease_class(ease).name) == (Fraction("6.67"), "classic")
    assert round_half_up(ease / Fraction("2.54") * 10) == 26


# T8.3: target 92 + 8 = 100; 95.2 is 4.8 below, 106.7 is 6.7 above; 95.2 − 92 and 106.7 − 92.
def test_t8_3_the_nearest_size_is_told_with_its_ease_and_the_next_one_up() -> None:
    advice = size_for(92, 8, FINISHED)
    assert (advice.target_cm, advice.nearest.name, advice.off_by_cm) == (100, "2", Fraction("-4.8"))
    assert advice.nearest.ease_cm == Fraction("3.2")
    assert advice.next_up is not None
    assert (advice.next_up.name, advice.next_up.ease_cm) == ("3", Fraction("14.7"))
    assert advice.sentence == (
        "Size 2 comes nearest: 95.2 cm finished (37½ in), 3.2 cm of ease (close). "
        "The next one up, size 3: 106.7 cm finished (42 in), 14.7 cm of ease (loose)."
    )


# T6.9: 0.332 · 10 and 0.288 · 10 (Drillis and Contini 1966, from memory, unverified).
def test_t6_9_a_wearer_ten_centimetres_taller_gets_longer_sleeves_and_body() -> None:
    proposal = for_height(10)
    assert (proposal.sleeve_cm, proposal.body_cm) == (Fraction("3.32"), Fraction("2.88"))
    assert "starting value only" in proposal.note


def test_a_shorter_wearer_gets_the_same_with_a_minus() -> None:
    assert for_height(-10).sleeve_cm == -for_height(10).sleeve_cm


def test_a_difference_in_height_that_nobody_has_is_refused() -> None:
    with pytest.raises(UnitError, match="Nobody differs by more than 100 cm"):
        for_height(101)


# Half-open bands; which band an end belongs to is our own choice.
BANDS = [("-0.1", "very close"), ("0", "close"), ("4.9", "close"), ("5", "classic")]
BANDS += [("9.99", "classic"), ("10", "loose"), ("14.9", "loose"), ("15", "oversized")]


@pytest.mark.parametrize(("ease", "name"), BANDS)
def test_ease_has_five_classes(ease: str, name: str) -> None:
    assert ease_class(Fraction(ease)).name == name


def test_a_nearest_size_above_the_target_needs_no_other() -> None:
    advice = size_for(98, 8, FINISHED)  # target 106; 106.7 is nearest
    assert advice.nearest.name == "3" and advice.sentence.count("Size") == 1


def test_of_two_equally_near_sizes_the_larger_is_told() -> None:
    advice = size_for(90, 10, {"S": Fraction(95), "M": Fraction(105)})
    assert advice.nearest.name == "M" and advice.next_up is None


def test_above_the_largest_size_there_is_nothing_to_offer() -> None:
    advice = size_for(120, 10, FINISHED)
    assert (advice.nearest.name, advice.next_up) == ("4", None)


@given(
    st.fractions(50, 150, max_denominator=10),
    st.fractions(-10, 40, max_denominator=10),
    st.dictionaries(
        st.text(min_size=1, max_size=3), st.fractions(50, 200, max_denominator=10), min_size=1
    ),
)
def test_no_other_size_is_nearer(
    body: Fraction, ease: Fraction, finished: dict[str, Fraction]
) -> None:
    advice = size_for(body, ease, finished)
    assert abs(advice.off_by_cm) == min(abs(cm - body - ease) for cm in finished.values())
    assert advice.nearest.ease_cm == finished[advice.nearest.name] - body
    assert advice.next_up is None or advice.next_up.finished_cm > advice.nearest.finished_cm


@pytest.mark.parametrize(("body", "ease"), [(0, 8), (-1, 8), (301, 0), (90, -90), (90, 100_000)])
def test_a_body_that_nobody_has_is_refused(body: int, ease: int) -> None:
    with pytest.raises(UnitError, match="no measurement of a body or garment"):
        size_for(body, ease, FINISHED)


def test_a_pattern_without_sizes_is_refused() -> None:
    with pytest.raises(UnitError, match="at least one size"):
        size_for(92, 8, {})


# The chest of women agrees with trade sheets, five rows of children with a designer's table; all
# else is from memory and is not shown.
def test_only_verified_measurements_are_shown() -> None:
    shown = {table.wearer: [one.measurement for one in table.columns] for table in shown_tables()}
    assert shown == {
        "woman": ["chest or bust"],
        "child": [
            "back waist length",
            "cross back",
            "arm length to underarm",
            "upper arm",
            "armhole depth",
        ],
    }


def test_what_is_from_memory_is_marked() -> None:
    columns = [column for table in BODY_TABLES for column in table.columns]
    assert all(column.is_verified == (column.source != MEMORY) for column in columns)
    assert sum(column.is_verified for column in columns) == 6


def test_every_measurement_has_a_figure_for_every_size() -> None:
    for table in BODY_TABLES:
        assert {len(column.inches) for column in table.columns} == {len(table.sizes)}


def column(of: str) -> BodyColumn:
    return next(one for one in CHILD.columns if one.measurement == of)


def test_a_figure_is_read_off_its_size() -> None:
    assert WOMAN.columns[0].inches[3] == (40, 42)
    assert column("upper arm").inches[4] == (Fraction("8.75"),) * 2


# 40 in = 101.6 cm, printed 101.5; 62 in = 157.5, printed 158.
def test_the_printed_centimetres_lie_within_one_of_the_inches() -> None:
    for inches, printed in zip(WOMAN.columns[0].inches, WOMAN_CHEST_CM, strict=True):
        for one, other in zip(inches, printed, strict=True):
            assert abs(one * Fraction("2.54") - other) <= 1


def test_no_measurement_gets_smaller_with_the_size() -> None:
    for table in BODY_TABLES:
        for one in table.columns:
            assert list(one.inches) == sorted(one.inches)


# 30 + 2 · 2.54; 43 + 11 · 2.54; 66 + 2.54 to 66 + 5.08.
LENGTHS = [
    ("hip length", "child", 30, "35.08", "35.08"),
    ("tunic length", "woman", 43, "70.94", "70.94"),
    ("hip length", "man", 66, "68.54", "71.08"),
]


@pytest.mark.parametrize(("name", "wearer", "base", "low", "high"), LENGTHS)
def test_a_length_class_adds_its_inches(
    name: str, wearer: bodies.Wearer, base: int, low: str, high: str
) -> None:
    assert length_class_cm(name, wearer, base) == (Fraction(low), Fraction(high))


def test_a_length_class_that_is_not_there_is_refused() -> None:
    with pytest.raises(KindError, match="no tunic length for a man"):
        length_class_cm("tunic length", "man", 60)


def test_only_the_length_classes_of_children_are_shown() -> None:
    assert {one.wearer for one in shown_length_classes()} == {"child"}
    assert len(LENGTH_CLASSES) == 7


# As listed in a textbook from ISO 8559:1989.
def test_measurements_have_the_standards_names() -> None:
    assert len(MEASUREMENTS) == len(set(MEASUREMENTS)) == 22
    assert {"scye depth", "neck-base girth", "armscye girth"} < set(MEASUREMENTS)


def test_the_worked_examples_hold() -> None:
    assert doctest.testmod(bodies).failed == 0
