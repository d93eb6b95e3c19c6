"""What holds for every pattern whatever was changed, all kinds of alteration together."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import accumulate, pairwise
from random import Random

from hypothesis import given
from hypothesis import strategies as st

from alterations.bells import BELL
from alterations.caption import caption
from alterations.changes import changes
from alterations.drawing import drawing
from alterations.errors import ShapingError
from alterations.findings import findings
from alterations.garmentcautions import cautions_of
from alterations.gauge import Gauge
from alterations.kinds import (
    AnyAlteration,
    ArmholeDepth,
    BodyLength,
    BodyWidth,
    Extra,
    FreeNote,
    NeckDepth,
    NeckWidth,
    OtherEdge,
    OwnFigure,
    YarnSwap,
    from_plain,
    to_plain,
)
from alterations.lines import lines, lines_of
from alterations.outline import area, bands, outline
from alterations.panels import panels_of
from alterations.pattern import Follow, Pattern, Piece, Section
from alterations.recalculate import Result, recalculate
from alterations.shaping import event_rows
from alterations.stitches import change_per_event, events_of, odd_stitch, schedule_of
from alterations.units import Length
from alterations.worksheet import as_text, worksheet

from .anything import (
    GILET,
    PATTERNS,
    Asked,
    asked_for,
    cms,
    garments,
    gauges,
    has,
    inches,
    panels,
    plausible_gauges,
    rows,
)


def sections(result: Result) -> Iterator[tuple[str, Section, Section]]:
    """Address, the base's section and the one as made, where both have it."""
    for base, piece in zip(result.before.size.pieces, result.after.size.pieces, strict=True):
        known = {one.key: one for one in base.sections}
        for one in piece.sections:
            if one.key in known:
                yield f"{piece.key}.{one.key}", known[one.key], one


def follow_of(pattern: Pattern, address: str) -> Follow | None:
    return next((one for one in pattern.follows if one.what == address), None)


# ---- nothing changed, and the order of changes ----


same_numbers = st.sampled_from([FreeNote("longer cord"), Extra("pocket"), OwnFigure("back.hem", 9)])


@given(st.sampled_from([*PATTERNS]), st.integers(0, 4), st.lists(same_numbers, max_size=3))
def test_what_changes_no_number_gives_the_pattern_itself(
    name: str, size: int, alterations: list[AnyAlteration]
) -> None:
    pattern = PATTERNS[name]
    result = recalculate(pattern, pattern.size_names[size], alterations, pattern.gauge)
    assert result.after == result.before
    assert result.after.size is pattern.sizes[size]
    assert result.after.amount.metres == pattern.sizes[size].metres


@given(asked_for(), st.randoms(use_true_random=False))
def test_the_order_of_alterations_plays_no_part(asked: Asked, chance: Random) -> None:
    mixed = list(asked.alterations)
    chance.shuffle(mixed)
    one, other = asked.answer, replace(asked, alterations=tuple(mixed)).answer
    assert (one and one.after) == (other and other.after)


opposites: list[tuple[Callable[[Length], AnyAlteration], st.SearchStrategy[Length]]] = [
    (BodyLength, cms | inches | rows),
    (ArmholeDepth, cms | inches | rows),
    (NeckDepth, cms | inches | rows),
    (BodyWidth, cms | inches),
    (NeckWidth, cms | inches),
]
there_and_back = st.sampled_from(opposites).flatmap(
    lambda pair: pair[1].map(lambda one: (pair[0](one), pair[0](Length(-one.amount, one.unit))))
)


@given(st.sampled_from([*PATTERNS]), st.integers(0, 4), there_and_back)
def test_a_change_and_its_opposite_change_nothing(
    name: str, size: int, both: tuple[AnyAlteration, AnyAlteration]
) -> None:
    result = Asked(name, PATTERNS[name].size_names[size], both).answer
    if result is None:  # a part this pattern does not have
        assert (name, type(both[0])) == (GILET.name, NeckDepth)
    else:
        assert result.after == result.before


