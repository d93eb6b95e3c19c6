"""Every changed number with why."""

from fractions import Fraction

from alterations.changes import Change, changes
from alterations.gauge import Gauge
from alterations.kinds import AnyAlteration, BodyLength, SleeveLength, SleeveWidth, YarnSwap
from alterations.pattern import Pattern
from alterations.recalculate import recalculate
from alterations.units import parse_length

LONGER = BodyLength(parse_length("5 cm"))
LONG_SLEEVES = SleeveLength(parse_length("4 cm"))
TAPERED = SleeveWidth(parse_length("20 cm"))
COTTON = YarnSwap(
    "Kelvarrick Cotton", Fraction(50), Fraction(95), Gauge(Fraction(19), Fraction(26))
)


def of(pattern: Pattern, *given: AnyAlteration) -> tuple[Change, ...]:
    return changes(recalculate(pattern, "3", given))


def reasons(pattern: Pattern, *given: AnyAlteration) -> dict[tuple[str, str], str]:
    return {(one.part, one.unit): one.reason for one in of(pattern, *given)}


def test_nothing_entered_is_no_change(tunic: Pattern) -> None:
    assert of(tunic) == ()


# 104 + 14 rows.
def test_what_was_entered_stands_first(tunic: Pattern) -> None:
    first = of(tunic, LONGER)[0]
    assert (first.part, first.unit, first.before, first.after, first.delta, first.reason) == (
        "back.body",
        "rows",
        104,
        118,
        14,
        "entered",
    )


def test_the_front_follows_the_back(tunic: Pattern) -> None:
    second = of(tunic, LONGER)[1]
    assert (second.part, second.reason, second.follows_from) == (
        "front.body",
        "follows",
        ("back.body.rows",),
    )


def test_yarn_stands_last(tunic: Pattern) -> None:
    last = of(tunic, LONGER)[-3:]
    assert [(one.unit, one.delta) for one in last] == [("m", 70), ("balls", 1), ("g", 29)]


def test_entries_keep_the_order_in_which_they_were_made(tunic: Pattern) -> None:
    found = [one.part for one in of(tunic, TAPERED, LONG_SLEEVES, LONGER)[:3]]
    assert found == ["sleeve.correction", "sleeve.taper", "back.body"]


def test_a_new_cast_on_goes_with_the_edge(tunic: Pattern) -> None:
    found = reasons(tunic, TAPERED)
    assert found["sleeve.cuff", "stitches"] == "edge"
    assert found["sleeve.correction", "stitches"] == "entered"


def test_counts_at_another_gauge_say_so(tunic: Pattern) -> None:
    found = reasons(tunic, COTTON)
    assert found["back.body", "rows"] == "gauge"
    assert found["sleeve.taper", "stitches"] == "follows"


def test_a_longer_body_changes_nothing_it_does_not_name(tunic: Pattern) -> None:
    parts = {one.part for one in of(tunic, LONGER)}
    measured = {"hem_to_underarm", "length", "full_length"}
    assert parts == {"back.body", "front.body", "yarn"} | measured
