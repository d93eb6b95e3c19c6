"""What was changed: read with its unit, kept as entered, shown as base and made."""

from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest

from alterations.kinds import from_plain
from alterations.units import Length
from gallery.contributions.models import Contribution

from .conftest import Knitter, picture

pytestmark = pytest.mark.django_db


def changes_of(knitter: Knitter) -> list[Any]:
    sheet = knitter.garment.sheet
    assert sheet is not None
    return [from_plain(line.kind, line.entered) for line in sheet.lines.all()]


def test_leaving_everything_shut_means_nothing_was_changed(knitter: Knitter) -> None:
    knitter.post(pictures=picture())
    assert changes_of(knitter) == []


@pytest.mark.parametrize(
    ("given", "kept"),
    [
        (("longer", "5", "cm"), Length(Fraction(5), "cm")),
        (("shorter", "5", "cm"), Length(Fraction(-5), "cm")),
        (("longer", "12,5 cm", "in"), Length(Fraction(25, 2), "cm")),  # a written unit counts
        (("longer", "2¾", "in"), Length(Fraction(11, 4), "in")),
        (("shorter", "14", "rows"), Length(Fraction(-14), "rows")),
    ],
)
def test_a_length_is_kept_in_the_unit_it_was_given_in(
    knitter: Knitter, given: tuple[str, str, str], kept: Length
) -> None:
    names = ("body_length_way", "body_length_amount", "body_length_unit")
    knitter.post(pictures=picture(), **dict(zip(names, given, strict=True)))
    assert [change.change for change in changes_of(knitter)] == [kept]


def test_wider_by_is_counted_from_the_pattern_s_wrist(knitter: Knitter) -> None:
    # Size 3: 54 stitches less 2 in the seam, at 2.1 a centimetre, are 24.76 cm round the wrist.
    given = {"sleeve_width_way": "narrower", "sleeve_width_amount": "4"}
    knitter.post(pictures=picture(), **given)
    assert changes_of(knitter)[0].wrist == Length(Fraction(52 * 10, 21) - 4, "cm")


def test_a_yarn_is_kept_with_its_ball_and_swatch(knitter: Knitter) -> None:
    given = {
        "yarn_name": "Kelvarrick Cotton",
        "yarn_ball_grams": "50",
        "yarn_ball_metres": "95",
        "yarn_stitches": "19",
        "yarn_rows": "26",
        "yarn_keep": "counts",
    }
    knitter.post(pictures=picture(), **given)
    yarn = changes_of(knitter)[0]
    assert (yarn.name, yarn.ball_metres, yarn.gauge.rows, yarn.keep) == (
        "Kelvarrick Cotton",
        95,
        26,
        "counts",
    )


@pytest.mark.parametrize(
    ("given", "part", "field", "words"),
    [
        ({"body_length_amount": "a bit"}, "changes", "body_length_amount", "cannot be read"),
        ({"body_length_amount": "9 km"}, "changes", "body_length_amount", "cannot be read"),
        ({"body_length_amount": "-5"}, "changes", "body_length_amount", "below zero"),
        ({"sleeve_width_amount": "20 rows"}, "changes", "sleeve_width_amount", "cm or inches"),
        ({"yarn_ball_grams": "50"}, "changes", "yarn_name", "name of the yarn"),
        ({"yarn_name": "X", "yarn_rows": "26"}, "changes", "yarn_name", "both"),
        ({"yarn_name": "X", "yarn_rows": "many"}, "changes", "yarn_rows", "cannot be read"),
        ({"swatch_counted_stitches": "21"}, "garment", "swatch_counted_rows", "both"),
        ({"machine_needles": "15,5"}, "garment", "machine_needles", "whole number"),
        ({"needle_mm": "1000"}, "garment", "needle_mm", "between"),
        ({"size": "14"}, "garment", "size", "not one of the available choices"),
    ],
)
def test_what_cannot_be_read_is_said_beside_its_field(
    knitter: Knitter, given: dict[str, str], part: str, field: str, words: str
) -> None:
    answer = knitter.post(pictures=picture(), **given)
    form = getattr(answer.context["sending"], part)
    assert words in str(form.errors[field])
    assert knitter.garment.sent_at is None


def test_work_it_out_shows_base_and_made_and_sends_nothing(knitter: Knitter) -> None:
    # The reference case of the pattern: body +5 cm in size 3 is 104 -> 118 rows.
    answer = knitter.post("work_out", body_length_amount="5", email="not an address")
    page = answer.content.decode()
    assert "104" in page[page.index('id="worked-out"') :]
    assert "118" in page[page.index('id="worked-out"') :]
    assert "needs an @" not in page
    assert Contribution.objects.count() == 0


def test_a_change_that_cannot_be_knitted_is_refused_beside_its_field(knitter: Knitter) -> None:
    given = {"body_length_way": "shorter", "body_length_amount": "90"}
    answer = knitter.post(pictures=picture(), **given)
    assert "body_length_amount" in answer.context["sending"].changes.errors
    assert knitter.garment.sent_at is None


def test_what_was_opened_stays_open(knitter: Knitter) -> None:
    answer = knitter.post("work_out", sleeve_length_amount="4")
    assert answer.context["sending"].open_groups == {"sleeve_length"}


def test_tools_and_swatch_are_kept_with_the_sheet(knitter: Knitter) -> None:
    given = {
        "machine_pitch_mm": "6,5",
        "machine_needles": "150",
        "swatch_counted_stitches": "21",
        "swatch_counted_rows": "28½",
    }
    knitter.post(pictures=picture(), **given)
    sheet = knitter.garment.sheet
    assert sheet is not None
    assert (sheet.tool, str(sheet.machine_pitch_mm), sheet.machine_needles) == (
        "machine",
        "6.5",
        150,
    )
    assert sheet.swatch_rows == Decimal("28.5")


def test_a_wrist_of_nothing_is_refused_beside_its_field(knitter):
    page = knitter.post("work_out", sleeve_width_way="wrist", sleeve_width_amount="0")
    assert "above zero" in page.content.decode()
