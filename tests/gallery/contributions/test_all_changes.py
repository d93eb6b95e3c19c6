"""Every kind of change can be told on the page, is kept as entered, and is worked out as typed."""

import pytest
from django.test import Client

from alterations.kinds import AnyAlteration, from_plain

from .conftest import Knitter, picture

pytestmark = pytest.mark.django_db

TOLD: list[tuple[dict[str, str], str, dict[str, str]]] = [
    (
        {"body_width_amount": "6", "body_width_into": "shoulders"},
        "body_width",
        {"change": "6 cm", "into": "shoulders"},
    ),
    ({"armhole_way": "shallower", "armhole_amount": "1"}, "armhole_depth", {"change": "-1 cm"}),
    (
        {"sleeve_girth_amount": "4", "sleeve_girth_meeting": "gathers"},
        "sleeve_girth",
        {"change": "4 cm", "meeting": "gathers"},
    ),
    (
        {"bell_amount": "44", "bell_over_amount": "8", "bell_over_unit": "in"},
        "bell_sleeve",
        {"edge": "44 cm", "over": "8 in"},
    ),
    ({"neck_depth_amount": "4"}, "neck_depth", {"change": "4 cm"}),
    ({"neck_width_way": "narrower", "neck_width_amount": "2"}, "neck_width", {"change": "-2 cm"}),
    (
        {"part_length_where": "back.hem", "part_length_amount": "6", "part_length_unit": "rows"},
        "part_length",
        {"where": "back.hem", "change": "6 rows"},
    ),
    ({"wearer_way": "shorter", "wearer_amount": "7"}, "other_height", {"change": "-7 cm"}),
    (
        {"edge_0_kind": "K1P1", "edge_0_amount": "10", "edge_0_keeps": "yes"},
        "other_edge",
        {"where": "hem", "edge": "K1P1", "depth": "10 cm", "keeps_length": "yes"},
    ),
    (
        {
            "strand_name_1": "Fennimoor Plain",
            "strand_times_1": "2",
            "strand_ball_grams_1": "50",
            "strand_ball_metres_1": "120",
        },
        "strands_together",
        {
            "keep": "measurements",
            "name_1": "Fennimoor Plain",
            "ball_grams_1": "50",
            "ball_metres_1": "120",
            "times_1": "2",
        },
    ),
    ({"panels_count": "2"}, "worked_in_halves", {"pieces": ""}),
    ({"panels_count": "3"}, "worked_in_panels", {"pieces": ""}),
    (
        {"extra_1_part": "pocket", "extra_1_words": "on the left"},
        "extra",
        {"part": "pocket", "deed": "added", "words": "on the left"},
    ),
    (
        {"own_1_where": "back.body", "own_1_rows": "118"},
        "own_figure",
        {"where": "back.body", "rows": "118"},
    ),
    (
        {
            "yarn_name": "Kelvarrick Cotton",
            "yarn_fibre": "100 % cotton",
            "yarn_counted_stitches": "19",
            "yarn_counted_over": "10",
            "yarn_counted_rows": "26",
            "yarn_counted_high": "10",
        },
        "yarn_swap",
        {
            "name": "Kelvarrick Cotton",
            "keep": "measurements",
            "fibre": "100 % cotton",
            "counted_stitches": "19",
            "counted_over": "10",
            "counted_rows": "26",
            "counted_high": "10",
        },
    ),
]


@pytest.mark.parametrize(("given", "kind", "kept"), TOLD, ids=[one[1] for one in TOLD])
def test_every_kind_of_change_is_kept_as_it_was_entered(
    knitter: Knitter, given: dict[str, str], kind: str, kept: dict[str, str]
) -> None:
    knitter.post(pictures=picture(), **given)
    sheet = knitter.garment.sheet
    assert sheet is not None
    [line] = sheet.lines.all()
    assert from_plain(line.kind, line.entered) == from_plain(kind, kept)


