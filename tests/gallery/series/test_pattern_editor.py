"""The teacher's own patterns in the browser: typed, checked, pasted, kept, used."""

from typing import Any

import pytest
from django.contrib.auth.models import User
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from alterations.patternfile import load_pattern, read_pattern
from gallery.series.editor.document import blank, from_toml, to_toml
from gallery.series.editor.structure import changed, from_post
from gallery.series.models import PatternDraft, Series
from tests.alterations.conftest import GILET, TUNIC

pytestmark = pytest.mark.django_db
TUNIC_TEXT = TUNIC.read_text(encoding="utf-8")


@pytest.fixture
def draft(teacher: User, series: Series) -> PatternDraft:
    return PatternDraft.objects.create(owner=teacher, series=series, typed=from_toml(TUNIC_TEXT))


@pytest.fixture
def desk(teacher: User) -> Client:
    client = Client()
    client.force_login(teacher)
    return client


def address(draft: PatternDraft) -> str:
    return f"/desk/patterns/{draft.public_id}/"


def flat(typed: Any, place: str = "") -> dict[str, str]:
    """A document as the fields of its form."""
    if isinstance(typed, str):
        return {place: typed}
    pairs = typed.items() if isinstance(typed, dict) else enumerate(typed)
    found: dict[str, str] = {}
    for key, value in pairs:
        found |= flat(value, f"{place}.{key}" if place else str(key))
    return found


def form(draft: PatternDraft, **fields: str) -> dict[str, str]:
    kept = {"times_kept": str(draft.times_kept)}
    return {**flat(draft.typed), **kept, **{k.replace("__", "."): v for k, v in fields.items()}}


BODY_ROWS = "pieces__0__sections__2__rows"


@pytest.mark.parametrize("path", [TUNIC, GILET], ids=["tunic", "gilet"])
def test_a_pattern_typed_again_is_the_same_pattern(path: Any) -> None:
    text = path.read_text(encoding="utf-8")
    assert load_pattern(to_toml(from_toml(text))) == read_pattern(path)


def test_a_form_reads_back_to_the_document_it_was_made_of() -> None:
    document = from_toml(TUNIC_TEXT)
    assert from_post(flat(document)) == document


def test_a_blank_pattern_names_what_it_still_needs(desk: Client, teacher: User) -> None:
    desk.post("/desk/patterns/")
    draft = PatternDraft.objects.get(owner=teacher)
    page = desk.get(address(draft)).content.decode()
    assert "keep it from being used" in page and "Please fill this in." in page


def test_the_numbers_stand_with_their_sizes_across(desk: Client, draft: PatternDraft) -> None:
    page = desk.get(address(draft)).content.decode()
    assert 'value="100 100 104 104 106 106 110 110"' in page
    assert "All numbers agree in every size." in page and page.count("<svg") >= 4


def test_what_is_typed_is_kept_even_when_it_is_wrong(desk: Client, draft: PatternDraft) -> None:
    desk.post(address(draft), form(draft, **{BODY_ROWS: "100 many 104 104 106 106 110 110"}))
    draft.refresh_from_db()
    assert draft.typed["pieces"][0]["sections"][2]["rows"].split()[1] == "many"
    page = desk.get(address(draft)).content.decode()
    assert "Size 2:" in page and "whole number" in page


# 2·notch + 2·shoulder + neck = body: another notch of size 3 no longer fits sleeve and front.
def test_a_number_that_does_not_agree_is_named_beside_it(desk: Client, draft: PatternDraft) -> None:
    typed = form(draft, pieces__2__sections__3__rows="6 10 24 18 22 26 30 34")
    answer = desk.post(f"{address(draft)}check/", typed).content.decode()
    row = answer[answer.index('id="n-pieces-2-sections-3-rows-notes"') :][:600]
    assert "Size 3:" in row and "it would be 14" in row and "hx-swap-oob" in row
    draft.refresh_from_db()
    assert draft.times_kept == 1  # what is typed is kept as one goes


def test_a_pattern_in_order_is_used_and_the_old_one_stays(
    desk: Client, draft: PatternDraft, series: Series
) -> None:
    old = series.pattern_version
    desk.post(address(draft), form(draft, do="use", pattern__note="Measure twice."))
    series.refresh_from_db()
    assert series.pattern_version.number == old.number + 1
    assert "Measure twice." in series.pattern_version.text
    assert old.text == TUNIC_TEXT or old.pk != series.pattern_version.pk


def test_a_doubtful_pattern_is_used_only_with_her_tick(
    desk: Client, draft: PatternDraft, series: Series
) -> None:
    before = series.pattern_version_id
    doubtful = form(draft, do="use", pieces__2__sections__3__rows="6 10 24 18 22 26 30 34")
    page = desk.post(address(draft), doubtful).content.decode()
    series.refresh_from_db()
    assert series.pattern_version_id == before and "tick this if they are meant so" in page
    draft.refresh_from_db()
    again = {**doubtful, "is_meant": "yes", "times_kept": str(draft.times_kept)}
    desk.post(address(draft), again)
    series.refresh_from_db()
    assert series.pattern_version_id != before


def test_a_wrong_pattern_is_never_used(desk: Client, draft: PatternDraft, series: Series) -> None:
    before = series.pattern_version_id
    wrong = form(draft, do="use", is_meant="yes", **{BODY_ROWS: "100"} | {"yarn__metres": "-1"})
    page = desk.post(address(draft), wrong).content.decode()
    series.refresh_from_db()
    assert series.pattern_version_id == before and "Not used yet" in page


