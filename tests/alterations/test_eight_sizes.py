"""The demo pattern's eight sizes against their machine-readable copy (ostrimane_expected.json),
which a separate script worked out from the wanted centimetres; and the identities of each size."""

import json
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from alterations.amounts import net_metres
from alterations.measures import finished, measure
from alterations.panels import panels_of
from alterations.pattern import Pattern, Piece, Section, Size
from alterations.recalculate import recalculate
from alterations.rounding import round_half_up, to_step
from alterations.stitches import knitted, schedule_of, stitches_in

EXPECTED: dict[str, list[Any]] = json.loads(
    (Path(__file__).parent / "ostrimane_expected.json").read_text(encoding="utf-8")
)
SIZES = range(8)


def back(size: Size, key: str) -> Section:
    return size.piece("back").section(key)


def front(size: Size, key: str) -> Section:
    return size.piece("front").section(key)


def sleeve(size: Size, key: str) -> Section:
    return size.piece("sleeve").section(key)


def half(size: Size) -> Piece:
    """The back as two halves, whether the size is worked so or not."""
    piece = size.piece("back")
    return panels_of(Piece(piece.key, piece.title, piece.sections, 1, piece.edge, 2))[0]


def fabric_of(piece: Piece, fabric: str) -> int:
    parts = (part for panel in panels_of(piece) for part in panel.sections)
    return sum(stitches_in(part) for part in parts if part.fabric == fabric)


def schedule(size: Size) -> list[list[int]]:
    return [[run.every, run.times] for run in schedule_of(sleeve(size, "taper")).runs]


def notch(size: Size) -> int:
    return (back(size, "notch").start - back(size, "notch").end) // 2


COUNTS: dict[str, Callable[[Size], Any]] = {
    "size": lambda size: size.name,
    "to_fit_bust_cm": lambda size: size.to_fit_cm,
    "body_sts": lambda size: back(size, "body").end,
    "body_cast_on": lambda size: size.piece("back").cast_on,
    "body_corr": lambda size: back(size, "correction").end - back(size, "correction").start,
    "panels": lambda size: size.piece("back").panels,
    "half_sts": lambda size: half(size).section("body").end,
    "half_cast_on": lambda size: half(size).cast_on,
    "half_corr": lambda size: half(size).section("body").end - half(size).cast_on,
    "body_rows": lambda size: back(size, "body").rows,
    "arm_rows": lambda size: back(size, "armhole").rows,
    "notch": notch,
    "top_sts": lambda size: back(size, "armhole").end,
    "neck_sts": lambda size: back(size, "shoulders").end,
    "shoulder_sts": lambda size: sum(back(size, "shoulders").groups),
    "shoulder_groups": lambda size: list(back(size, "shoulders").groups),
    "front_centre_bo": lambda size: front(size, "neck").centre,
    "front_side_bo": lambda size: list(front(size, "neck").steps),
    "front_neck_start_row": lambda size: front(size, "armhole").rows,
    "sleeve_top": lambda size: sleeve(size, "taper").end,
    "sleeve_sts": lambda size: sleeve(size, "correction").end,
    "sleeve_cast_on": lambda size: size.piece("sleeve").cast_on,
    "sleeve_corr": lambda size: sleeve(size, "correction").end - sleeve(size, "cuff").end,
    "taper_rows": lambda size: sleeve(size, "taper").rows,
    "sleeve_incs": lambda size: schedule_of(sleeve(size, "taper")).events,
    "sleeve_schedule": schedule,
    "sleeve_notch_rows": lambda size: sleeve(size, "straight").rows,
    "band_sts": lambda size: size.piece("neckband").cast_on,
    "plain_total": lambda size: knitted(size)["plain"],
    "rib_total": lambda size: knitted(size)["rib"],
    "back_plain": lambda size: fabric_of(size.piece("back"), "plain"),
    "front_plain": lambda size: fabric_of(size.piece("front"), "plain"),
    "sleeve_plain": lambda size: fabric_of(size.piece("sleeve"), "plain"),
    "back_rib": lambda size: fabric_of(size.piece("back"), "rib"),
    "sleeve_rib": lambda size: fabric_of(size.piece("sleeve"), "rib"),
    "band_total": lambda size: fabric_of(size.piece("neckband"), "rib"),
    "metres": lambda size: size.metres,
}
MEASURES = {
    "half_width_cm": "half_width",
    "chest_cm": "chest",
    "hem_to_underarm_cm": "hem_to_underarm",
    "armhole_cm": "armhole_depth",
    "length_tip_cm": "length",
    "length_neck_cm": "full_length",
    "cross_cm": "cross_back",
    "notch_cm": "notch_width",
    "neck_cm": "neck_width",
    "shoulder_cm": "shoulder_width",
    "sleeve_top_cm": "sleeve_top",
    "wrist_cm": "wrist",
    "sleeve_under_cm": "sleeve_seam",
    "sleeve_len_cm": "sleeve_length",
    "front_neck_depth_cm": "neck_depth",
}
YARN = {"metres_net", "balls", "grams"}


