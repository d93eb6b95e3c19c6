"""What holds for both patterns after any changes of any kind that are not refused."""

from collections import Counter
from dataclasses import fields, is_dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from alterations.caption import caption
from alterations.changes import changes
from alterations.drawing import drawing
from alterations.errors import AlterationsError, ShapingError
from alterations.findings import findings
from alterations.garmentcautions import cautions_of
from alterations.gauge import Gauge
from alterations.kinds import (
    AnyAlteration,
    ArmholeDepth,
    BellSleeve,
    BodyLength,
    BodyWidth,
    Extra,
    FreeNote,
    NeckDepth,
    NeckWidth,
    OtherEdge,
    OtherHeight,
    OwnFigure,
    PartLength,
    SleeveGirth,
    SleeveLength,
    SleeveWidth,
    Strand,
    StrandsTogether,
    Swatch,
    WorkedInHalves,
    WorkedInPanels,
    YarnSwap,
    from_plain,
    to_plain,
)
from alterations.lines import lines
from alterations.makingkinds import EXTRA_PARTS
from alterations.outline import area, bands, outline
from alterations.panels import panels_of
from alterations.pattern import EDGES, Pattern, Piece, Section
from alterations.patternfile import read_pattern
from alterations.recalculate import Result, recalculate
from alterations.rounding import nearest_even
from alterations.shaping import event_rows
from alterations.stitches import events_of, schedule_of
from alterations.units import Length
from alterations.worksheet import as_text, worksheet

from .conftest import GILET, TUNIC

PATTERNS = {"tunic": read_pattern(TUNIC), "gilet": read_pattern(GILET)}

cm = st.builds(Length, st.fractions(-25, 40, max_denominator=8), st.sampled_from(["cm", "in"]))
some_rows = st.builds(Length, st.integers(-60, 120).map(Fraction), st.just("rows"))
changes_of_length = st.one_of(cm, some_rows)
widths = st.builds(Length, st.fractions(1, 70, max_denominator=8), st.sampled_from(["cm", "in"]))
depths = st.builds(Length, st.integers(1, 60).map(Fraction), st.sampled_from(["cm", "rows"]))
gauges = st.builds(
    Gauge,
    st.integers(120, 400).map(lambda tenths: Fraction(tenths, 10)),
    st.integers(160, 560).map(lambda tenths: Fraction(tenths, 10)),
    st.sampled_from(["10cm", "4in", "nominal"]),
)
swatches = st.builds(
    Swatch,
    st.integers(20, 60),
    st.integers(8, 25).map(Fraction),
    st.integers(20, 90),
    st.integers(8, 25).map(Fraction),
    st.none() | st.integers(4, 60).map(Fraction),
)
balls = st.integers(20, 500).map(Fraction)
strands = st.builds(Strand, st.sampled_from("AB"), balls, balls, st.integers(1, 2))
places = st.sampled_from(
    ["back", "back.body", "front.body", "back.hem", "sleeve.taper", "back.waist", "front.neck"]
)
keeps = st.sampled_from(["measurements", "counts"])
one_change = st.one_of(
    st.builds(BodyLength, changes_of_length),
    st.builds(SleeveLength, changes_of_length),
    st.builds(ArmholeDepth, changes_of_length),
    st.builds(NeckDepth, changes_of_length),
    st.builds(OtherHeight, cm),
    st.builds(PartLength, places, changes_of_length),
    st.builds(BodyWidth, cm, st.sampled_from(["underarm", "shoulders"])),
    st.builds(SleeveWidth, widths),
    st.builds(SleeveGirth, cm),
    st.builds(SleeveGirth, widths, st.just("gathers")),
    st.builds(BellSleeve, widths, depths),
    st.builds(NeckWidth, cm),
    st.builds(
        OtherEdge,
        st.sampled_from(["hem", "cuff", "neckband", "back", "front band"]),
        st.sampled_from(list(EDGES)),
        st.none() | depths,
        st.booleans(),
    ),
    st.builds(YarnSwap, st.just("K"), balls, balls, st.none() | gauges, keeps),
    st.builds(YarnSwap, st.just("K"), balls, balls, st.none(), keeps, swatches),
    st.builds(
        StrandsTogether, st.lists(strands, min_size=2, max_size=2).map(tuple), st.none() | gauges
    ),
    st.just(WorkedInHalves()),
    st.just(WorkedInPanels()),
    st.builds(Extra, st.sampled_from(EXTRA_PARTS), st.booleans(), st.just("on the left")),
    st.builds(OwnFigure, places, st.integers(0, 300), st.none() | st.integers(0, 300)),
    st.just(FreeNote("longer in the cuff")),
)
some_changes = st.lists(one_change, max_size=5)
patterns = st.sampled_from(sorted(PATTERNS))


