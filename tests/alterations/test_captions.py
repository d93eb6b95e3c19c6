"""One line for the film."""

from fractions import Fraction

import pytest

from alterations.caption import caption
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
from alterations.pattern import Pattern
from alterations.recalculate import recalculate
from alterations.units import parse_length

COTTON = YarnSwap(
    "Kelvarrick Cotton", Fraction(50), Fraction(95), Gauge(Fraction(19), Fraction(26))
)


def body(text: str) -> BodyLength:
    return BodyLength(parse_length(text))


def sleeves(text: str) -> SleeveLength:
    return SleeveLength(parse_length(text))


# 2 in = 5.08 cm: 42.223 · 2.8 = 118.2, even 118. 5 cm at 26 rows: (37.143 + 5) · 2.6 = 109.6,
# even 110, 14 more than 96.
CAPTIONS: list[tuple[list[AnyAlteration], str]] = [
    ([], "Size 4"),
    ([FreeNote("a pocket on the left")], "Size 4"),
    ([body("5 cm")], "Size 4 · body 5 cm longer (+14 rows)"),
    (
        [body("5 cm"), COTTON],
        "Size 4 · body 5 cm longer (+14 rows) · Kelvarrick Cotton",
    ),
    ([body("2 in")], "Size 4 · body 2 in longer (+14 rows)"),
    ([body("-2 in")], "Size 4 · body 2 in shorter (−14 rows)"),
    ([body("14 rows")], "Size 4 · body 14 rows longer"),
    ([body("0 cm")], "Size 4"),
    ([body("2 cm"), body("3 cm")], "Size 4 · body 5 cm longer (+14 rows)"),
    ([sleeves("4 cm")], "Size 4 · sleeves 4 cm longer (+12 rows)"),
    ([SleeveWidth(parse_length("20 cm"))], "Size 4 · wrist 20 cm"),
    ([SleeveWidth(parse_length("8½ in"))], "Size 4 · wrist 8½ in"),
    ([WorkedInHalves()], "Size 4 · in two halves"),
]


@pytest.mark.parametrize(("given", "words"), CAPTIONS)
def test_a_caption_says_size_changes_and_yarn(
    tunic: Pattern, given: list[AnyAlteration], words: str
) -> None:
    assert caption(recalculate(tunic, "4", given)) == words


def test_the_caption_keeps_its_order_whatever_was_entered_first(tunic: Pattern) -> None:
    result = recalculate(tunic, "4", [COTTON, sleeves("4 cm"), body("5 cm")])
    assert caption(result).startswith("Size 4 · body 5 cm longer")
