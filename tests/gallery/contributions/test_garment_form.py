"""The section of the garment: what is asked, how it is understood, what is kept of it."""

import importlib
from decimal import Decimal
from typing import Any

import pytest
from django.apps import apps

from alterations.kinds import StrandsTogether, YarnSwap
from alterations.records import store
from alterations.records.models import Sheet
from gallery.contributions.garment_form import GarmentForm

from .conftest import Knitter, picture

pytestmark = pytest.mark.django_db
SWATCH = {
    "swatch_counted_stitches": "40",
    "swatch_counted_over": "18,2 cm",
    "swatch_counted_rows": "60",
    "swatch_counted_high": "20,4",
}


def sheet_of(knitter: Knitter, **given: str) -> Sheet:
    knitter.post(pictures=picture(), **given)
    sheet = knitter.garment.sheet
    assert sheet is not None
    return sheet


def mistakes_of(knitter: Knitter, part: str = "garment", **given: str) -> dict[str, str]:
    answer = knitter.post(pictures=picture(), **given)
    assert knitter.garment.sent_at is None
    form = getattr(answer.context["sending"], part)
    return {name: str(words) for name, words in form.errors.items()}


def test_nothing_but_the_size_is_needed(knitter: Knitter) -> None:
    sheet = sheet_of(knitter)
    assert [name for name in store.TOLD if getattr(sheet, name)] == ["keeps"]


# The pattern's table: size 4 has 116.2 cm round the chest and is 63.9 cm long, in inches 45¾, 25¼.
def test_each_size_stands_with_its_measures_in_both_units_beside_a_drawing(
    knitter: Knitter,
) -> None:
    page = knitter.browser.get(knitter.send_address).content.decode()
    card = page[page.index("Size 4</strong>") : page.index("Size 5</strong>")]
    assert all(one in card for one in ("116.2 cm", "63.9 cm", "45¾ in", "25¼ in"))
    assert 'class="measure"' in page


def test_many_sizes_are_a_list_and_no_cards(knitter: Knitter, monkeypatch: Any) -> None:
    monkeypatch.setattr("gallery.contributions.garment_form.MOST_CARDS", 7)
    page = knitter.browser.get(knitter.send_address).content.decode()
    assert '<select name="size"' in page and "Size 4</strong>" not in page


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ({"help_chest": "118,5"}, "Size 4 is nearest. Its chest is 116.2 cm: 2.3 cm less"),
        ({"help_chest": "46 in"}, "Size 4 is nearest. Its chest is 45¾ in"),  # 116.84 cm
        ({"help_chest": "46", "shown_in": "in"}, "Its chest is 45¾ in: ¼ in less than yours"),
        ({"help_length": "67"}, "Size 5 is nearest. Its length is 66.7 cm: 0.3 cm less"),
        ({"help_chest": "wide"}, "cannot be read as a length"),
    ],
)
def test_the_nearest_size_is_named_without_scripts_by_a_button(
    knitter: Knitter, typed: dict[str, str], words: str
) -> None:
    page = knitter.post("find_size", size="", **typed).content.decode()
    assert words in page and '<details class="more" id="size-help" open>' in page


def test_a_measure_that_cannot_be_read_keeps_no_garment_from_being_sent(knitter: Knitter) -> None:
    knitter.post(pictures=picture(), help_chest="wide")
    assert knitter.garment.sent_at is not None


# The needle-bed table of the trade (common practice): standard is 4.5 mm with 200 needles.
def test_a_machine_of_the_list_stands_for_its_distance_and_needles(knitter: Knitter) -> None:
    sheet = sheet_of(knitter, machine="4.5")
    told = (sheet.tool, sheet.machine_pitch_mm, sheet.machine_needles)
    assert told == ("machine", Decimal("4.5"), 200)


def test_her_own_number_of_needles_counts_before_the_usual_one(knitter: Knitter) -> None:
    assert sheet_of(knitter, machine="4.5", machine_needles="180").machine_needles == 180


def test_another_machine_is_told_by_distance_and_needles(knitter: Knitter) -> None:
    given = {"machine": "other", "machine_pitch_mm": "5,5 mm", "machine_needles": "130"}
    sheet = sheet_of(knitter, **given)
    assert (sheet.machine_pitch_mm, sheet.machine_needles) == (Decimal("5.5"), 130)