def test_nothing_in_the_expected_numbers_is_left_unread() -> None:
    assert set(EXPECTED) == set(COUNTS) | set(MEASURES) | YARN


@pytest.mark.parametrize("key", COUNTS)
def test_a_count_is_right_in_all_eight_sizes(tunic: Pattern, key: str) -> None:
    assert [COUNTS[key](size) for size in tunic.sizes] == EXPECTED[key]


@pytest.mark.parametrize("key", MEASURES)
def test_a_measurement_is_right_in_all_eight_sizes(tunic: Pattern, key: str) -> None:
    found = [measure(finished(tunic, size), MEASURES[key]) for size in tunic.sizes]
    wanted = [Fraction(text) for text in EXPECTED[key]]
    assert [to_step(cm, Fraction(1, 10**6)) for cm in found] == wanted


def test_the_net_metres_are_right_in_all_eight_sizes(tunic: Pattern) -> None:
    found = [to_step(net_metres(tunic, size), Fraction(1, 10)) for size in tunic.sizes]
    assert found == [Fraction(text) for text in EXPECTED["metres_net"]]


def test_the_balls_are_right_in_all_eight_sizes(tunic: Pattern) -> None:
    found = [recalculate(tunic, size.name).after.amount.balls for size in tunic.sizes]
    assert found == EXPECTED["balls"]


# The copy's grams were rounded half to even (612.5 → 612, 712.5 → 712, 762.5 → 762).
def test_the_grams_are_right_to_the_half_in_all_eight_sizes(tunic: Pattern) -> None:
    found = [recalculate(tunic, size.name).after.amount.grams for size in tunic.sizes]
    wrong = [g for g, wanted in zip(found, EXPECTED["grams"], strict=True) if abs(g - wanted) > 0.5]
    assert wrong == []


def test_without_alterations_the_garment_is_the_base(tunic: Pattern) -> None:
    results = [recalculate(tunic, size.name) for size in tunic.sizes]
    assert all(result.after == result.before for result in results)


# From here on: what every size of a square-set tunic must satisfy.


@pytest.mark.parametrize("at", SIZES)
def test_every_cast_on_fits_the_rib_and_is_corrected_by_two_at_most(
    tunic: Pattern, at: int
) -> None:
    panels = [panel for piece in tunic.sizes[at].pieces for panel in panels_of(piece)]
    steps = [part for panel in panels for part in panel.sections if part.shape == "across"]
    assert [panel.cast_on % 3 for panel in panels] == [2] * len(panels)
    assert all(0 <= part.end - part.start <= 2 for part in steps)


@pytest.mark.parametrize("at", SIZES)
def test_pieces_can_be_centred_and_rows_come_back_to_their_side(tunic: Pattern, at: int) -> None:
    size = tunic.sizes[at]
    taper = sleeve(size, "taper")
    counts = [back(size, "body").end, taper.start, taper.end]
    rows = [part.rows for piece in size.pieces for part in piece.sections]
    assert not any(count % 2 for count in counts + rows)


