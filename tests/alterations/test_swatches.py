"""A swatch counted over any length, washed or not yet, and the needles it is knitted on."""

from fractions import Fraction

import pytest

from alterations.errors import AlterationsError
from alterations.findings import findings
from alterations.kinds import YarnSwap
from alterations.pattern import Pattern
from alterations.recalculate import recalculate
from alterations.swatches import Swatch, swatch_from
from alterations.worksheet import worksheet

COUNTED = {"counted_stitches": "40", "counted_rows": "56"}
OVER_20_CM = {**COUNTED, "counted_over": "20", "counted_high": "20"}


def read(**fields: str) -> Swatch:
    found = swatch_from(fields)
    assert found is not None
    return found


# 7 7/8 in are 20.0025 cm.
def test_lengths_may_be_inches() -> None:
    inches = read(**COUNTED, counted_over="7 7/8 in", counted_high='7 7/8"')
    assert inches.gauge == read(**OVER_20_CM).gauge


# Reference example T4.3 with whole counts: 28 rows before, −5 % in length: 29.474, one decimal.
def test_what_washing_did_is_counted_in() -> None:
    swatch = read(**OVER_20_CM, wash_length="-5")
    assert (swatch.gauge.stitches, swatch.gauge.rows) == (20, Fraction("29.5"))
    assert swatch_from(swatch.plain()) == swatch


WRONG = [
    ({**COUNTED, "counted_over": "20 rows", "counted_high": "20"}, "in cm or inches"),
    ({**COUNTED, "counted_over": "20"}, "needs its stitches"),
    ({"wash_width": "-3"}, "needs its stitches"),
    ({**OVER_20_CM, "wash_width": "-80"}, "at most 50 per cent"),
    ({**OVER_20_CM, "wash_length": "a bit"}, "is no number"),
    ({**OVER_20_CM, "counted_over": "0"}, "measure it"),
]


@pytest.mark.parametrize(("fields", "words"), WRONG)
def test_a_swatch_that_cannot_be_read_is_refused_in_words(
    fields: dict[str, str], words: str
) -> None:
    with pytest.raises(AlterationsError, match=words):
        swatch_from(fields)


# T4.3: what measures 60 cm finished measures 60 / 0.95 = 63.2 cm before; here the body.
def test_a_piece_is_measured_before_washing_too(tunic: Pattern) -> None:
    yarn = YarnSwap("Kelvarrick Cotton", swatch=Swatch(42, 20, 56, 20, wash_length=Fraction(-5)))
    steps = worksheet(recalculate(tunic, "3", [yarn])).pieces[0].instructions
    told = next(one.text for one in steps if one.text.startswith("Hem to armhole"))
    assert "long when washed" in told and told.rstrip(".").endswith("before")


def codes(pattern: Pattern, size: str, **bed: object) -> set[str]:
    return {one.code for one in findings(recalculate(pattern, size, **bed))}  # type: ignore[arg-type]


# Size 5 takes 136 needles: 200 hold it, every second one of them (100) does not.
def test_thick_yarn_has_half_the_bed(tunic: Pattern) -> None:
    assert "bed" not in codes(tunic, "5", needles=200)
    result = recalculate(tunic, "5", needles=200, every_second=True)
    assert result.needles == 100 and "bed" in {one.code for one in findings(result)}


# Size 5 is cast on with 134 stitches for its rib; on two beds these take 135 needles.
@pytest.mark.parametrize(("needles", "is_told"), [(134, True), (136, False)])
def test_a_rib_on_two_beds_takes_the_end_needle_too(
    tunic: Pattern, needles: int, is_told: bool
) -> None:
    assert ("double rib" in codes(tunic, "5", needles=needles, double_bed=True)) is is_told
    assert "double rib" not in codes(tunic, "5", needles=needles)