def test_two_distances_are_asked_about(knitter: Knitter) -> None:
    wrong = mistakes_of(knitter, machine="4.5", machine_pitch_mm="9")
    assert "a machine of 4.5 mm" in wrong["machine_pitch_mm"]


def test_a_tool_once_chosen_can_be_left_open_again(knitter: Knitter) -> None:
    assert sheet_of(knitter, tool="not_told").tool == ""


@pytest.mark.parametrize("typed", ["3,75", "3.75", "3¾", "3,75 mm"])
def test_hand_needles_are_understood_however_they_are_written(knitter: Knitter, typed: str) -> None:
    sheet = sheet_of(knitter, needle_mm=typed)
    assert (sheet.tool, sheet.needle_mm) == ("needles", Decimal("3.75"))


def test_whoever_chose_hand_needles_has_told_of_no_machine(knitter: Knitter) -> None:
    sheet = sheet_of(knitter, tool="needles", machine="4.5", machine_needles="many")
    assert (sheet.machine_pitch_mm, sheet.machine_needles) == (None, None)


# 40 st over 18.2 cm are 21.98 -> 22.0 and 60 rows over 20.4 cm are 29.41 -> 29.4 in 10 cm.
def test_a_swatch_is_kept_as_it_was_counted_and_for_10_cm(knitter: Knitter) -> None:
    sheet = sheet_of(knitter, **SWATCH)
    assert (sheet.swatch_stitches, sheet.swatch_rows) == (22, Decimal("29.4"))
    assert (sheet.swatch_counted_over, sheet.swatch_counted_high) == ("18,2 cm", "20,4 cm")


# 4 in are 10.16 cm: 22 / 1.016 = 21.654.
def test_a_bare_length_is_in_the_unit_she_measures_in(knitter: Knitter) -> None:
    given = {**SWATCH, "swatch_counted_stitches": "22", "swatch_counted_over": "4"}
    sheet = sheet_of(knitter, **given, shown_in="in")
    assert (sheet.swatch_stitches, sheet.swatch_counted_over) == (Decimal("21.654"), "4 in")


def test_counts_without_a_length_are_over_10_cm(knitter: Knitter) -> None:
    sheet = sheet_of(knitter, swatch_counted_stitches="21", swatch_counted_rows="28½")
    assert (sheet.swatch_rows, sheet.swatch_counted_high) == (Decimal("28.5"), "10 cm")


def test_a_draft_from_before_shows_the_swatch_it_remembers(series: Any) -> None:
    pattern = store.pattern_of(series.pattern_version)
    form = GarmentForm(initial={"swatch_stitches": "21"}, pattern=pattern)
    shown = [form[f"swatch_counted_{one}"].value() for one in ("stitches", "over")]
    assert shown == ["21", "10 cm"]


@pytest.mark.parametrize(
    ("given", "field", "words"),
    [
        ({"swatch_counted_rows": "28"}, "swatch_counted_stitches", "both numbers"),
        ({"swatch_counted_over": "18 cm"}, "swatch_counted_stitches", "what you counted"),
        ({**SWATCH, "swatch_counted_over": "14 rows"}, "swatch_counted_over", "centimetres"),
        ({**SWATCH, "swatch_counted_over": "wide"}, "swatch_counted_over", "cannot be read"),
        ({**SWATCH, "swatch_counted_stitches": "1"}, "swatch_counted_stitches", "cannot be right"),
        ({"chest_before": "100"}, "chest_after", "both measures"),
        ({"length_before": "60 cm", "length_after": "60 in"}, "length_after", "more than double"),
        ({"length_before": "60", "length_after": "20"}, "length_after", "less than half"),
        ({"pilled": "very"}, "pilled", "not one of the available choices"),
    ],
)
def test_a_mistake_is_said_in_words_and_what_was_typed_stays(
    knitter: Knitter, given: dict[str, str], field: str, words: str
) -> None:
    answer = knitter.post(pictures=picture(), **given)
    form = answer.context["sending"].garment
    assert words in str(form.errors[field])
    assert {name: form[name].value() for name in given} == given


# 22 and 30 over 4 in are 21.65 and 29.53 in 10 cm; the tunic has 21 and 28, so 21 and 28 are asked.
def test_ten_centimetres_and_four_inches_mixed_up_are_asked_about_but_sent(
    knitter: Knitter,
) -> None:
    over = {"swatch_counted_over": "4 in", "swatch_counted_high": "4 in"}
    counted = {"swatch_counted_stitches": "21", "swatch_counted_rows": "28", **over}
    page = knitter.post("work_out", **counted).content.decode()
    assert "Over 4\u00a0in it is 20.67 stitches in 10 cm, over 10\u00a0cm it is 21" in page
    assert sheet_of(knitter, **counted).swatch_stitches == Decimal("20.669")