def result_of(which: str, at: int, given_changes: list[AnyAlteration]) -> Result:
    """The garment, or the example is passed over where it is refused in a sentence."""
    pattern = PATTERNS[which]
    name = pattern.size_names[at % len(pattern.size_names)]
    try:
        return recalculate(pattern, name, given_changes)
    except AlterationsError as refusal:
        assert str(refusal).endswith((".", "?")), str(refusal)
        assume(False)
        raise


sizes = st.integers(0, 7)
garments = st.builds(result_of, patterns, sizes, some_changes)


def all_panels(result: Result) -> list[Piece]:
    return [panel for piece in result.after.size.pieces for panel in panels_of(piece)]


def all_sections(result: Result) -> list[Section]:
    return [section for panel in all_panels(result) for section in panel.sections]


@given(garments)
def test_each_section_starts_where_the_one_below_ended(result: Result) -> None:
    for piece in (*result.after.size.pieces, *all_panels(result)):
        assert all(low.end == high.start for low, high in pairwise(piece.sections))


@given(garments)
def test_every_panel_is_cast_on_to_its_edge_and_never_above_its_target(result: Result) -> None:
    for panel in all_panels(result):
        edge = panel.edge
        assert panel.cast_on % edge.multiple == edge.remainder % edge.multiple
        across = [one for one in panel.sections if one.shape == "across"][:1]
        assert all(0 <= one.end - one.start < edge.multiple for one in across)


@given(garments)
def test_panels_without_their_seam_stitches_are_the_whole(result: Result) -> None:
    for piece in result.after.size.pieces:
        panels = panels_of(piece)
        for key in ("correction", "body", "waist"):
            found = [one for panel in panels for one in panel.sections if one.key == key]
            if len(found) == len(panels):
                whole = piece.section(key).end
                assert sum(one.end for one in found) - 2 * (len(panels) - 1) == whole


