"""Kept changes come back as the texts of their fields, exactly, or are kept beside them."""

from fractions import Fraction

import pytest
from django.conf import settings

from alterations.gauge import Gauge
from alterations.kinds import (
    AnyAlteration,
    BodyLength,
    BodyWidth,
    Extra,
    FreeNote,
    OtherEdge,
    SleeveWidth,
    Strand,
    StrandsTogether,
    Swatch,
    WorkedInHalves,
    YarnSwap,
    from_plain,
)
from alterations.pattern import Pattern
from alterations.patternfile import load_pattern
from alterations.units import Length
from gallery.contributions.change_form import ChangesForm
from gallery.contributions.editing.change_values import as_typed, number_text

from .test_all_changes import TOLD

THIRD = Fraction(22) + Fraction(1, 3)
MORE: list[AnyAlteration] = [
    BodyLength(Length(Fraction("-5.75"), "in")),
    BodyLength(Length(14, "rows")),  # type: ignore[arg-type]
    BodyWidth(Length(Fraction(1, 3), "in")),
    SleeveWidth(Length(THIRD)),
    OtherEdge("hem", "", Length(Fraction(10))),
    YarnSwap("Kelvarrick Cotton", Fraction(50), Fraction("112.5"), Gauge(Fraction("19.5"), 26)),  # type: ignore[arg-type]
    YarnSwap(
        "Kelvarrick Cotton",
        swatch=Swatch(40, Fraction("18.2"), 60, Fraction("20.4"), Fraction("18.2")),
        keep="counts",
        is_raised=True,
    ),
    StrandsTogether(
        (
            Strand("Fennimoor Plain", Fraction(50), Fraction(120)),
            Strand("Kelvarrick Cotton", Fraction(50), Fraction(85)),
        )
    ),
    Extra("pocket", is_added=False),
    FreeNote("One line.\nAnother <b>line</b>."),
]
EVERY = [from_plain(kind, kept) for _, kind, kept in TOLD] + MORE


@pytest.fixture(scope="module")
def pattern() -> Pattern:
    path = settings.CHECKOUT / "gallery" / "demo" / "ostrimane_tunic.toml"
    return load_pattern(path.read_text(encoding="utf-8"))


def read_again(typed: dict[str, str], pattern: Pattern) -> tuple[AnyAlteration, ...]:
    form = ChangesForm(typed, pattern=pattern, size_name="3")
    assert form.is_valid()
    return form.alterations


@pytest.mark.parametrize("one", EVERY, ids=lambda one: one.kind)
def test_every_kind_comes_back_as_the_very_same_change(
    pattern: Pattern, one: AnyAlteration
) -> None:
    typed, left_over = as_typed([one], pattern, "3")
    assert (read_again(typed, pattern), left_over) == ((one,), ())


def test_several_changes_find_a_place_each(pattern: Pattern) -> None:
    several = [Extra("pocket"), Extra("hood"), BodyLength(Length(Fraction(5))), FreeNote("x")]
    typed, left_over = as_typed(several, pattern, "3")
    assert set(read_again(typed, pattern)) == set(several)
    assert left_over == ()


def test_what_has_no_field_is_left_over_and_not_lost(pattern: Pattern) -> None:
    third, back_alone = Extra("cord"), WorkedInHalves(("back",))
    _, left_over = as_typed([Extra("pocket"), Extra("hood"), third, back_alone], pattern, "3")
    assert left_over == (third, back_alone)


@pytest.mark.parametrize(
    ("amount", "text"),
    [("5", "5"), ("5/2", "2.5"), ("1/3", "1/3"), ("67/3", "22 1/3"), ("45/8", "5.625")],
)
def test_an_amount_is_written_exactly(amount: str, text: str) -> None:
    assert number_text(Fraction(amount)) == text