@given(st.sampled_from([*PATTERNS]), st.integers(0, 4), cms, cms, gauges)
def test_two_changes_of_one_length_are_rounded_once_together(
    name: str, size: int, one: Length, other: Length, gauge: Gauge | None
) -> None:
    pattern, both = PATTERNS[name], Length(one.amount + other.amount)
    made = [
        Asked(name, pattern.size_names[size], changes, gauge).answer
        for changes in ((BodyLength(one), BodyLength(other)), (BodyLength(both),))
    ]
    assert (made[0] and made[0].after) == (made[1] and made[1].after)


@given(st.sampled_from([*PATTERNS]), st.integers(0, 4), plausible_gauges())
def test_the_same_gauge_gives_the_same_counts_however_it_is_told(
    name: str, size: int, gauge: Gauge
) -> None:
    size_name = PATTERNS[name].size_names[size]
    swap = YarnSwap("Kelvarrick Cotton", gauge=gauge)
    own = Asked(name, size_name, (), gauge).answer
    other = Asked(name, size_name, (swap,)).answer
    assert (own and own.after.size) == (other and other.after.size)


@given(garments)
def test_a_change_tells_the_numbers_that_are_there(garment: Asked) -> None:
    result = garment.result
    for one in changes(result):
        if one.unit in ("rows", "stitches"):
            piece, key = one.part.split(".")
            section = result.after.size.piece(piece).section(key)
            counts = (section.rows,) if one.unit == "rows" else (section.start, section.end)
            assert one.before != one.after and one.after in counts


@given(garments)
def test_every_garment_can_be_told_in_every_way(garment: Asked) -> None:
    result = garment.result
    assert caption(result).startswith("Size ")
    assert all(found.sentence.endswith((".", "?")) for found in findings(result))
    assert all(one.delta for one in changes(result))
    assert result.pattern.name in as_text(worksheet(result))
    for unit in ("cm", "in", "both"):
        assert all(line.what for line in lines(result, unit))
    for one in result.alterations:
        assert all(line.what for line in lines_of(result, one))
    assert all(caution.sentence for caution in cautions_of(result))


@given(garments)
def test_every_piece_can_be_drawn(garment: Asked) -> None:
    result = garment.result
    for piece in result.after.size.pieces:
        assert drawing(result, piece.key).endswith("</svg>")


@given(asked_for())
def test_every_kind_is_stored_and_read_back(asked: Asked) -> None:
    assert tuple(from_plain(*to_plain(one)) for one in asked.alterations) == asked.alterations


# ---- counts ----


@given(garments)
def test_each_section_goes_on_with_the_stitches_of_the_one_below(garment: Asked) -> None:
    result = garment.result
    for piece, panel in panels(result):
        for one in (piece, panel):
            assert all(below.end == above.start for below, above in pairwise(one.sections))


@given(garments)
def test_every_panel_is_cast_on_to_its_edge(garment: Asked) -> None:
    result = garment.result
    for piece, panel in panels(result):
        assert panel.cast_on % piece.edge.multiple == piece.edge.remainder % piece.edge.multiple


@given(garments)
def test_the_row_above_the_edge_only_ever_adds_less_than_a_repeat(garment: Asked) -> None:
    result = garment.result
    for piece, panel in panels(result):
        for section in panel.sections:
            if section.shape == "across":
                assert 0 <= section.end - section.start < piece.edge.multiple


@given(garments)
def test_panels_less_their_seams_are_the_whole(garment: Asked) -> None:
    result = garment.result
    for piece in result.after.size.pieces:
        parts = panels_of(piece)
        for section in above_edge_to_neck(piece):
            ends = [one.section(section.key).end for one in parts if has(one, section.key)]
            if len(ends) == len(parts):
                assert sum(ends) - 2 * (len(parts) - 1) == section.end


def above_edge_to_neck(piece: Piece) -> Iterator[Section]:
    above = False
    for section in piece.sections:
        above = above or section.shape == "across"
        if section.shape in ("held", "neck"):
            return
        if above:
            yield section


@given(garments)
def test_slopes_and_necks_take_the_stitches_they_should(garment: Asked) -> None:
    result = garment.result
    for _, panel in panels(result):
        for one in panel.sections:
            if one.shape == "held":
                assert one.edges * sum(one.groups) == one.start - one.end
            if one.shape == "neck":
                assert one.centre + one.edges * sum(one.steps) == one.start - one.end


@given(garments)
def test_no_stitch_is_negative_and_none_is_lost(garment: Asked) -> None:
    result = garment.result
    for _, panel in panels(result):
        assert all(min(one.start, 1 + one.end, 1 + one.rows) > 0 for one in panel.sections)


