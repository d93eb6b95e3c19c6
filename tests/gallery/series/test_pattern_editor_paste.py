"""A block from a spreadsheet or from the site's own tables goes into the rows it is meant for."""

import pytest
from django.contrib.auth.models import User

from alterations.patternfile import load_pattern
from alterations.tables import size_table
from gallery.series.editor.blocks import MOST_LETTERS, PasteError
from gallery.series.editor.checking import check
from gallery.series.editor.document import from_toml
from gallery.series.editor.pasting import pasted
from gallery.series.editor.structure import from_post
from gallery.series.models import PatternDraft
from tests.alterations.conftest import TUNIC
from tests.gallery.series.test_pattern_editor_kept import at_desk, draft, flat

__all__ = ["draft"]  # the fixture, which pytest finds by this name
TEXT = TUNIC.read_text(encoding="utf-8")
HEM, BODY, NOTCH, ARMHOLE = (
    f"pieces.0.sections.{row}" for row in ("0.rows", "2.rows", "3.stitches", "4.rows")
)
GROUPS = "pieces.0.sections.5.groups"


def test_a_block_begins_at_a_size() -> None:
    filled = pasted(from_toml(TEXT), BODY, "101\t105", size="2")
    assert filled == {BODY: "100 101 105 104 106 106 110 110"}


def test_a_single_number_is_spread_before_a_block_goes_in() -> None:
    hem = "pieces.0.sections.0.rows"
    assert pasted(from_toml(TEXT), hem, "20", size="8") == {hem: "18 18 18 18 18 18 18 20"}


def test_decimal_commas_between_semicolons_are_numbers() -> None:
    block = "76,5;86;96;106;117;127;137;147"
    filled = pasted(from_toml(TEXT), "pattern.to_fit_cm", block)
    pattern = check(from_post({**flat(from_toml(TEXT)), **filled})).pattern
    assert pattern is not None and float(pattern.sizes[0].to_fit_cm or 0) == 76.5


def test_an_empty_cell_holds_its_place_and_an_empty_line_its_row() -> None:
    filled = pasted(from_toml(TEXT), BODY, "1\t\t3\t4\t5\t6\t7\t8\n\n50")
    assert filled == {BODY: "1 100 3 4 5 6 7 8", "pieces.0.sections.4.rows": "50"}


def test_groups_with_blanks_stay_in_their_cell() -> None:
    groups = "pieces.0.sections.5.groups"
    assert pasted(from_toml(TEXT), groups, "6 5 4\t", size="1")[groups].startswith("6-5-4 ")


def test_a_block_that_reaches_past_the_last_size_is_refused() -> None:
    with pytest.raises(PasteError, match="Line 1 has 3 values, and from size 7 on there are 2"):
        pasted(from_toml(TEXT), BODY, "1\t2\t3", size="7")


def test_a_block_that_was_refused_is_still_in_its_field(draft: PatternDraft, teacher: User) -> None:
    sent = {**flat(draft.typed), "times_kept": "0", "do": "paste", "paste_at": BODY}
    address = f"/desk/patterns/{draft.public_id}/"
    page = at_desk(teacher).post(address, {**sent, "paste_block": "7\t8\t9"}).content.decode()
    assert ">7\t8\t9</textarea>" in page


# Hem to armhole, an empty spreadsheet row, the armhole: nothing moves up into the notch.
@pytest.mark.parametrize("empty", ["", "\t" * 7, "  ", ";;"])
def test_an_empty_line_inside_a_block_keeps_its_place(empty: str) -> None:
    block = f"100\t100\t104\t104\t106\t106\t110\t110\n{empty}\n50\t52\t56\t60\t62\t66\t68\t72\n"
    assert pasted(from_toml(TEXT), BODY, block) == {
        BODY: "100 100 104 104 106 106 110 110",
        ARMHOLE: "50 52 56 60 62 66 68 72",
    }


def test_an_empty_first_line_is_a_row_as_well() -> None:
    assert pasted(from_toml(TEXT), BODY, "\n84") == {NOTCH: "84"}


def test_empty_lines_at_the_end_are_no_rows() -> None:
    assert pasted(from_toml(TEXT), "yarn.metres", "900\n\t\t\n\n") == {"yarn.metres": "900"}


