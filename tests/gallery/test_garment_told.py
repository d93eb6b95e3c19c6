"""What was told of a garment comes back for editing, is compared, shown and taken away."""

from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest

from alterations.records import store
from alterations.records.models import Sheet
from gallery.contributions.garment_form import GarmentForm
from gallery.contributions.garment_told import as_typed_garment
from gallery.contributions.intake import Tools
from gallery.contributions.sending import tools_of
from gallery.contributions.takeaway import data_of
from gallery.review.differences import differences_of

from .conftest import EVERYTHING
from .edits import edit

pytestmark = pytest.mark.django_db

BEHAVED = Tools(
    tool="machine",
    machine_pitch_mm=Decimal("6.5"),
    machine_needles=150,
    chest_before="100 cm",
    chest_after="103 cm",
    pilled="little",
    split="no",
    behaved_words="Soft & warm.",
)
TOLD = [
    Tools(),
    BEHAVED,
    Tools("machine", Decimal("4.5"), 180, "double"),
    Tools("machine", Decimal("5.5")),
    Tools("machine", machine_needles=150),
    Tools("needles", needle_mm=Decimal("3.75")),
    Tools(
        swatch_stitches=Decimal("22"),
        swatch_rows=Decimal("29.4"),
        swatch_counted_stitches=Decimal("40"),
        swatch_counted_over="18,2 cm",
        swatch_counted_rows=Decimal("60"),
        swatch_counted_high="20.4 cm",
        keeps="measurements",
    ),
    Tools(length_before="24 in", length_after="23½ in"),
]


def kept(series: Any, tools: Tools) -> Sheet:
    sheet = store.keep_sheet(series.pattern_version, "3", (), **vars(tools))
    sheet.refresh_from_db()
    return sheet


@pytest.mark.parametrize("tools", TOLD)
def test_what_was_told_comes_back_as_the_very_same(series: Any, tools: Tools) -> None:
    sheet = kept(series, tools)
    form = GarmentForm(as_typed_garment(sheet), pattern=store.pattern_of(sheet.version))
    assert form.is_valid()
    assert tools_of(form.cleaned_data) == tools


def test_figures_nobody_told_the_counts_of_are_shown_as_over_10_cm(series: Any) -> None:
    tools = Tools(swatch_stitches=Decimal("21"), swatch_rows=Decimal("28.5"))
    typed = as_typed_garment(kept(series, tools))
    counted = (typed["swatch_counted_rows"], typed["swatch_counted_high"])
    assert counted == ("28.5", "10 cm")


@pytest.fixture
def worn(garment: Callable[..., Any]) -> Any:
    made = garment(allows=EVERYTHING).decide()
    edit(made, tools=BEHAVED)
    return made


# (103 - 100) / 100 = 3 %
WORDS = "100 cm → 103 cm: grew by 3 cm (3 %)"


def test_the_teacher_sees_how_it_behaved_as_a_change_of_the_numbers(worn: Any) -> None:
    [found] = differences_of(worn.row)
    rows = {row.what: (row.before, row.now) for row in found.rows}
    assert rows["How it behaved: Chest"] == ("", WORDS)
    assert rows["How it behaved: Pilled"] == ("", "a little")
    assert rows["Made with"] == ("knitting machine", "knitting machine, 6.5 mm pitch, 150 needles")


def test_another_count_of_the_same_gauge_is_shown_as_a_change(worn: Any) -> None:
    edit(worn, tools=TOLD[6])
    [found] = differences_of(worn.row)
    rows = {row.what: row.now for row in found.rows}
    assert rows["Counted on her swatch"] == "40 stitches over 18,2 cm, 60 rows over 20.4 cm"


def test_it_stands_on_the_private_page_the_desk_and_once_approved_in_public(
    worn: Any, desk_of: Any, client: Any
) -> None:
    mine = worn.sender().get(f"/mine/{worn.row.public_id}/").content.decode()
    desk = desk_of(worn.series.teacher)
    on_desk = desk.get(f"/desk/garments/{worn.row.public_id}/").content.decode()
    assert WORDS in mine and WORDS in on_desk and "Soft &amp; warm." in on_desk
    assert WORDS not in client.get(worn.address).content.decode()
    worn.row.words_edition = 1  # as if approved in this edition
    worn.row.save()
    assert WORDS in client.get(worn.address).content.decode()


def test_only_what_was_told_stands_in_the_table(shown: Any, client: Any) -> None:
    assert "How it behaved" not in client.get(shown.address).content.decode()


def test_what_was_told_is_in_what_she_takes_away(worn: Any) -> None:
    told = data_of(worn.row)["numbers"]["told"]
    assert told["chest_after"] == "103 cm"
    assert told["machine_pitch_mm"] == "6.5"
    assert "swatch_stitches" not in told


def test_the_page_of_a_sent_garment_answers_as_one_types(worn: Any) -> None:
    address = f"/mine/{worn.row.public_id}/garment/"
    answer = worn.sender().post(address, {"size": "4", "help_chest": "118.5"})
    assert "Size 4 is nearest" in answer.content.decode()
