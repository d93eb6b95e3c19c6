"""The pattern editor in a real browser: cells, pasting, notes while typing, windows, a phone."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from tests.served import Site
from tests.test_journey import site

__all__ = ["site"]  # the fixture, which pytest finds by this name
pytestmark = [pytest.mark.browser, pytest.mark.outside]
BODY, GROUPS = "pieces.0.sections.2.rows", "pieces.0.sections.5.groups"
AGREE = "All numbers agree in every size."
PASTE = """(cell, text) => {
  const data = new DataTransfer();
  data.setData("text", text);
  const given = { clipboardData: data, bubbles: true, cancelable: true };
  cell.dispatchEvent(new ClipboardEvent("paste", given));
}"""


@pytest.fixture
def page(site: Site, browser: Browser) -> Iterator[Page]:
    """A fresh draft of the tunic, opened by its teacher."""
    with browser.new_context(viewport={"width": 1280, "height": 900}) as window:
        page = window.new_page()
        page.goto(f"{site.base}/desk/series/ostrimane-evenings/pattern/")
        page.fill("[name=username]", "odalys")
        page.fill("[name=password]", site.password)
        page.keyboard.press("Enter")
        page.get_by_role("button", name="Open the numbers to change them").click()
        expect(cell(page, BODY, "1")).to_be_visible()
        yield page


def cell(page: Page, row: str, size: str) -> Locator:
    return page.locator(f'tr[data-row="{row}"] input[data-size="{size}"]')


def short(page: Page) -> Locator:
    return page.locator("#in-short")


def test_a_doubt_stands_beside_its_cell_as_one_types(page: Page) -> None:
    cell(page, BODY, "3").fill("105")
    note = page.locator("#n-pieces-0-sections-2-rows-notes")
    expect(note).to_contain_text("Size 3: 105 rows leave the carriage at the other side")
    expect(cell(page, BODY, "3")).to_have_class("form-control doubtful")
    expect(short(page)).to_contain_text("do not agree")
    cell(page, BODY, "3").fill("104")
    expect(short(page)).to_have_text(AGREE)


def test_each_cell_says_its_piece_its_number_and_its_size(page: Page) -> None:
    expect(page.get_by_label("Back, Hem to armhole: rows, size 3")).to_have_value("104")


def test_blanks_in_a_cell_do_not_push_the_next_sizes_aside(page: Page) -> None:
    cell(page, GROUPS, "3").fill("7 6 6")
    page.get_by_role("button", name="Keep and check").click()
    expect(cell(page, GROUPS, "3")).to_have_value("7-6-6")
    expect(cell(page, GROUPS, "4")).to_have_value("8-7-7")


def test_a_block_goes_in_at_a_cell_and_can_be_taken_back(page: Page) -> None:
    cell(page, BODY, "2").evaluate(PASTE, "101\t105,5\n84\tx\n")
    expect(cell(page, BODY, "3")).to_have_value("105,5")
    expect(cell(page, BODY, "3")).to_have_attribute("aria-invalid", "true")
    expect(cell(page, BODY, "2")).to_have_attribute("aria-invalid", "false")
    page.get_by_role("button", name="Take them back").click()
    expect(short(page)).to_have_text(AGREE)


def test_a_block_past_the_last_size_is_refused_in_a_sentence(page: Page) -> None:
    cell(page, BODY, "7").evaluate(PASTE, "1\t2\t3")
    expect(page.locator("#pasted")).to_contain_text("line 1 of the block reaches past")
    expect(cell(page, BODY, "7")).to_have_value("110")


def test_an_empty_line_and_an_empty_cell_of_a_block_leave_what_stands_there(page: Page) -> None:
    cell(page, BODY, "1").evaluate(PASTE, "101\t\t105\n\t\t\n50\t\n\t\n")
    expect(page.locator("#pasted")).to_contain_text("3 numbers put in. Empty places left")
    expect(cell(page, BODY, "2")).to_have_value("100")
    expect(cell(page, "pieces.0.sections.3.stitches", "1")).to_have_value("80")
    expect(cell(page, "pieces.0.sections.4.rows", "1")).to_have_value("50")


def test_a_row_of_the_sites_own_table_is_copied_into_its_row(page: Page) -> None:
    table = page.context.new_page()
    table.goto(f"{page.url.split('/desk')[0]}/series/ostrimane-evenings/numbers/")
    row = table.get_by_role("row", name="Hem to armhole").first
    copied = row.evaluate(
        "row => { getSelection().selectAllChildren(row); return `${getSelection()}`; }"
    )
    cell(page, BODY, "1").fill("90")
    cell(page, BODY, "1").evaluate(PASTE, copied)
    expect(page.locator("#pasted")).to_contain_text("8 numbers put in.")
    expect(cell(page, BODY, "1")).to_have_value("100")
    expect(cell(page, BODY, "8")).to_have_value("110")


def test_a_row_in_another_unit_and_a_heading_are_refused(page: Page) -> None:
    cell(page, BODY, "1").evaluate(PASTE, "Cuff\tstitches\t1\t2\t3\t4\t5\t6\t7\t8")
    expect(page.locator("#pasted")).to_contain_text("line 1 of the block is in another unit")
    cell(page, BODY, "1").evaluate(PASTE, "101\nSleeve\n50")
    expect(page.locator("#pasted")).to_contain_text("line 2 of the block holds words")
    expect(cell(page, BODY, "1")).to_have_value("100")


def test_numbers_with_blanks_between_are_a_row_also_without_tabs(page: Page) -> None:
    cell(page, BODY, "1").evaluate(PASTE, "102 102 106 106 108 108 112 112")
    expect(cell(page, BODY, "8")).to_have_value("112")


def test_the_arrow_keys_go_from_row_to_row(page: Page) -> None:
    cell(page, BODY, "3").focus()
    page.keyboard.press("ArrowDown")
    expect(page.get_by_label("Back, Notch bind-off: stitches at its end, size 3")).to_be_focused()


def test_what_is_typed_is_there_again_when_the_window_was_closed(page: Page) -> None:
    cell(page, BODY, "3").fill("106")
    again, address = page.context.new_page(), page.url
    page.close()
    again.wait_for_timeout(500)
    again.goto(address)
    expect(cell(again, BODY, "3")).to_have_value("106")


def test_two_windows_end_as_two_drafts(page: Page) -> None:
    other = page.context.new_page()
    other.goto(page.url)
    cell(page, BODY, "3").fill("106")
    expect(short(page)).to_contain_text("do not agree")
    cell(other, BODY, "3").fill("108")
    expect(other.locator("#checked .notice").first).to_contain_text("in another window meanwhile")
    other.get_by_role("button", name="Keep and check").click()
    other.get_by_role("link", name="What I typed here").click()
    expect(cell(other, BODY, "3")).to_have_value("108")


def test_on_a_phone_only_the_grid_scrolls_sideways(page: Page) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    assert page.evaluate("document.documentElement.scrollWidth") == 390
    box = page.get_by_role("region", name="The numbers, sizes across")
    box.evaluate("box => box.scrollTo(300, 0)")
    name = page.locator(f'tr[data-row="{BODY}"] th').bounding_box()
    assert name is not None and name["x"] >= 0


def test_without_javascript_the_rows_are_fields(page: Page, site: Site, browser: Browser) -> None:
    kept = page.context.storage_state()
    with browser.new_context(java_script_enabled=False, storage_state=kept) as window:
        plain = window.new_page()
        plain.goto(page.url)
        row = plain.locator(f'[name="{BODY}"]')
        row.fill("100 100 many 104 106 106 110 110")
        plain.get_by_role("button", name="Keep and check").click()
        note = plain.locator("#n-pieces-0-sections-2-rows-notes")
        expect(note).to_have_text("Size 3: “many” is no whole number; write one like 18.")
        expect(row).to_have_value("100 100 many 104 106 106 110 110")