def test_a_block_from_a_spreadsheet_fills_the_rows(desk: Client, draft: PatternDraft) -> None:
    block = (
        "Body\t101\t101\t105\t105\t107\t107\t111\t111\nNotch\t80\t84\t90\t96\t102\t106\t110\t114"
    )
    start = "pieces.0.sections.2.rows"
    desk.post(address(draft), form(draft, do="paste", paste_at=start, paste_block=block))
    draft.refresh_from_db()
    sections = draft.typed["pieces"][0]["sections"]
    assert sections[2]["rows"] == "101 101 105 105 107 107 111 111"
    assert sections[3]["stitches"].startswith("80 84 90")


@pytest.mark.parametrize(
    ("start", "block", "words"),
    [
        ("pieces.0.sections.2.rows", "1\t2\t3", "Line 1 has 3 values, and 8 sizes are named"),
        ("yarn.metres", "1 2 3 4 5 6 7 8\n1 2 3 4 5 6 7 8", "has 2 lines"),
        ("nowhere", "1 2", "Choose the row"),
    ],
)
def test_a_block_that_does_not_fit_is_refused_and_changes_nothing(
    desk: Client, draft: PatternDraft, start: str, block: str, words: str
) -> None:
    before = draft.typed
    typed = form(draft, do="paste", paste_at=start, paste_block=block)
    page = desk.post(address(draft), typed).content.decode()
    draft.refresh_from_db()
    assert words in page and draft.typed == before


def test_two_windows_do_not_overwrite_each_other(desk: Client, draft: PatternDraft) -> None:
    first, second = form(draft, pattern__note="one"), form(draft, pattern__note="two")
    desk.post(address(draft), first)
    answer = desk.post(address(draft), second)
    draft.refresh_from_db()
    assert answer.status_code == 409 and draft.typed["pattern"]["note"] == "one"
    aside = PatternDraft.objects.exclude(pk=draft.pk).get()
    assert aside.typed["pattern"]["note"] == "two"


def test_a_size_more_begins_like_the_last_one() -> None:
    document = changed(from_toml(TUNIC_TEXT), "add-size")
    assert document["pattern"]["sizes"] == "1 2 3 4 5 6 7 8 9"
    pattern = load_pattern(to_toml(document))
    assert pattern.size("9").pieces == pattern.size("8").pieces


def test_a_size_is_taken_out_of_every_row() -> None:
    pattern = load_pattern(to_toml(changed(from_toml(TUNIC_TEXT), "remove-size:2")))
    tunic = load_pattern(TUNIC_TEXT)
    assert pattern.sizes == tuple(size for size in tunic.sizes if size.name != "3")


def test_pieces_and_sections_come_and_go() -> None:
    document = changed(blank(), "add-piece")
    assert len(document["pieces"]) == 2 and len(document["pieces"][1]["sections"]) == 1
    document = changed(document, "add-section:0:1")
    assert [one["key"] for one in document["pieces"][0]["sections"]] == ["hem", "", "body"]
    document = changed(document, "move-section:0:1")
    assert [one["key"] for one in document["pieces"][0]["sections"]] == ["", "hem", "body"]
    assert changed(document, "remove-piece:1")["pieces"] == document["pieces"][:1]


@pytest.mark.parametrize("deed", ["remove-piece:9", "add-section:7:1", "nonsense", "add-size:x"])
def test_a_deed_that_cannot_be_changes_nothing(deed: str) -> None:
    assert changed(blank(), deed) == blank()


def test_a_draft_can_be_kept_as_a_text_file(desk: Client, draft: PatternDraft) -> None:
    text = desk.get(f"{address(draft)}pattern.toml").content.decode()
    assert load_pattern(text) == load_pattern(TUNIC_TEXT)


def test_a_file_that_is_no_pattern_file_is_refused_in_a_sentence(desk: Client) -> None:
    file = SimpleUploadedFile("p.toml", b"this is [ not")
    page = desk.post("/desk/patterns/", {"pattern_file": file}).content.decode()
    assert "cannot be read as a pattern file" in page and not PatternDraft.objects.exists()


def test_only_its_writer_opens_a_draft(draft: PatternDraft, other_teacher: User) -> None:
    client = Client()
    assert client.get(address(draft)).status_code == 302
    client.force_login(other_teacher)
    assert client.get(address(draft)).status_code == 404


def test_the_pattern_of_a_series_opens_as_a_draft(desk: Client, series: Series) -> None:
    desk.post(f"/desk/series/{series.slug}/pattern/edit/")
    draft = PatternDraft.objects.get()
    assert draft.series == series and str(draft) == "Ostrimane Tunic"


def test_a_list_of_groups_is_typed_with_dashes() -> None:
    document = from_toml(TUNIC_TEXT)
    assert document["pieces"][0]["sections"][5]["groups"].startswith("5-5-5 6-6-5 7-6-6")


def test_a_pattern_written_here_opens_a_series_without_a_file(desk: Client, teacher: User) -> None:
    draft = PatternDraft.objects.create(owner=teacher, typed=from_toml(TUNIC_TEXT))
    desk.post(address(draft), form(draft, do="use", pattern__name="Evening Tunic"))
    draft.refresh_from_db()
    page = desk.get("/desk/new-series/").content.decode()
    assert "Evening Tunic (version 1)" in page
    given = {
        "title": "Evenings again",
        "slug": "evenings-again",
        "short_code": "again",
        "teacher_name": "Odalys Brimworth",
        "opens_on": "2026-11-01",
        "closes_on": "2027-02-01",
        "minimum_age": "16",
        "pattern": str(draft.kept_as_id),
    }
    desk.post("/desk/new-series/", given)
    assert Series.objects.get(slug="evenings-again").pattern_version == draft.kept_as


def test_a_series_needs_a_pattern_from_somewhere(desk: Client) -> None:
    page = desk.post("/desk/new-series/", {"title": "Evenings again"}).content.decode()
    assert "Choose a pattern you wrote here, or a pattern file" in page
