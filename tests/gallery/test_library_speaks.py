"""The library speaks the language of whoever is looking."""

from fractions import Fraction

from django.utils import translation

from alterations.units import show_cm


def test_numbers_of_the_library_have_the_decimal_mark_of_the_active_language() -> None:
    with translation.override("de"):
        assert show_cm(Fraction("12.5")) == "12,5"
    with translation.override("en-gb"):
        assert show_cm(Fraction("12.5")) == "12.5"