def live(knitter: Knitter, **typed: str) -> str:
    answer = Client().post(f"{knitter.send_address}numbers/", {"size": "3", **typed})
    assert answer.status_code == 200
    return answer.content.decode()


# The pattern's reference case: body +5 cm in size 3 is 104 -> 118 rows.
def test_what_is_typed_is_worked_out_at_once(knitter: Knitter) -> None:
    page = live(knitter, body_length_amount="5")
    assert "118 rows" in page and "body 5 cm longer (+14 rows)" in page and "<svg" in page


def test_each_line_shows_what_it_came_to(knitter: Knitter) -> None:
    page = live(knitter, body_length_amount="5")
    inside = page[page.index('id="line-body_length"') : page.index('id="line-body_width"')]
    assert "118 rows" in inside


# 42.14 cm are 16.6 in, to the quarter 16½.
def test_lengths_are_shown_in_the_unit_she_chose(knitter: Knitter) -> None:
    page = live(knitter, body_length_amount="5", shown_in="in")
    numbers = page[: page.index("<svg")]  # a drawing carries both units
    assert "16½ in" in numbers and "42.1 cm" not in numbers


def test_a_mistake_is_named_with_its_field_and_nothing_is_worked_out(knitter: Knitter) -> None:
    page = live(knitter, body_length_amount="a bit")
    assert "cannot be read as a length" in page and "#id_body_length_amount" in page


def test_without_a_size_the_live_numbers_ask_for_it(knitter: Knitter) -> None:
    assert "choose the size" in live(knitter, size="", body_length_amount="5")


def test_a_cord_on_a_garment_is_kept_as_a_note_of_its_own(knitter: Knitter) -> None:
    assert "Cord added: at the neck" in live(
        knitter, extra_1_part="cord", extra_1_words="at the neck"
    )


def test_wide_sleeves_come_with_their_caution(knitter: Knitter) -> None:
    page = live(knitter, bell_amount="44", bell_over_amount="20")
    assert "catch fire" in page and "Local law governs" in page


def test_her_own_bed_is_what_the_pieces_must_fit(knitter: Knitter) -> None:
    page = live(knitter, machine_needles="100")
    assert "114 stitches do not fit on 100 needles" in page


def test_hand_needles_hold_any_width(knitter: Knitter) -> None:
    assert "do not fit" not in live(knitter, tool="needles", needle_mm="4")


def kinds(found: list[AnyAlteration]) -> list[str]:
    return [one.kind for one in found]


def test_several_changes_stand_in_the_order_of_the_page(knitter: Knitter) -> None:
    knitter.post(
        pictures=picture(),
        free_note="a pocket",
        neck_depth_amount="2",
        body_length_amount="5",
        edge_1_amount="3",
    )
    sheet = knitter.garment.sheet
    assert sheet is not None
    found = [from_plain(line.kind, line.entered) for line in sheet.lines.all()]
    assert kinds(found) == ["body_length", "neck_depth", "other_edge", "free_note"]


@pytest.mark.parametrize(
    ("given", "field", "words"),
    [
        ({"bell_amount": "20", "bell_over_amount": "20"}, "bell_amount", "no wider"),
        ({"edge_2_amount": "0"}, "edge_2_amount", "above zero"),
        ({"extra_2_words": "wings"}, "extra_2_part", "which part it is"),
        ({"own_1_rows": "118"}, "own_1_where", "where you counted"),
        ({"strand_name_1": "A"}, "strand_name_1", "for each strand"),
        ({"part_length_amount": "3"}, "part_length_amount", "which part"),
        ({"neck_width_amount": "60"}, "neck_width_amount", "cannot become"),
    ],
)
def test_a_refusal_stands_beside_the_field_it_concerns(
    knitter: Knitter, given: dict[str, str], field: str, words: str
) -> None:
    answer = knitter.post("work_out", **given)
    assert words in str(answer.context["sending"].changes.errors[field])