# ---- schedules ----


@given(garments)
def test_every_schedule_is_the_even_spacing_and_adds_up(garment: Asked) -> None:
    result = garment.result
    for _, panel in panels(result):
        for section in panel.sections:
            if section.shape == "spread":
                check_schedule(section)


def check_schedule(section: Section) -> None:
    try:
        schedule = schedule_of(section)
    except ShapingError as refusal:
        assert str(refusal).endswith(".")
        return
    events, free = events_of(section), section.rows - min(section.plain_end, section.rows)
    assert (schedule.rows, schedule.events) == (section.rows, events)
    pairs = abs(section.end - section.start) // abs(change_per_event(section))
    change = pairs * change_per_event(section) + odd_stitch(section)
    assert section.start + change == section.end
    if events:
        step = 1 if section.rhythm == "any row" else 2
        line = event_rows(free // step, events)
        gaps = [step * (b - a) for a, b in pairwise((0, *line))]
        assert sorted(gaps) == sorted(schedule.intervals)
        assert max(accumulate(schedule.intervals)) <= free


# ---- centimetres ----


@given(garments)
def test_lengths_are_what_was_wished_for_within_a_row(garment: Asked) -> None:
    result = garment.result
    for address, base, section in sections(result):
        rule = follow_of(result.pattern, f"{address}.rows")
        key = address.split(".")[0]
        if not base.rows or (rule and rule.rule != "same") or key in result.wish.edges:
            continue
        leader = rule.of[0].removesuffix(".rows") if rule else address
        wished = result.gauges.rows_cm(base) + result.wish.longer.get(leader, Fraction(0))
        parted = result.after.size.piece(key).parted(section.key)
        worked = result.gauges.rows_per_cm(section.fabric)[1]
        assert abs(sum(one.rows for one in parted) - wished * worked) <= 1


@given(garments)
def test_a_deeper_edge_is_as_deep_as_was_wished_for_within_a_row(garment: Asked) -> None:
    result = garment.result
    for one in result.alterations:
        if isinstance(one, OtherEdge) and one.depth and one.depth.unit == "cm":
            for piece in result.after.size.pieces:
                first = piece.sections[0]
                longer = result.wish.longer.get(f"{piece.key}.{first.key}", Fraction(0))
                if one.where in (piece.key, first.part):
                    worked = result.gauges.rows_per_cm(first.fabric)[1]
                    assert abs(first.rows_seen - (one.depth.amount + longer) * worked) <= 1


@given(garments)
def test_widths_are_what_was_wished_for_within_a_stitch(garment: Asked) -> None:
    result = garment.result
    for base, piece in zip(result.before.size.pieces, result.after.size.pieces, strict=True):
        for old, new, wider in own_widths(result, base, piece):
            measured, worked = result.gauges.stitches_per_cm(new.fabric)
            wished = (old.end - old.seams_at_end) / measured + wider
            address = f"{piece.key}.{new.key}"
            wished = result.wish.widths.get(address, wished)
            assert abs(new.end - new.seams_at_end - wished * worked) <= 1


def own_widths(
    result: Result, base: Piece, piece: Piece
) -> Iterator[tuple[Section, Section, Fraction]]:
    """Sections above the edge whose width is their own, with the cm they were to gain: up to the
    underarm, and up to the first that follows from other pieces."""
    wider, above = Fraction(0), False
    for old in base.sections:
        address = f"{piece.key}.{old.key}"
        rule = follow_of(result.pattern, f"{address}.stitches")
        if old.shape in ("edges", "held", "neck") or (rule and rule.rule != "same"):
            return
        above = above or old.shape == "across"
        leader = rule.of[0].removesuffix(".stitches") if rule else address
        own = result.wish.wider.get(leader)
        wider = own.cm if own else wider
        if above and not has(piece, BELL):  # below a bell everything is as wide as its edge
            yield old, piece.section(old.key), wider


@given(garments)
def test_the_area_of_the_sections_is_the_area_of_the_outline(garment: Asked) -> None:
    result = garment.result
    for piece in result.after.size.pieces:
        found = bands(result.pattern, piece, result.after.gauge)
        assert sum(band.area for band in found) == area(outline(found))
