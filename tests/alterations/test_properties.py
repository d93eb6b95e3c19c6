"""What holds for both patterns whatever was changed, all kinds of alteration together.

A refusal is an answer too, if it is a sentence; everything else that is raised is a bug.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields, is_dataclass
from fractions import Fraction
from itertools import accumulate, pairwise
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from alterations.amounts import net_metres
from alterations.beds import fits
from alterations.caption import caption
from alterations.changes import changes
from alterations.drawing import drawing
from alterations.errors import AlterationsError, ShapingError
from alterations.findings import findings
from alterations.follows import bound_off
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
from alterations.lines import lines, lines_of
from alterations.makingkinds import EXTRA_PARTS
from alterations.outline import area, bands, outline
from alterations.panels import panels_of
from alterations.pattern import EDGES, Follow, Pattern, Piece, Section, number_at, split_address
from alterations.patternfile import read_pattern
from alterations.recalculate import Result, recalculate
from alterations.shaping import event_rows
from alterations.stitches import change_per_event, events_of, odd_stitch, schedule_of
from alterations.units import Length
from alterations.worksheet import as_text, worksheet
from alterations.yarnkinds import MOST_STRANDS

ROOT = Path(__file__).parents[2]
TUNIC = read_pattern(ROOT / "gallery" / "demo" / "ostrimane_tunic.toml")
WAISTCOAT = read_pattern(Path(__file__).parent / "patterns" / "ostrimane_waistcoat.toml")


@dataclass(frozen=True)
class Asked:
    """A garment as somebody may ask for it."""

    pattern: Pattern
    size: str
    alterations: tuple[AnyAlteration, ...]
    gauge: Gauge | None
    needles: int | None


def eighths(least: int, most: int) -> st.SearchStrategy[Fraction]:
    return st.integers(8 * least, 8 * most).map(lambda one: Fraction(one, 8))


# Mostly what a person would do; now and then what nobody would.
cms = st.builds(Length, eighths(-8, 12), st.just("cm"))
inches = st.builds(Length, eighths(-3, 5), st.just("in"))
rows = st.builds(Length, st.integers(-12, 40).map(Fraction), st.just("rows"))
absurd = st.builds(Length, st.fractions(-300, 300, max_denominator=9), st.just("cm"))
lengths = st.one_of(cms, cms, inches, rows, absurd)
widths = st.one_of(cms, cms, inches, absurd)
sizes_of_rib = st.one_of(
    st.builds(Length, eighths(1, 14), st.just("cm")),
    st.builds(Length, st.integers(1, 60).map(Fraction), st.just("rows")),
)
rounds = st.builds(Length, eighths(14, 60), st.just("cm"))


@st.composite
def plausible_gauges(draw: st.DrawFn) -> Gauge:
    stitches = Fraction(draw(st.integers(120, 360)), 10)
    ratio = Fraction(draw(st.integers(110, 160)), 100)
    return Gauge(stitches, stitches * ratio, draw(st.sampled_from(["10cm", "4in", "nominal"])))


gauges = st.none() | plausible_gauges()
swatches = st.builds(
    Swatch,
    st.integers(20, 60),
    eighths(12, 25),
    st.integers(30, 80),
    eighths(12, 25),
    st.none() | eighths(5, 60),
)
amounts = st.integers(10, 400).map(Fraction)
keeping = st.sampled_from(["measurements", "counts"])
strands = st.builds(
    Strand, st.sampled_from(["Fennimoor Plain", "Kelvarrick Cotton"]), amounts, amounts
)


def yarns() -> st.SearchStrategy[AnyAlteration]:
    name, ball = st.just("Kelvarrick Cotton"), st.none() | amounts
    return st.one_of(
        st.builds(YarnSwap, name, ball, ball, gauges, keeping),
        st.builds(YarnSwap, name, ball, ball, st.none(), keeping, swatches),
        st.builds(
            StrandsTogether,
            st.lists(strands, min_size=2, max_size=MOST_STRANDS).map(tuple),
            gauges,
            keeping,
        ),
    )


def kinds_for(pattern: Pattern) -> st.SearchStrategy[AnyAlteration]:
    """Every kind, at the places the pattern has and at a few it has not."""
    pieces = [piece.key for piece in pattern.sizes[0].pieces]
    places = [f"{p.key}.{s.key}" for p in pattern.sizes[0].pieces for s in p.sections]
    parts = [s.part for p in pattern.sizes[0].pieces for s in p.sections if s.part]
    edges = [p.sections[0].part or p.key for p in pattern.sizes[0].pieces]
    where = st.sampled_from([*places, *pieces, *parts, "collar"])
    named = st.lists(st.sampled_from(pieces), max_size=2, unique=True).map(tuple)
    counts = st.integers(0, 200)
    return st.one_of(
        st.builds(BodyLength, lengths),
        st.builds(SleeveLength, lengths),
        st.builds(ArmholeDepth, lengths),
        st.builds(NeckDepth, lengths),
        st.builds(OtherHeight, widths),
        st.builds(PartLength, where, lengths),
        st.builds(BodyWidth, widths, st.sampled_from(["underarm", "shoulders"])),
        st.builds(NeckWidth, widths),
        st.builds(SleeveWidth, rounds),
        st.builds(SleeveGirth, widths.filter(lambda one: one.amount >= 0), st.just("gathers")),
        st.builds(SleeveGirth, widths),
        st.builds(BellSleeve, rounds, sizes_of_rib),
        st.builds(
            OtherEdge,
            st.sampled_from([*edges, *pieces]),
            st.sampled_from([*EDGES]),
            st.none() | sizes_of_rib,
            st.booleans(),
        ),
        st.builds(OtherEdge, st.sampled_from(edges), st.just(""), sizes_of_rib, st.booleans()),
        st.builds(WorkedInHalves, st.just(()) | named),
        st.builds(WorkedInPanels, st.just(()) | named),
        yarns(),
        st.builds(Extra, st.sampled_from(EXTRA_PARTS), st.booleans(), st.just("in plain words")),
        st.builds(OwnFigure, st.sampled_from(places), counts, st.none() | counts),
        st.builds(FreeNote, st.just("a pocket on the left")),
    )


@st.composite
def asked_for(draw: st.DrawFn) -> Asked:
    pattern = draw(st.sampled_from([TUNIC, WAISTCOAT]))
    return Asked(
        pattern,
        draw(st.sampled_from(pattern.size_names)),
        tuple(draw(st.lists(kinds_for(pattern), max_size=5))),
        draw(gauges),
        draw(st.none() | st.integers(80, 200)),
    )


def made(asked: Asked, alterations: Sequence[AnyAlteration] | None = None) -> Result | None:
    """The result, or None where it is refused in a sentence."""
    given_ones = asked.alterations if alterations is None else alterations
    try:
        return recalculate(
            asked.pattern, asked.size, given_ones, asked.gauge, needles=asked.needles
        )
    except AlterationsError as refusal:
        assert str(refusal).endswith(".")
        return None


garments = asked_for().map(made).filter(lambda one: one is not None)


def panels(result: Result) -> Iterator[tuple[Piece, Piece]]:
    """Each piece as made with each of its panels."""
    for piece in result.after.size.pieces:
        for panel in panels_of(piece):
            yield piece, panel


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


@given(st.sampled_from([TUNIC, WAISTCOAT]), st.data())
def test_what_changes_no_number_gives_the_pattern_itself(pattern: Pattern, data: st.DataObject):
    size = data.draw(st.sampled_from(pattern.size_names))
    words = st.sampled_from([FreeNote("longer cord"), Extra("pocket"), OwnFigure("back.hem", 18)])
    result = recalculate(pattern, size, data.draw(st.lists(words, max_size=3)), pattern.gauge)
    assert result.after == result.before
    assert result.after.size is pattern.size(size)
    assert result.after.amount.metres == pattern.size(size).metres


@given(asked_for(), st.randoms(use_true_random=False))
def test_the_order_of_alterations_plays_no_part(asked: Asked, chance) -> None:
    mixed = list(asked.alterations)
    chance.shuffle(mixed)
    one, other = made(asked), made(asked, mixed)
    assert (one and one.after) == (other and other.after)


@given(garments)
def test_every_garment_can_be_told_in_every_way(result: Result) -> None:
    assert caption(result).startswith("Size ")
    assert all(found.sentence.endswith((".", "?")) for found in findings(result))
    assert len(changes(result)) >= 0 and as_text(worksheet(result))
    for unit in ("cm", "in", "both"):
        assert all(line.what for line in lines(result, unit))
    for one in result.alterations:
        assert all(line.what for line in lines_of(result, one))


@given(garments)
def test_every_piece_can_be_drawn(result: Result) -> None:
    for piece in result.after.size.pieces:
        assert drawing(result, piece.key).endswith("</svg>")


@given(asked_for())
def test_every_kind_is_stored_and_read_back(asked: Asked) -> None:
    assert tuple(from_plain(*to_plain(one)) for one in asked.alterations) == asked.alterations


# ---- counts ----


@given(garments)
def test_each_section_goes_on_with_the_stitches_of_the_one_below(result: Result) -> None:
    for piece, panel in panels(result):
        for one in (piece, panel):
            assert all(below.end == above.start for below, above in pairwise(one.sections))


@given(garments)
def test_every_panel_is_cast_on_to_its_edge(result: Result) -> None:
    for piece, panel in panels(result):
        assert panel.cast_on % piece.edge.multiple == piece.edge.remainder % piece.edge.multiple


@given(garments)
def test_the_row_above_the_edge_only_ever_adds_less_than_a_repeat(result: Result) -> None:
    for piece, panel in panels(result):
        for section in panel.sections:
            if section.shape == "across":
                assert 0 <= section.end - section.start < piece.edge.multiple


@given(garments)
def test_panels_less_their_seams_are_the_whole(result: Result) -> None:
    for piece in result.after.size.pieces:
        parts = panels_of(piece)
        for section in above_edge_to_neck(piece):
            ends = [one.section(section.key).end for one in parts if has(one, section.key)]
            if len(ends) == len(parts):
                assert sum(ends) - 2 * (len(parts) - 1) == section.end


def has(piece: Piece, key: str) -> bool:
    return any(one.key == key for one in piece.sections)


def above_edge_to_neck(piece: Piece) -> Iterator[Section]:
    above = False
    for section in piece.sections:
        above = above or section.shape == "across"
        if section.shape in ("held", "neck"):
            return
        if above:
            yield section


@given(garments)
def test_slopes_and_necks_take_the_stitches_they_should(result: Result) -> None:
    for _, panel in panels(result):
        for one in panel.sections:
            if one.shape == "held":
                assert one.edges * sum(one.groups) == one.start - one.end
            if one.shape == "neck":
                assert one.centre + one.edges * sum(one.steps) == one.start - one.end


@given(garments)
def test_no_stitch_is_negative_and_none_is_lost(result: Result) -> None:
    for _, panel in panels(result):
        assert all(min(one.start, 1 + one.end, 1 + one.rows) > 0 for one in panel.sections)


# ---- schedules ----


@given(garments)
def test_every_schedule_is_the_even_spacing_and_adds_up(result: Result) -> None:
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
def test_lengths_are_what_was_wished_for_within_a_row(result: Result) -> None:
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
def test_a_deeper_edge_is_as_deep_as_was_wished_for_within_a_row(result: Result) -> None:
    for one in result.alterations:
        if isinstance(one, OtherEdge) and one.depth and one.depth.unit == "cm":
            for piece in result.after.size.pieces:
                first = piece.sections[0]
                longer = result.wish.longer.get(f"{piece.key}.{first.key}", Fraction(0))
                if one.where in (piece.key, first.part):
                    worked = result.gauges.rows_per_cm(first.fabric)[1]
                    assert abs(first.rows_seen - (one.depth.amount + longer) * worked) <= 1


@given(garments)
def test_widths_are_what_was_wished_for_within_a_stitch(result: Result) -> None:
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
        if above:
            yield old, piece.section(old.key), wider


@given(garments)
def test_the_area_of_the_sections_is_the_area_of_the_outline(result: Result) -> None:
    for piece in result.after.size.pieces:
        found = bands(result.pattern, piece, result.after.gauge)
        assert sum(band.area for band in found) == area(outline(found))


# ---- what belongs together ----


@given(garments)
def test_front_and_back_have_the_same_rows_where_they_are_joined(result: Result) -> None:
    after = result.after.size
    for rule in result.pattern.follows:
        if rule.rule == "same":
            assert number_at(after, rule.what) == number_at(after, rule.of[0])
        if rule.rule == "rest":
            whole, *others = (number_at(after, one) for one in rule.of)
            assert number_at(after, rule.what) == whole - sum(others)


@given(garments)
def test_the_sleeve_top_lies_along_both_armholes_within_a_stitch(result: Result) -> None:
    if result.pattern is WAISTCOAT or result.keeps_counts or result.wish.gathers:
        return
    after, gauge = result.after.size, result.after.gauge
    armholes = sum(
        number_at(after, f"{one}.rows") for one in ("back.armhole", "front.armhole", "front.neck")
    )
    top = number_at(after, "sleeve.taper.stitches") - 2
    assert abs(top - armholes * gauge.stitches_per_cm / gauge.rows_per_cm) <= 1


@given(garments)
def test_the_straight_rows_lie_along_the_notch_within_a_row(result: Result) -> None:
    if result.pattern is WAISTCOAT or result.keeps_counts:
        return
    after, gauge = result.after.size, result.after.gauge
    notch = bound_off(after.piece("back").section("notch")) - 1
    straight = number_at(after, "sleeve.straight.rows")
    assert abs(straight - notch / gauge.stitches_per_cm * gauge.rows_per_cm) <= 1


@given(garments)
def test_the_shoulders_of_front_and_back_are_alike(result: Result) -> None:
    after = result.after.size
    back, front = (after.piece(one).section("shoulders") for one in ("back", "front"))
    assert back.groups == front.groups


# ---- yarn ----


@given(garments)
def test_yarn_is_bought_in_tens_of_metres_and_whole_balls(result: Result) -> None:
    amount = result.after.amount
    for one in (*amount.strands, *(() if amount.strands else (amount,))):
        assert one.metres >= 0 and one.metres % 10 == 0
        assert one.balls * one.yarn.ball_metres >= one.metres


@given(garments)
def test_no_number_anywhere_is_a_float(result: Result) -> None:
    assert not list(floats_in(result))
    assert not list(floats_in((changes(result), findings(result))))


def floats_in(value: object) -> Iterator[object]:
    """Every float inside, all fields of all dataclasses walked."""
    if isinstance(value, float):
        yield value
    elif is_dataclass(value) and not isinstance(value, type):
        for field in fields(value):
            yield from floats_in(getattr(value, field.name))
    elif isinstance(value, dict):
        yield from floats_in((tuple(value), tuple(value.values())))
    elif isinstance(value, tuple | list | set | frozenset):
        for one in value:
            yield from floats_in(one)


# ---- the identities of the tunic's sizes, after any change ----
# Those of cast-on, of groups and neck, of sleeve top and notch and of the half width stand above,
# for both patterns. Two cannot hold after every change: "every piece fits the bed" becomes a
# finding, and "metres are at least the net metres and 8 %" belongs to the pattern's own gauge, as
# the yarn at another gauge is scaled and not counted.


@given(garments)
def test_notches_shoulders_and_neck_are_the_body(result: Result) -> None:
    back = result.after.size.piece("back")
    narrowing = [one for one in back.sections if one.key not in ("hem", "correction")]
    lost = sum(one.start - one.end for one in narrowing if one.shape in ("edges", "spread"))
    shoulders, opening = back.section("shoulders"), 0
    if has(back, "neck"):
        opening = back.section("neck").start - back.section("neck").end
    held = 2 * sum(shoulders.groups)
    assert lost + held + opening + shoulders.end == back.section("correction").end


@given(garments)
def test_the_tunics_counts_stay_even(result: Result) -> None:
    if result.pattern is WAISTCOAT:
        return
    after = result.after.size
    counts = ("back.correction", "back.armhole", "sleeve.correction", "sleeve.taper")
    assert not [one for one in counts if number_at(after, f"{one}.stitches") % 2]
    assert not [one for piece in after.pieces for one in piece.sections[1:] if one.rows % 2]


@given(garments)
def test_a_half_is_half_the_body_and_a_stitch_for_the_seam(result: Result) -> None:
    back = result.after.size.piece("back")
    if back.panels != 2 or result.pattern is WAISTCOAT:
        return
    half, _ = panels_of(back)
    notch, shoulders = half.section("notch"), half.section("shoulders")
    assert 2 * half.section("correction").end - 2 == back.section("correction").end
    assert notch.end == back.section("notch").end // 2 + 1
    assert notch.end == sum(shoulders.groups) + back.section("shoulders").end // 2 + 1


@given(garments)
def test_a_piece_wider_than_the_bed_is_a_finding(result: Result) -> None:
    told = {one.where for one in findings(result) if one.code == "bed"}
    for piece in result.after.size.pieces:
        widest = max(panel.widest for panel in panels_of(piece))
        wide = result.needles is not None and not fits(widest, result.needles)
        assert (piece.key in told) is wide


@given(garments)
def test_at_its_own_gauge_the_yarn_covers_every_stitch_and_the_allowance(result: Result) -> None:
    if not result.after.gauge.same_fabric(result.pattern.gauge) or result.swap:
        return
    net = net_metres(result.pattern, result.after.size)
    assert result.after.amount.metres >= Fraction(108, 100) * net


def test_a_number_has_an_address() -> None:
    assert all(
        split_address(rule.what)[2] in ("rows", "stitches")
        for pattern in (TUNIC, WAISTCOAT)
        for rule in pattern.follows
    )
