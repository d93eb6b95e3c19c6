"""The worksheet: this garment's numbers in instructions, the pattern's beside them."""

from fractions import Fraction

import pytest

from alterations.gauge import Gauge
from alterations.kinds import (
    AnyAlteration,
    BodyLength,
    OtherEdge,
    SleeveLength,
    Strand,
    StrandsTogether,
    WorkedInHalves,
    WorkedInPanels,
    YarnSwap,
)
from alterations.pattern import Pattern
from alterations.recalculate import recalculate
from alterations.units import parse_length
from alterations.worksheet import (
    AS_PATTERN,
    WITH_ITS_NUMBERS,
    PieceSheet,
    Worksheet,
    as_text,
    worksheet,
)

COTTON = YarnSwap(
    "Kelvarrick Cotton", Fraction(50), Fraction(95), Gauge(Fraction(19), Fraction(26))
)


def sheet(pattern: Pattern, size: str, *given: AnyAlteration) -> Worksheet:
    return worksheet(recalculate(pattern, size, given))


def piece(found: Worksheet, title: str) -> PieceSheet:
    return next(one for one in found.pieces if one.title == title)


def texts(found: PieceSheet) -> list[str]:
    return [one.text for one in found.instructions]


# Body: (37.143 + 5) · 2.6 = 109.6, even 110; sleeve: (38.571 − 4) · 2.6 = 89.9, even 90 rows, 14
# pairs over 84 of them; yarn 1200 · 966.7 / 938.5 · √(4.94 / 5.88) = 1133.0, so 1140.
def test_a_worksheet_of_size_3_longer_shorter_and_in_cotton(tunic: Pattern) -> None:
    longer = BodyLength(parse_length("5 cm"))
    shorter = SleeveLength(parse_length("-4 cm"))
    found = sheet(tunic, "3", longer, shorter, COTTON)
    assert "110 rows straight over 104 stitches" in " ".join(texts(piece(found, "Back")))
    assert "every 6 rows 14 times, then 6 plain rows: from 50 to 78" in " ".join(
        texts(piece(found, "Sleeve"))
    )
    assert any("Kelvarrick Cotton, 1140 m, 12 balls" in words for _, words in found.facts)


def test_the_patterns_numbers_stand_beside_the_changed_ones(tunic: Pattern) -> None:
    found = piece(sheet(tunic, "3", BodyLength(parse_length("5 cm"))), "Back")
    was = {one.text.split(":")[0]: one.was for one in found.instructions}
    assert "104 rows" in was["Hem to armhole"] and was["Armhole"] == ""


def test_without_a_change_nothing_stands_beside_and_the_teachers_words_lead(
    tunic: Pattern,
) -> None:
    found = sheet(tunic, "3")
    assert not any(one.was for part in found.pieces for one in part.instructions)
    assert all(part.words for part in found.pieces) and AS_PATTERN not in as_text(found)


def test_the_teachers_words_stand_after_the_numbers_where_these_changed(tunic: Pattern) -> None:
    found = sheet(tunic, "3", BodyLength(parse_length("5 cm")))
    assert not piece(found, "Back").words_as_pattern and piece(found, "Sleeve").words_as_pattern
    told = as_text(found)
    back, sleeve = (told.index(piece(found, name).words) for name in ("Back", "Sleeve"))
    assert told.index("118 rows") < told.index(WITH_ITS_NUMBERS) < back
    assert sleeve < told.index("SLEEVE") + 200 and AS_PATTERN in told


@pytest.mark.parametrize("edge", ["K2P1", "none", "K2P2"])
def test_digits_in_the_name_of_an_edge_are_no_numbers(tunic: Pattern, edge: str) -> None:
    found = piece(sheet(tunic, "3", OtherEdge("hem", edge)), "Back")
    assert all(one.was not in ("1", "2, 1", "1, 1", "2, 2") for one in found.instructions)


def test_each_half_has_a_sheet_of_its_own(tunic: Pattern) -> None:
    found = sheet(tunic, "5", WorkedInHalves())
    assert [one.title for one in found.pieces][:2] == ["Back, left half", "Back, right half"]
    assert texts(piece(found, "Back, left half"))[0] == "Cast on 68 stitches."


def test_three_panels_have_three_sheets(tunic: Pattern) -> None:
    found = [one.title for one in sheet(tunic, "3", WorkedInPanels()).pieces]
    assert found[:3] == ["Back, left panel", "Back, middle panel", "Back, right panel"]


def test_a_piece_made_twice_says_so(tunic: Pattern) -> None:
    assert piece(sheet(tunic, "3"), "Sleeve").note == "Make 2."


def test_a_band_is_picked_up(tunic: Pattern) -> None:
    assert texts(piece(sheet(tunic, "3"), "Neckband"))[0] == "Pick up 116 stitches."