def test_an_empty_cell_in_an_empty_row_holds_the_place_of_its_size() -> None:
    document = from_toml(TEXT)
    document["pieces"][0]["sections"][2]["rows"] = ""
    filled = pasted(document, BODY, "1\t\t3\t4\t5\t6\t7\t8")
    assert filled == {BODY: "1 ? 3 4 5 6 7 8"}
    assert [
        (note.size, note.sentence) for note in check(from_post({**flat(document), **filled})).notes
    ] == [("2", "A number is missing here.")]


def test_an_empty_cell_among_the_names_of_sizes_leaves_the_name() -> None:
    assert pasted(from_toml(TEXT), "pattern.sizes", "a\t\tc\td\te\tf\tg\th") == {
        "pattern.sizes": "a 2 c d e f g h"
    }


def own_table(name: str, unit: str, parted: str, after: str = "\t") -> str:
    """A row of the site's own table, as someone copies it."""
    rows = [row for table in size_table(load_pattern(TEXT)) for row in table.rows]
    row = next(row for row in rows if (row.name, row.unit) == (name, unit))
    return f"{row.name}{parted}{row.unit}{after}" + "\t".join(row.cells)


# A browser copies name, unit and numbers one below the other, a spreadsheet beside one another.
@pytest.mark.parametrize(
    ("parted", "after"), [("\t", "\t"), (" ", "\t"), ("\n", "\t"), ("\n", "\n")]
)
@pytest.mark.parametrize("size", ["", "1"])
def test_a_row_of_the_sites_own_table_goes_in_as_it_is(parted: str, after: str, size: str) -> None:
    block = own_table("Hem to armhole", "rows", parted, after)
    assert pasted(from_toml(TEXT), BODY, block, size) == {BODY: "100 100 104 104 106 106 110 110"}


def test_a_row_with_its_name_may_be_parted_by_blanks() -> None:
    block = "Hem to armhole rows 101 101 105 105 107 107 111 111"
    assert pasted(from_toml(TEXT), BODY, block) == {BODY: "101 101 105 105 107 107 111 111"}


def test_the_tables_groups_go_into_the_row_of_groups() -> None:
    block = own_table("Shoulders, groups", "stitches", "\t")
    assert pasted(from_toml(TEXT), GROUPS, block)[GROUPS].startswith("5-5-5 6-6-5 7-6-6")


@pytest.mark.parametrize(
    ("block", "words"),
    [
        ("To fit\tin\t30\t34\t38\t42\t46\t50\t54\t58", "Line 1 has the unit “in”, but"),
        ("Back\nHem\nrows\t1\t2\t3\t4\t5\t6\t7\t8", "Line 1 holds words and no number"),
        ("Cuff\tstitches\t1\t2\t3\t4\t5\t6\t7\t8", "Line 1 has the unit “stitches”, but"),
        ("Back\n100", "Line 1 holds words and no number"),
        ("Hem\trows\t1\t2\t3\t4\t5\t6\t7", "Line 1 has 9 values, and 8 sizes"),
        ("Hem\trows\t9\t1\t2\t3\t4\t5\t6\t7\t8", "Line 1 has 11 values, and 8 sizes"),
        ("9\t1\t2\t3\t4\t5\t6\t7\t8", "Line 1 has 9 values"),
        ("1 " * MOST_LETTERS, "too long"),
    ],
)
def test_what_does_not_belong_into_a_row_is_refused_by_its_line(block: str, words: str) -> None:
    with pytest.raises(PasteError, match=words):
        pasted(from_toml(TEXT), BODY, block)


def test_a_size_name_too_many_is_no_heading() -> None:
    with pytest.raises(PasteError, match="Line 1 has 9 values"):
        pasted(from_toml(TEXT), "pattern.sizes", "XS\tS\tM\tL\tXL\tXXL\t3X\t4X\t5X")


def test_she_is_told_how_many_rows_a_block_filled(draft: PatternDraft, teacher: User) -> None:
    sent = {**flat(draft.typed), "times_kept": "0", "do": "paste", "paste_at": BODY}
    address, desk = f"/desk/patterns/{draft.public_id}/", at_desk(teacher)
    page = desk.post(address, {**sent, "paste_block": "100\n\n50"}, follow=True)
    assert "2 rows are filled. Empty lines and cells left" in page.content.decode()
