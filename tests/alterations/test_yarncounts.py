"""Yarn counts. The vectors were worked by hand from the exact pound and yard; pint, which knows
nothing of this library, is asked the same."""

import doctest
from collections.abc import Iterator
from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from alterations import countsystems, yarncounts
from alterations.errors import UnitError
from alterations.rounding import Exact, round_half_up
from alterations.yarn import tex_of_ball
from alterations.yarncounts import (
    SYSTEMS,
    from_tex,
    held_together_tex,
    metres_per_50_g,
    metres_per_100_g,
    plied_tex,
    read_count,
    system_named,
    to_tex,
    yards_per_ounce,
    yards_per_pound,
)


def decimals(value: Exact, places: int) -> Fraction:
    return Fraction(round_half_up(value * 10**places), 10**places)


def shown(value: Fraction, like: str) -> Fraction:
    """The value with as many decimals as the expected text has."""
    return decimals(value, len(like.partition(".")[2]))


# The constants printed in the scope of ASTM D2260; 256 yd: 1000 · 453.59237 / (256 · 0.9144).
CONSTANTS = {
    "NeC": "590.5412",
    "NeW": "885.8119",
    "NeL": "1653.5155",
    "run": "310.0342",
    "skein": "1937.7135",
    "ypp": "496054.648",
    "Nm": "1000",
}


@pytest.mark.parametrize(("system", "constant"), CONSTANTS.items())
def test_a_count_of_one_is_its_systems_published_constant(system: str, constant: str) -> None:
    assert shown(to_tex(1, system), constant) == Fraction(constant)


# 9 den = 10 dtex = 1 tex.
def test_denier_and_decitex_are_parts_of_tex() -> None:
    assert (to_tex(9, "den"), to_tex(10, "dtex"), to_tex(1, "tex")) == (1, 1, 1)


# T1.1 (2/28 NeW): 28/2 = 14; 885.8119/14; 1000/63.272; 14 · 560 yd; /16.
def test_t1_1_two_plies_of_28_worsted() -> None:
    yarn = read_count("2/28", "NeW")
    assert (yarn.resultant, yards_per_pound(yarn.tex), yards_per_ounce(yarn.tex)) == (14, 7840, 490)
    assert shown(yarn.tex, "63.272") == Fraction("63.272")
    assert shown(from_tex(yarn.tex, "Nm"), "15.805") == Fraction("15.805")
    assert shown(metres_per_100_g(yarn.tex), "1580.5") == Fraction("1580.5")


# T1.2 (2/28 Nm): 1000/14 = 71.429.
def test_t1_2_two_plies_of_28_metric() -> None:
    yarn = read_count("2/28", "Nm")
    assert (yarn.resultant, metres_per_100_g(yarn.tex), metres_per_50_g(yarn.tex)) == (
        14,
        1400,
        700,
    )
    assert shown(yarn.tex, "71.429") == Fraction("71.429")
    assert shown(from_tex(yarn.tex, "NeW"), "12.401") == Fraction("12.401")
    assert shown(yards_per_pound(yarn.tex), "6944.8") == Fraction("6944.8")
    assert shown(yards_per_ounce(yarn.tex), "434.05") == Fraction("434.05")


# T1.3 (28/2 NeC): 590.5412/14; 14 · 840 yd.
def test_t1_3_two_plies_of_28_english_cotton() -> None:
    yarn = read_count("28/2", "NeC")
    assert (yarn.plies, yarn.resultant) == (2, 14)
    assert (yards_per_pound(yarn.tex), yards_per_ounce(yarn.tex)) == (11760, 735)
    assert shown(yarn.tex, "42.182") == Fraction("42.182")
    assert shown(metres_per_100_g(yarn.tex), "2370.7") == Fraction("2370.7")


