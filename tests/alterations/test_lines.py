"""Base → made, in words with units."""

from dataclasses import replace
from fractions import Fraction

from alterations.gauge import Gauge
from alterations.kinds import AnyAlteration, BodyLength, SleeveLength, WorkedInHalves, YarnSwap
from alterations.lines import Line, Number, lines
from alterations.pattern import Pattern
from alterations.recalculate import recalculate
from alterations.units import parse_length

COTTON = YarnSwap(
    "Kelvarrick Cotton", Fraction(50), Fraction(95), Gauge(Fraction(19), Fraction(26))
)


def shown(pattern: Pattern, size: str, *given: AnyAlteration) -> dict[str, Line]:
    return {line.what: line for line in lines(recalculate(pattern, size, given))}


def test_nothing_changed_is_nothing_to_show(tunic: Pattern) -> None:
    assert shown(tunic, "3") == {}


# 104 / 2.8 = 37.14 cm; 118 / 2.8 = 42.14 cm.
def test_a_longer_body_is_one_line_for_back_and_front(tunic: Pattern) -> None:
    line = shown(tunic, "3", BodyLength(parse_length("5 cm")))["Back and front: hem to armhole"]
    assert line.numbers == (
        Number("104 rows", "118 rows", "+14 rows"),
        Number("37.1 cm", "42.1 cm", "+5 cm"),
    )


def test_a_shorter_body_has_a_minus(tunic: Pattern) -> None:
    line = shown(tunic, "3", BodyLength(parse_length("-5 cm")))["Back and front: hem to armhole"]
    assert [number.change for number in line.numbers] == ["−14 rows", "−5 cm"]


def test_a_longer_sleeve_says_its_schedule(tunic: Pattern) -> None:
    line = shown(tunic, "3", SleeveLength(parse_length("4 cm")))["Sleeve: taper"]
    assert line.note == (
        "increase one stitch each side every 6 rows 7 times, then every 8 rows 9 times, "
        "then 6 plain rows"
    )


def test_more_yarn_is_shown_in_metres_balls_and_grams(tunic: Pattern) -> None:
    line = shown(tunic, "3", BodyLength(parse_length("5 cm")))["Yarn"]
    assert line.numbers == (
        Number("1200 m", "1270 m", "+70 m"),
        Number("10 balls", "11 balls", "+1 ball"),
        Number("500 g", "529 g", "+29 g"),
    )


def test_another_yarn_is_named(tunic: Pattern) -> None:
    assert shown(tunic, "3", COTTON)["Yarn"].note == "Fennimoor Plain → Kelvarrick Cotton"


def test_kept_counts_show_other_centimetres_and_no_other_counts(tunic: Pattern) -> None:
    found = shown(tunic, "3", replace(COTTON, keep="counts"))
    assert found["Finished chest"].numbers == (Number("106.7 cm", "117.9 cm", "+11.2 cm"),)
    assert not any(
        number.base.endswith(("rows", "stitches"))
        for line in found.values()
        for number in line.numbers
    )


def test_halves_say_their_counts(tunic: Pattern) -> None:
    line = shown(tunic, "5", WorkedInHalves())["Back and front: in two halves"]
    assert line.note == (
        "worked in two halves of 69 and 69 stitches, cast on 68 and 68, with a seam between"
    )
