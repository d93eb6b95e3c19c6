"""The worksheet: this garment's numbers in instructions, the pattern's beside them."""

from fractions import Fraction

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
from alterations.worksheet import AS_PATTERN, PieceSheet, Worksheet, as_text, worksheet

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
# pairs over 84 of them; yarn by metres 1126.3, so 1130.
def test_a_worksheet_of_size_3_longer_shorter_and_in_cotton(tunic: Pattern) -> None:
    longer = BodyLength(parse_length("5 cm"))
    shorter = SleeveLength(parse_length("-4 cm"))
    found = sheet(tunic, "3", longer, shorter, COTTON)
    assert "110 rows straight over 104 stitches" in " ".join(texts(piece(found, "Back")))
    assert "every 6 rows 14 times, then 6 plain rows: from 50 to 78" in " ".join(
        texts(piece(found, "Sleeve"))
    )
    assert any("Kelvarrick Cotton, 1130 m, 12 balls" in words for _, words in found.facts)


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


def test_the_teachers_words_are_left_out_where_their_numbers_changed(tunic: Pattern) -> None:
    found = sheet(tunic, "3", BodyLength(parse_length("5 cm")))
    assert piece(found, "Back").words == "" and piece(found, "Sleeve").words
    assert AS_PATTERN in as_text(found)


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
    assert "105   left                102  bind off 12 stitches at the right edge" in text