@given(garments)
def test_schedules_add_up_and_are_spread_evenly(result: Result) -> None:
    for section in all_sections(result):
        if section.shape != "spread":
            continue
        try:
            schedule = schedule_of(section)
        except ShapingError:
            continue
        events = events_of(section)
        assert (schedule.rows, schedule.events) == (section.rows, events)
        unit = 1 if section.rhythm == "any row" else 2
        free = section.rows - min(section.plain_end, section.rows)
        rows = (0, *event_rows(free // unit, events)) if events else (0,)
        gaps = Counter(unit * (b - a) for a, b in pairwise(rows))
        assert Counter(schedule.intervals) == gaps


@given(garments)
def test_what_is_held_and_bound_off_is_all_that_goes(result: Result) -> None:
    for piece in result.after.size.pieces:
        for one in piece.sections:
            if one.shape == "held":
                assert one.edges * sum(one.groups) == one.start - one.end
            if one.shape == "neck":
                assert one.centre + one.edges * sum(one.steps) == one.start - one.end


@given(garments)
def test_rows_are_even_where_the_machine_wants_them_even(result: Result) -> None:
    if result.pattern.even_rows:
        given_rows = any(
            isinstance(one, OtherEdge) and one.depth and one.depth.unit == "rows"
            for one in result.alterations
        )
        for piece in result.after.size.pieces:
            for section in piece.sections:
                is_edge = section.key == piece.sections[0].key
                assert section.rows % 2 == 0 or (is_edge and given_rows)


@given(garments)
def test_front_and_back_have_the_same_rows(result: Result) -> None:
    """Front and back have the same rows, whatever was changed."""
    size = result.after.size
    for follow in result.pattern.follows:
        if follow.rule == "same" and follow.what.endswith("rows"):
            (mine, key), (theirs, other) = (
                address.split(".")[:2] for address in (follow.what, follow.of[0])
            )
            assert size.piece(mine).section(key).rows == size.piece(theirs).section(other).rows


@given(garments)
def test_a_sleeve_top_is_as_wide_as_both_armholes_or_it_is_told(result: Result) -> None:
    """Within one stitch; at another gauge with the counts kept all stays in proportion instead."""
    found = {one.key: one.cm for one in result.after.measures}
    if "sleeve_top" in found and not result.keeps_counts:
        off = abs(found["sleeve_top"] - 2 * found["armhole_depth"])
        told = {"fit", "gathers"} & {one.code for one in findings(result)}
        assert off * result.after.gauge.stitches_per_cm <= 1 or told


@given(garments)
def test_straight_rows_are_as_long_as_the_notch_is_wide(result: Result) -> None:
    found = {one.key: one.cm for one in result.after.measures}
    if "notch_width" in found and not result.keeps_counts:
        rows = result.after.size.piece("sleeve").section("straight").rows
        assert abs(rows - found["notch_width"] * result.after.gauge.rows_per_cm) <= 1


@given(garments)
def test_a_drawing_encloses_exactly_its_sections(result: Result) -> None:
    for piece in result.after.size.pieces:
        found = bands(result.pattern, piece, result.after.gauge)
        assert area(outline(found)) == sum((band.area for band in found), Fraction(0))
        assert drawing(result, piece.key).count("<svg") == 1


@given(garments)
def test_the_yarn_is_enough(result: Result) -> None:
    for amount in result.after.amount.strands or (result.after.amount,):
        assert amount.metres % 10 == 0 and amount.metres > 0
        assert amount.balls * amount.yarn.ball_metres >= amount.metres
        assert amount.grams > 0


@given(garments)
def test_everything_that_is_told_can_be_told(result: Result) -> None:
    assert caption(result).startswith("Size ")
    assert all(one.sentence for one in findings(result))
    assert all(one.before != one.after for one in changes(result))
    assert len(lines(result)) <= len(lines(result, "both"))
    assert all(one.sentence for one in cautions_of(result))
    assert result.pattern.name in as_text(worksheet(result))


def _floats(value: Any) -> list[Any]:
    if isinstance(value, float):
        return [value]
    if is_dataclass(value) and not isinstance(value, type):
        return [one for each in fields(value) for one in _floats(getattr(value, each.name))]
    if isinstance(value, dict):
        return [one for each in value.values() for one in _floats(each)]
    if isinstance(value, tuple | list | frozenset):
        return [one for each in value for one in _floats(each)]
    return []


@given(garments)
def test_no_float_is_anywhere_in_a_garment(result: Result) -> None:
    assert _floats((result.after, result.before, result.wish, result.alterations)) == []
    assert _floats((changes(result), findings(result))) == []


@given(patterns, sizes, some_changes, st.randoms(use_true_random=False))
def test_the_order_of_changes_plays_no_part(
    which: str, at: int, given_changes: list[AnyAlteration], random: Any
) -> None:
    result = result_of(which, at, given_changes)
    mixed = list(given_changes)
    random.shuffle(mixed)
    other = result_of(which, at, mixed)
    assert (other.after.size, other.after.amount) == (result.after.size, result.after.amount)


@given(patterns, sizes)
def test_nothing_changed_is_the_base_exactly(which: str, at: int) -> None:
    result = result_of(which, at, [])
    assert result.after == result.before and result.after.size is result.before.size
    assert (changes(result), lines(result)) == ((), ())


@given(one_change)
def test_every_change_is_written_and_read_again(one: AnyAlteration) -> None:
    assert from_plain(*to_plain(one)) == one


@given(patterns, sizes, gauges)
def test_at_another_gauge_widths_and_lengths_stay_within_a_stitch_and_a_row(
    which: str, at: int, gauge: Gauge
) -> None:
    """Two stitches and two rows where a count keeps its parity or the machine's even rows; a sleeve
    top follows the armhole's rows instead of its own width."""
    swap = YarnSwap("K", gauge=gauge)
    result = result_of(which, at, [swap])
    row, stitch = 1 / gauge.rows_per_cm, 1 / gauge.stitches_per_cm
    pairs = zip(result.before.measures, result.after.measures, strict=True)
    rules = {rule.key: rule for rule in result.pattern.measures}
    for before, after in pairs:
        rule = rules[before.key]
        if rule.of == "width" and rule.key != "sleeve_top":
            assert abs(after.cm - before.cm) <= 2 * stitch * len(rule.at)
        if rule.of == "height":
            assert abs(after.cm - before.cm) <= 2 * row * len(rule.at)


@pytest.mark.parametrize("count", [61, 100])
def test_a_hundred_changes_at_once_are_refused_in_a_sentence(tunic: Pattern, count: int) -> None:
    with pytest.raises(AlterationsError, match="at most 60"):
        recalculate(tunic, "3", [BodyLength(Length(Fraction(1)))] * count)


@given(st.integers(2, 400))
def test_halves_minus_their_seams_are_the_whole(stitches: int) -> None:
    body = Section("body", "Body", "plain", stitches, stitches, 10)
    panels = panels_of(Piece("back", "Back", (body,), panels=2))
    assert sum(panel.cast_on for panel in panels) - 2 == stitches


@given(st.fractions(0, 500, max_denominator=100))
def test_the_nearest_even_number_is_within_one(value: Fraction) -> None:
    assert nearest_even(value) % 2 == 0 and abs(nearest_even(value) - value) <= 1