@pytest.mark.parametrize("at", SIZES)
def test_notches_shoulders_and_neck_make_the_body(tunic: Pattern, at: int) -> None:
    size = tunic.sizes[at]
    shoulder, neck = sum(back(size, "shoulders").groups), back(size, "shoulders").end
    assert 2 * notch(size) + 2 * shoulder + neck == back(size, "body").end


@pytest.mark.parametrize("at", SIZES)
def test_the_front_neck_takes_the_back_necks_stitches(tunic: Pattern, at: int) -> None:
    neck = front(tunic.sizes[at], "neck")
    assert neck.centre + 2 * sum(neck.steps) == back(tunic.sizes[at], "shoulders").end


@pytest.mark.parametrize("at", SIZES)
def test_two_halves_less_their_seam_are_the_whole(tunic: Pattern, at: int) -> None:
    size = tunic.sizes[at]
    one, top = half(size), half(size).section("armhole").end
    shoulder, neck = sum(back(size, "shoulders").groups), back(size, "shoulders").end
    assert 2 * one.section("body").end - 2 == back(size, "body").end
    assert top == back(size, "armhole").end // 2 + 1 == shoulder + neck // 2 + 1


@pytest.mark.parametrize("at", SIZES)
def test_the_sleeves_schedule_fills_its_taper(tunic: Pattern, at: int) -> None:
    taper = sleeve(tunic.sizes[at], "taper")
    found = schedule_of(taper)
    assert (found.rows, taper.start + 2 * found.events) == (taper.rows, taper.end)


@pytest.mark.parametrize("at", SIZES)
def test_the_sleeve_top_is_as_wide_as_the_armholes_are_deep(tunic: Pattern, at: int) -> None:
    found = finished(tunic, tunic.sizes[at])
    gap = measure(found, "sleeve_top") - 2 * measure(found, "armhole_depth")
    assert abs(gap) * tunic.gauge.stitches_per_cm <= 1


@pytest.mark.parametrize("at", SIZES)
def test_the_sleeves_straight_rows_are_as_long_as_the_notch_is_wide(
    tunic: Pattern, at: int
) -> None:
    size = tunic.sizes[at]
    width = measure(finished(tunic, size), "notch_width")
    assert abs(sleeve(size, "straight").rows - width * tunic.gauge.rows_per_cm) <= 1


# Wanted: half of the body plus 10 cm of ease.
@pytest.mark.parametrize("at", SIZES)
def test_the_width_is_the_wanted_one_within_a_stitch(tunic: Pattern, at: int) -> None:
    size = tunic.sizes[at]
    wanted = ((size.to_fit_cm or 0) + 10) / 2
    gap = measure(finished(tunic, size), "half_width") - wanted
    assert abs(gap) * tunic.gauge.stitches_per_cm <= 1


@pytest.mark.parametrize("at", SIZES)
def test_no_panel_is_wider_than_the_bed(tunic: Pattern, at: int) -> None:
    panels = [panel for piece in tunic.sizes[at].pieces for panel in panels_of(piece)]
    assert tunic.machine and max(panel.widest for panel in panels) <= tunic.machine.needles


@pytest.mark.parametrize("at", SIZES)
def test_the_balls_hold_the_metres_and_the_metres_the_garment(tunic: Pattern, at: int) -> None:
    amount = recalculate(tunic, tunic.sizes[at].name).after.amount
    net = net_metres(tunic, tunic.sizes[at])
    assert amount.balls * 120 >= amount.metres >= Fraction("1.08") * net


# 1470 m · 50 g / 120 m = 612.5 g, a tie.
def test_grams_are_shown_half_up(tunic: Pattern) -> None:
    assert round_half_up(recalculate(tunic, "5").after.amount.grams) == 613