def yarn_of(sheet: Sheet) -> Any:
    [yarn] = store.alterations_of(sheet)
    return yarn


@pytest.mark.parametrize(
    ("given", "ball"),
    [
        ({"yarn_metres_100g": "333"}, (100, 333)),
        ({"yarn_metres_100g": "190 m", "yarn_ball_grams": "50"}, (50, 95)),
        ({"yarn_metres_100g": "190", "yarn_ball_metres": "95"}, (50, 95)),
        ({"yarn_metres_100g": "192", "yarn_ball_grams": "50", "yarn_ball_metres": "95"}, (50, 95)),
    ],
)
def test_metres_in_100_g_stand_for_what_the_band_does_not_say(
    knitter: Knitter, given: dict[str, str], ball: tuple[int, int]
) -> None:
    yarn = yarn_of(sheet_of(knitter, yarn_name="Kelvarrick Cotton", **given))
    assert isinstance(yarn, YarnSwap) and (yarn.ball_grams, yarn.ball_metres) == ball


# 95 m in 50 g are 190 m in 100 g.
def test_a_ball_and_metres_in_100_g_that_contradict_each_other_are_asked_about(
    knitter: Knitter,
) -> None:
    given = {"yarn_metres_100g": "333", "yarn_ball_grams": "50", "yarn_ball_metres": "95"}
    wrong = mistakes_of(knitter, "changes", yarn_name="Kelvarrick Cotton", **given)
    assert list(wrong) == ["yarn_metres_100g"]
    assert "has 190 m in 100 g, not 333 m" in wrong["yarn_metres_100g"]


def test_strands_are_told_by_metres_in_100_g_too(knitter: Knitter) -> None:
    given = {"strand_name_1": "A", "strand_times_1": "2", "strand_metres_100g_1": "400"}
    yarn = yarn_of(sheet_of(knitter, yarn_choice="strands", **given))
    assert isinstance(yarn, StrandsTogether) and yarn.tex == 500


@pytest.mark.parametrize("choice", ["pattern", "strands"])
def test_only_the_yarn_that_was_chosen_is_read(knitter: Knitter, choice: str) -> None:
    strands = {"strand_name_1": "A", "strand_times_1": "2", "strand_metres_100g_1": "400"}
    other = {"yarn_name": "Kelvarrick Cotton", "yarn_rows": "many"}
    sheet = sheet_of(knitter, yarn_choice=choice, **strands, **other)
    kinds = [one.kind for one in store.alterations_of(sheet)]
    assert kinds == ([] if choice == "pattern" else ["strands_together"])


def test_another_yarn_needs_its_name(knitter: Knitter) -> None:
    assert "name of your yarn" in mistakes_of(knitter, "changes", yarn_choice="other")["yarn_name"]


def test_how_it_behaved_is_kept_as_it_was_told(knitter: Knitter) -> None:
    given = {
        "chest_before": "100",
        "chest_after": "103 cm",
        "length_before": "24 in",
        "length_after": "23½ in",
        "pilled": "little",
        "split": "often",
        "behaved_words": "Soft.\r\nA little stiff at first.",
    }
    sheet = sheet_of(knitter, **given)
    kept = {name: getattr(sheet, name) for name in given}
    assert kept == {**given, "chest_before": "100 cm", "behaved_words": kept["behaved_words"]}
    assert kept["behaved_words"] == "Soft.\nA little stiff at first."


def test_earlier_swatches_were_counted_over_10_cm(knitter: Knitter) -> None:
    name = "alterations.records.migrations.0003_counted_swatch_and_wear"
    version = knitter.browser.get(knitter.send_address).context["series"].pattern_version
    old = store.keep_sheet(
        version, "3", (), swatch_stitches=Decimal("21"), swatch_rows=Decimal("28.5")
    )
    bare = store.keep_sheet(version, "3", ())
    importlib.import_module(name).keep_earlier_swatches(apps, None)
    old.refresh_from_db()
    bare.refresh_from_db()
    assert (old.swatch_rows, old.swatch_counted_rows) == (Decimal("28.5"), Decimal("28.5"))
    assert (old.swatch_counted_over, bare.swatch_counted_over) == ("10 cm", "")