# T1.4: 1000/14 + 1000/7.5 = 71.4286 + 133.3333.
def test_t1_4_strands_held_together_add_their_tex() -> None:
    held = held_together_tex([read_count("2/28", "Nm").tex, read_count("2/15", "Nm").tex])
    assert shown(held, "204.762") == Fraction("204.762")
    assert shown(from_tex(held, "Nm"), "4.884") == Fraction("4.884")
    assert shown(metres_per_100_g(held), "488.4") == Fraction("488.4")


# T1.5: 50 g = 120 m; 1000 · 50/120.
BALL = {"tex": "416.667", "den": "3750", "Nm": "2.400", "NeW": "2.126", "NeC": "1.417"}


@pytest.mark.parametrize(("system", "count"), {**BALL, "ypp": "1190.5"}.items())
def test_t1_5_a_ball_band_in_every_system(system: str, count: str) -> None:
    assert shown(from_tex(tex_of_ball(50, 120), system), count) == Fraction(count)


def test_t1_5_a_ball_band_in_yards_per_ounce() -> None:
    assert shown(yards_per_ounce(tex_of_ball(50, 120)), "74.41") == Fraction("74.41")


# T1.6: ASTM D2260 prints 19.7 and 15.
def test_t1_6_the_two_conversions_printed_by_astm_d2260() -> None:
    assert shown(from_tex(30, "NeC"), "19.685") == Fraction("19.685")
    assert from_tex(to_tex(10, "NeC"), "NeW") == 15


# 885.8119 / 1000 = 0.8858: 2/28 NeW is 11.4 % finer, 2/28 Nm 12.9 % heavier.
def test_the_system_of_a_fraction_makes_thirteen_per_cent() -> None:
    ratio = read_count("2/28", "Nm").tex / read_count("2/28", "NeW").tex
    assert decimals(ratio, 2) == Fraction("1.13")


@pytest.fixture(scope="module")
def registry() -> Iterator[pint.UnitRegistry]:
    registry: pint.UnitRegistry = pint.UnitRegistry()
    registry.define("worsted_count = 560 * yard / pound = NeW")
    registry.define("linen_lea = 300 * yard / pound = NeL")
    registry.define("woollen_run = 1600 * yard / pound")
    registry.define("yorkshire_skein = 256 * yard / pound")
    registry.define("yards_per_pound = yard / pound")
    with registry.context("textile"):
        yield registry


IN_PINT = {
    "tex": "tex",
    "dtex": "dtex",
    "den": "denier",
    "Nm": "number_meter",
    "NeC": "number_english",
    "NeW": "worsted_count",
    "NeL": "linen_lea",
    "run": "woollen_run",
    "skein": "yorkshire_skein",
    "ypp": "yards_per_pound",
}


def test_every_system_is_compared_with_pint() -> None:
    assert IN_PINT.keys() == SYSTEMS.keys()


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("count", ["0.25", "1", "14", "2400"])
def test_pint_agrees_in_both_directions(
    registry: pint.UnitRegistry, system: str, count: str
) -> None:
    there = registry.Quantity(float(count), IN_PINT[system]).to("tex").magnitude
    back = registry.Quantity(float(count), "tex").to(IN_PINT[system]).magnitude
    found = to_tex(Fraction(count), system), from_tex(Fraction(count), system)
    assert [float(one) for one in found] == pytest.approx([there, back], rel=1e-12)


positive = st.fractions(min_value=0, max_value=10**7).filter(lambda value: value > 0)


@given(positive, st.sampled_from(sorted(SYSTEMS)))
def test_a_count_comes_back_exactly_from_tex(count: Fraction, system: str) -> None:
    assert from_tex(to_tex(count, system), system) == count
    assert to_tex(from_tex(count, system), system) == count


@given(st.integers(2, 12), st.integers(13, 200), st.sampled_from(["Nm", "NeC", "NeW", "NeL"]))
def test_equal_plies_divide_an_indirect_count(plies: int, singles: int, system: str) -> None:
    assert read_count(f"{plies}/{singles}", system).resultant == Fraction(singles, plies)