def test_another_edge_is_named(tunic: Pattern) -> None:
    found = piece(sheet(tunic, "3", OtherEdge("hem", "K1P1", parse_length("10 cm"))), "Back")
    assert texts(found)[1].startswith("Hem: K1P1, 30 rows.")


def test_each_strand_is_bought(tunic: Pattern) -> None:
    strands = StrandsTogether(
        (
            Strand("Fennimoor Plain", Fraction(50), Fraction(120)),
            Strand("Kelvarrick Cotton", Fraction(50), Fraction(95)),
        )
    )
    yarns = [words for name, words in sheet(tunic, "3", strands).facts if name == "Yarn"]
    assert [words.split(",")[0] for words in yarns] == ["Fennimoor Plain", "Kelvarrick Cotton"]


def test_lengths_stand_in_centimetres_and_inches(tunic: Pattern) -> None:
    found = dict(sheet(tunic, "3").measures)
    assert found["Finished chest"] == "106.7 cm (42 in)"


# 16 pairs need 32 rows; EVEN((38.571 − 26) · 2.8) = 36 rows leave 30.
def test_a_shaping_that_cannot_be_worked_is_said_in_its_piece(tunic: Pattern) -> None:
    found = piece(sheet(tunic, "3", SleeveLength(parse_length("-26 cm"))), "Sleeve")
    assert found.rows == () and "do not fit" in found.trouble


def test_the_text_holds_every_piece_and_its_rows(tunic: Pattern) -> None:
    text = as_text(sheet(tunic, "3"))
    assert all(title in text for title in ("BACK", "FRONT", "SLEEVE", "NECKBAND", "MAKING UP"))
    row = next(line for line in text.splitlines() if line.startswith("105"))
    assert row.split(maxsplit=3) == ["105", "left", "102", row[row.index("bind off") :]]
    assert row.endswith("bind off 12 stitches at the right edge, knit 1 row")


# 48 stitches of the back's neck at 19 stitches; 107 are picked up.
def test_a_neckband_says_how_many_stitches_lie_along_which_neck(tunic: Pattern) -> None:
    along = texts(piece(sheet(tunic, "3", COTTON), "Neckband"))[1]
    assert "48 stitches along the neck of the back" in along and "and 59 along the neck" in along


# 22 stitches to 30 rows, 0.733: 3 for every 4 rows (0.75) lies nearer than 5 for every 7 (0.714).
def test_a_band_along_an_edge_says_its_share_and_each_stretch(gilet: Pattern) -> None:
    along = " ".join(texts(piece(worksheet(recalculate(gilet, "M")), "Front band"))[1:3])
    assert "3 stitches for every 4 rows" in along and "Front: hem" in along


def test_the_second_front_has_its_own_sheet_with_left_and_right_exchanged(gilet: Pattern) -> None:
    first, second = [
        one
        for one in worksheet(recalculate(gilet, "M")).pieces
        if one.title.startswith("Front,") or one.title == "Front"
    ]
    assert any("at the left edge: 49" in words for words in texts(first))
    assert any("at the right edge: 49" in words for words in texts(second))
    assert "left and right exchanged" in second.title


def test_a_row_of_rib_is_spelled_out(tunic: Pattern) -> None:
    hem = texts(piece(sheet(tunic, "3"), "Back"))[1]
    assert "A row reads (K2, P1) to the last two stitches, K2." in hem


def test_a_bed_and_hand_needles_have_their_own_left_and_right(
    tunic: Pattern, gilet: Pattern
) -> None:
    by_hand = as_text(worksheet(recalculate(gilet, "M")))
    assert "as you face the bed" in as_text(sheet(tunic, "3")) and "wrong side" in by_hand
    assert "as you face the bed" not in by_hand


# V1, V2: 118 rows to the armhole; 120 rows of taper, every 6 rows 7 times, then every 8 nine times.
def test_v1_and_v2_in_words(tunic: Pattern) -> None:
    longer, sleeves = BodyLength(parse_length("5 cm")), SleeveLength(parse_length("4 cm"))
    found = sheet(tunic, "3", longer, sleeves)
    for title in ("Back", "Front"):
        assert "work 118 rows straight over 114" in " ".join(texts(piece(found, title)))
    told = " ".join(texts(piece(found, "Sleeve")))
    assert "every 6 rows 7 times, then every 8 rows 9 times, then 6 plain rows" in told


# V7: halves of 69 from a cast-on of 68; the notch leaves 52; the neck half has 28.
def test_v7_in_words_and_rows(tunic: Pattern) -> None:
    found = worksheet(recalculate(tunic, "5", [WorkedInHalves()], needles=130))
    half = piece(found, "Back, right half")
    assert texts(half)[0] == "Cast on 68 stitches." and "at the right edge: 52" in texts(half)[4]
    assert "24 for the shoulder, 28 for the neck" in half.rows[-1].words
