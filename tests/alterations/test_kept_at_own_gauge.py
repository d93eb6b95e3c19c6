"""A garment knitted in the pattern's yarn at a gauge of one's own: counts kept, or measurements."""

from fractions import Fraction
from pathlib import Path

import pytest

from alterations.__main__ import main
from alterations.findings import findings
from alterations.gauge import Gauge
from alterations.kinds import BodyLength, OwnFigure
from alterations.outcomes import outcome_of
from alterations.pattern import Pattern
from alterations.recalculate import Result, recalculate
from alterations.units import parse_length
from alterations.yarnkinds import Keep

TUNIC = str(Path(__file__).parents[2] / "gallery" / "demo" / "ostrimane_tunic.toml")
HERS = Gauge(Fraction(22), Fraction(30))


def made(pattern: Pattern, keep: Keep, *given: BodyLength | OwnFigure) -> Result:
    return recalculate(pattern, "3", given, HERS, keep=keep)


def codes(result: Result) -> set[str]:
    return {one.code for one in findings(result)}


# By hand: front and back of size 3 show 112 stitches each: 2 · 112 / 2.2 = 101.8 cm.
def test_counts_kept_at_a_tighter_gauge_make_a_smaller_garment(tunic: Pattern) -> None:
    result = made(tunic, "counts")
    chest = result.after.measures[0]
    assert result.after.size == result.before.size
    assert round(float(chest.cm), 1) == 101.8 and "size" in codes(result)
    assert result.after.amount.metres < result.before.amount.metres


def test_measurements_kept_at_it_take_other_counts(tunic: Pattern) -> None:
    result = made(tunic, "measurements")
    assert result.after.size.piece("back").section("body").rows == 112
    assert abs(result.after.measures[0].cm - result.before.measures[0].cm) < 1


def test_a_terminal_tells_the_same(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([TUNIC, "--size", "3", "--gauge", "22/30", "--keep-counts"]) == 0
    assert "Finished chest: 106.7 cm → 101.8 cm" in capsys.readouterr().out


# 104 rows are the pattern's, 112 are its 37.1 cm at 3 rows to the cm.
@pytest.mark.parametrize(("rows", "is_doubted"), [(104, False), (112, False), (108, True)])
def test_own_rows_may_be_the_patterns_or_those_of_its_length(
    tunic: Pattern, rows: int, is_doubted: bool
) -> None:
    result = made(tunic, "counts", OwnFigure("back.body", rows=rows))
    assert ("own rows" in codes(result)) is is_doubted


# 5 cm on her fabric are 15 rows, worked as 16 so that the count stays even.
def test_a_length_is_hers_in_cm(tunic: Pattern) -> None:
    longer = made(tunic, "counts", BodyLength(parse_length("5 cm")))
    assert longer.after.size.piece("back").section("body").rows in (118, 120)


def test_who_kept_the_counts_changed_nothing(tunic: Pattern) -> None:
    assert outcome_of(made(tunic, "counts")).is_unchanged
    assert not outcome_of(made(tunic, "measurements")).is_unchanged
