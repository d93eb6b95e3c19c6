"""Lengths as people type them, and as they are shown."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from alterations.errors import UnitError
from alterations.plainfields import exactly
from alterations.units import Length, parse_length, parse_number, show_cm, show_in

READ = [
    ("12,5 cm", "12.5", "cm"),
    ("12.5", "12.5", "cm"),
    ("5¾ in", "5.75", "in"),
    ('1/2"', "0.5", "in"),
    ("1 1/2 inches", "1.5", "in"),
    ("１２ cm", "12", "cm"),  # full-width digits
    ("−4", "-4", "cm"),
    ("+ 5 CM", "5", "cm"),
    ("14 rows", "14", "rows"),
    ("120 mm", "12", "cm"),
    (",5", "0.5", "cm"),
]


@pytest.mark.parametrize(("text", "amount", "unit"), READ)
def test_a_length_is_read_as_it_was_meant(text: str, amount: str, unit: str) -> None:
    assert parse_length(text) == Length(Fraction(amount), unit)  # type: ignore[arg-type]


REFUSED = ["", "  ", "NaN", "inf", "1e3", "5 km", "5 kilometres", "five", "5 cm 3", "--5", "1/0 in"]
REFUSED += ["301 cm", "119 in", "1.5 rows", "3001 rows", "5 in cm", "9" * 60, "5;DROP"]


@pytest.mark.parametrize("text", REFUSED)
def test_what_is_no_length_of_a_garment_is_refused_in_a_sentence(text: str) -> None:
    with pytest.raises(UnitError, match=r"[a-z].*\.$"):
        parse_length(text)


def test_a_length_below_zero_is_refused_where_none_can_be() -> None:
    with pytest.raises(UnitError, match="without a minus"):
        parse_length("-3 cm", signed=False)


def test_a_bare_number_takes_the_default_unit() -> None:
    assert parse_length("2", "in") == Length(Fraction(2), "in")


@pytest.mark.parametrize("text", ["nan", "1e9", "x", "", "3 cm"])
def test_what_is_no_number_is_refused(text: str) -> None:
    with pytest.raises(UnitError, match="is no number"):
        parse_number(text)


# 1 in = 2.54 cm exactly.
def test_inches_become_centimetres_exactly() -> None:
    assert Length(Fraction(2), "in").in_cm(Fraction("2.8")) == Fraction("5.08")


# 106.667 / 2.54 = 41.995, to the quarter 42; 96 / 2.54 = 37.795, to the quarter 37¾.
def test_inches_are_shown_to_the_quarter() -> None:
    assert (show_in(Fraction(320, 3)), show_in(96)) == ("42", "37¾")


def test_centimetres_are_shown_to_the_half() -> None:
    assert (show_cm(Fraction("63.14")), show_cm(Fraction("-0.2"))) == ("63", "0")


@given(st.fractions(-300, 300, max_denominator=400))
def test_a_length_written_out_exactly_is_read_back(amount: Fraction) -> None:
    assert parse_length(exactly(Length(amount))) == Length(amount)


@given(st.text(max_size=60))
def test_no_text_whatever_brings_anything_but_a_length_or_a_sentence(text: str) -> None:
    try:
        assert isinstance(parse_length(text), Length)
    except UnitError as refusal:
        assert str(refusal).endswith(".")
