"""What the section of the garment answers as one types; nothing is kept."""

import pytest
from django.test import Client

from gallery.contributions.models import Contribution

from .conftest import Knitter

pytestmark = pytest.mark.django_db


def live(knitter: Knitter, **typed: str) -> str:
    answer = Client().post(f"{knitter.send_address}garment/", {"size": "3", **typed})
    assert answer.status_code == 200 and "private" in answer["Cache-Control"]
    assert Contribution.objects.count() == 0
    return answer.content.decode()


def answer_at(page: str, place: str) -> str:
    return page[page.index(f'id="{place}"') :].split("</div>", maxsplit=1)[0]


# The tunic's yarn: 50 g = 120 m, so 240 m in 100 g. The categories are estimates from tightness.
@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ({"yarn_metres_100g": "333"}, "About 333 m in 100 g: usually category 2, fine."),
        ({"yarn_ball_grams": "50", "yarn_ball_metres": "120"}, "240 m in 100 g: usually category"),
        ({"yarn_stitches": "19"}, "By your gauge in it: category 4, medium."),  # 19.3 per 4 in
        (
            {"strand_metres_100g_1": "400", "strand_times_1": "2"},
            "Together about 200 m in 100 g: usually category 4, medium.",
        ),
        # 100 000 / (250 + 500) = 133.3
        (
            {"strand_metres_100g_1": "400", "strand_metres_100g_2": "200"},
            "Together about 133 m in 100 g",
        ),
    ],
)
def test_the_thickness_of_the_yarn_is_told_with_its_category(
    knitter: Knitter, typed: dict[str, str], words: str
) -> None:
    assert words in answer_at(live(knitter, **typed), "yarn-answer")


def test_of_the_pattern_s_yarn_nothing_needs_to_be_told(knitter: Knitter) -> None:
    page = live(knitter, yarn_choice="pattern", yarn_metres_100g="333")
    assert "333" not in answer_at(page, "yarn-answer")


@pytest.mark.parametrize(
    ("before", "after", "words"),
    [
        ("60", "57", "Length: 60 cm → 57 cm: shrank by 3 cm (5 %)"),
        ("60", "61,5 cm", "Length: 60 cm → 61.5 cm: grew by 1.5 cm (2.5 %)"),
        ("24 in", "25 in", "grew by 1 in, 2.5 cm (4.2 %)"),
        ("60", "60", "stayed as it was"),
        ("60 cm", "60 in", "more than double"),
    ],
)
def test_what_washing_did_is_worked_out(
    knitter: Knitter, before: str, after: str, words: str
) -> None:
    page = live(knitter, length_before=before, length_after=after)
    assert words in answer_at(page, "behaved-answer")


def test_half_a_swatch_is_not_nagged_about_while_it_is_typed(knitter: Knitter) -> None:
    page = live(knitter, swatch_counted_stitches="21")
    assert "both numbers" not in answer_at(page, "swatch-answer")


# The tunic at 22 stitches a 10 cm instead of 21: 114 less 2 are 112 / 2.2 = 50.9 cm, was 53.3.
def test_a_swatch_changes_the_numbers_worked_out_at_once(knitter: Knitter) -> None:
    page = live(knitter, swatch_counted_stitches="22", swatch_counted_rows="28")
    assert "22 stitches and 28 rows" in answer_at(page, "swatch-answer")
    assert "50.9 cm" in page[page.index('id="worked-out"') :]


def test_where_no_number_is_touched_none_is_worked_out(knitter: Knitter) -> None:
    assert 'id="worked-out"' not in live(knitter, help_chest="100")


def test_the_place_of_a_mistake_in_the_size_is_its_first_card(knitter: Knitter) -> None:
    page = live(knitter, size="", machine="4.5")
    assert 'href="#id_size_0"' in page and "Please choose the size" in page
