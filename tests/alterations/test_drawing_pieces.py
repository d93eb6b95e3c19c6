"""Outlines of pieces in cm, and their drawings."""

from dataclasses import replace
from fractions import Fraction
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from alterations.drawing import drawing
from alterations.kinds import BodyLength, SleeveLength
from alterations.outline import area, bands, neckline, outline
from alterations.pattern import Pattern
from alterations.recalculate import recalculate
from alterations.rounding import Exact, to_step
from alterations.units import Length

SVG = "{http://www.w3.org/2000/svg}"


def thousandths(value: Exact) -> Fraction:
    return to_step(value, Fraction(1, 1000))


# Size 3's back: 112 / 2.1 / 2 = 26.667; 18 / 3 + 104 / 2.8 = 43.143; 88 / 2.1 / 2 = 20.952;
# + 56 / 2.8 = 63.143; 52 / 2.1 / 2 = 12.381; + 6 / 2.8 = 65.286.
def test_the_back_has_the_corners_of_its_sections(tunic: Pattern) -> None:
    corners = outline(bands(tunic, tunic.size("3").piece("back"), tunic.gauge))
    right = [(thousandths(x), thousandths(y)) for x, y in corners if x > 0]
    wanted = "26.667 0, 26.667 43.143, 20.952 43.143, 20.952 63.143, 12.381 65.286"
    points = [tuple(map(Fraction, point.split())) for point in wanted.split(", ")]
    assert set(points) <= set(right)


# 2300.952 + 838.095 + 71.429 and 148.571 + 1248.980 + 200.000 square centimetres.
@pytest.mark.parametrize(("piece", "cm2"), [("back", "3210.476"), ("sleeve", "1597.551")])
def test_a_piece_covers_the_area_of_its_sections(tunic: Pattern, piece: str, cm2: str) -> None:
    found = bands(tunic, tunic.size("3").piece(piece), tunic.gauge)
    assert thousandths(area(outline(found))) == Fraction(cm2)


@given(st.sampled_from("12345678"), st.integers(-20, 40), st.integers(-10, 20))
def test_an_altered_outline_encloses_exactly_its_sections(
    tunic: Pattern, size: str, body: int, sleeve: int
) -> None:
    given_changes = [BodyLength(Length(Fraction(body))), SleeveLength(Length(Fraction(sleeve)))]
    garment = recalculate(tunic, size, given_changes).after
    for piece in garment.size.pieces:
        found = bands(tunic, piece, garment.gauge)
        assert area(outline(found)) == sum(one.area for one in found)


# 17 / 2.1 = 8.095, half of the centre; then 6, 2 and 1 stitches, two rows each: 23, 25 and 26, and
# 26 / 2.1 = 12.381 is half of the back's neck.
def test_the_neck_is_cut_out_as_wide_as_the_backs(tunic: Pattern) -> None:
    size = tunic.size("3")
    line = neckline(tunic, size.piece("front"), tunic.gauge)
    right = [thousandths(x) for x, _ in line if x > 0]
    assert right == [Fraction(x) for x in ("12.381", "12.381", "11.905", "10.952", "8.095")]


def test_a_back_has_no_neckline(tunic: Pattern) -> None:
    assert neckline(tunic, tunic.size("3").piece("back"), tunic.gauge) == ()


def drawn(tunic: Pattern, size: str, piece: str) -> ElementTree.Element:
    result = recalculate(tunic, size, [BodyLength(Length(Fraction(5)))])
    return ElementTree.fromstring(drawing(result, piece))


def words(root: ElementTree.Element) -> list[str]:
    return [found.text or "" for found in root.iter(f"{SVG}text")]


def test_the_base_is_drawn_behind_the_garment(tunic: Pattern) -> None:
    shapes = [shape.get("class") for shape in drawn(tunic, "3", "back").iter(f"{SVG}polygon")]
    assert shapes == ["base", "made"]


def test_a_drawing_says_what_it_shows(tunic: Pattern) -> None:
    root = drawn(tunic, "3", "back")
    assert root.findtext(f"{SVG}title") == "Ostrimane Tunic, size 3: back"
    assert "Hem to armhole: 53.3 cm (21 in), 114 stitches, 42.1 cm (16½ in), 118 rows high" in (
        root.findtext(f"{SVG}desc") or ""
    )


def test_widths_carry_stitches_and_heights_rows(tunic: Pattern) -> None:
    labels = words(drawn(tunic, "3", "back"))
    assert "53.3 cm (21 in), 113 stitches" in labels
    assert "Hem to armhole: 42.1 cm (16½ in), 118 rows" in labels


def test_halves_carry_the_stitches_of_each_and_a_seam(tunic: Pattern) -> None:
    root = drawn(tunic, "7", "back")
    assert "73.3 cm (28¾ in), 77 + 77 stitches" in words(root)
    assert [line.get("class") for line in root.iter(f"{SVG}polyline")] == ["seam"]


def test_names_cannot_break_out_of_a_drawing(tunic: Pattern) -> None:
    result = recalculate(replace(tunic, name="<script>&"), "3")
    assert "<script>" not in drawing(result, "back")


@given(st.sampled_from("12345678"), st.sampled_from(["back", "front", "sleeve", "neckband"]))
def test_everything_drawn_lies_on_the_sheet(tunic: Pattern, size: str, piece: str) -> None:
    root = drawn(tunic, size, piece)
    _, _, width, height = map(int, (root.get("viewBox") or "").split())
    corners = " ".join(shape.get("points") or "" for shape in root.iter()).split()
    points = [tuple(map(int, corner.split(","))) for corner in corners]
    points += [(int(one.get("x") or 0), int(one.get("y") or 0)) for one in root.iter(f"{SVG}text")]
    assert all(0 <= x <= width and 0 <= y <= height for x, y in points)