@given(st.lists(positive, min_size=1, max_size=5))
def test_indirect_counts_of_strands_add_as_their_reciprocals(counts: list[Fraction]) -> None:
    held = from_tex(held_together_tex([to_tex(count, "NeW") for count in counts]), "NeW")
    assert 1 / held == sum(1 / count for count in counts)


READ = [
    ("2/28", 2, "28"),
    ("28/2", 2, "28"),
    ("30/2", 2, "30"),
    (" 2 / 28 ", 2, "28"),
    ("２/２８", 2, "28"),
    ("2⁄28", 2, "28"),
    ("3/9,5", 3, "9.5"),
    ("28", 1, "28"),
    ("2/28 Nm", 2, "28"),
    ("nm 2/28", 2, "28"),
    ("12/13", 12, "13"),
]


@pytest.mark.parametrize(("text", "plies", "singles"), READ)
def test_the_smaller_number_is_the_ply(text: str, plies: int, singles: str) -> None:
    found = read_count(text, "Nm")
    assert (found.plies, found.singles, found.system) == (plies, Fraction(singles), "Nm")


@pytest.mark.parametrize("text", ["2/2", "14/28", "13/13", "1.5/8"])
def test_a_count_that_does_not_tell_its_plies_is_asked_back(text: str) -> None:
    with pytest.raises(UnitError, match="say how many plies"):
        read_count(text, "Nm")


def test_plies_once_said_decide() -> None:
    assert read_count("14/28", "Nm", plies=14).singles == 28
    assert (read_count("8/4", "Nm", plies=8).singles, read_count("28", "Nm", plies=2).plies) == (
        4,
        2,
    )


REFUSED = ["", "/", "2/", "/28", "2/28/3", "two", "NaN", "-2/28", "0/28", "2/0", "½", "2/28 km"]
REFUSED += ["2/28 NeW", "2e3", "9" * 50, "1/0.001", "2/28;DROP", "2\n/x"]


@pytest.mark.parametrize("text", REFUSED)
def test_what_is_no_count_is_refused_in_a_sentence(text: str) -> None:
    with pytest.raises(UnitError, match=r"[a-z].*\.$"):
        read_count(text, "Nm")


@given(st.text(max_size=60), st.sampled_from(sorted(SYSTEMS)))
def test_no_text_brings_anything_but_a_count_or_a_sentence(text: str, system: str) -> None:
    try:
        assert read_count(text, system).tex > 0
    except UnitError as refusal:
        assert str(refusal).endswith(".")


@pytest.mark.parametrize("system", ["", "gauge", "Nmm"])
def test_an_unknown_system_is_refused_with_the_ones_there_are(system: str) -> None:
    with pytest.raises(UnitError, match="choose one of tex, dtex, den, Nm"):
        to_tex(1, system)


def test_a_system_is_known_by_its_names_too() -> None:
    names = ["ne", "Denier", " woollen  run ", "lea", "Cotton", "NEL"]
    found = [system_named(name).symbol for name in names]
    assert found == ["NeC", "den", "run", "NeL", "NeC", "NeL"]


@pytest.mark.parametrize("count", [0, -1])
def test_a_count_of_nothing_is_refused(count: int) -> None:
    with pytest.raises(UnitError, match="above zero"):
        to_tex(count, "Nm")
    with pytest.raises(UnitError, match="above zero"):
        from_tex(count, "Nm")


def test_a_float_is_refused() -> None:
    with pytest.raises(TypeError):
        to_tex(2.5, "Nm")  # type: ignore[arg-type]


def test_no_strands_and_no_plies_are_refused() -> None:
    with pytest.raises(UnitError, match="at least one strand"):
        held_together_tex([])
    with pytest.raises(UnitError, match="at least one ply"):
        plied_tex(Fraction(30), 0)


@pytest.mark.parametrize("module", [yarncounts, countsystems])
def test_the_worked_examples_hold(module: object) -> None:
    assert doctest.testmod(module).failed == 0  # type: ignore[arg-type]
