"""What a teacher types is hers, stays as typed, and is spoken of in the words of the page."""

from typing import Any, get_args

import pytest
from django.contrib.auth.models import User
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from alterations.pattern import MeasureOf, Rhythm, Rule, Shape
from alterations.patternfile import load_pattern
from gallery.series.editor.checking import check
from gallery.series.editor.choices import measures, rhythms, rules, shapes
from gallery.series.editor.document import from_toml, size_names, to_toml
from gallery.series.editor.structure import changed, from_post
from gallery.series.models import PatternDraft, Series
from tests.alterations.conftest import TUNIC

TEXT = TUNIC.read_text(encoding="utf-8")
BODY = "pieces.0.sections.2.rows"


@pytest.fixture
def draft(teacher: User, series: Series) -> PatternDraft:
    return PatternDraft.objects.create(owner=teacher, series=series, typed=from_toml(TEXT))


def at_desk(user: User) -> Client:
    client = Client()
    client.force_login(user)
    return client


def flat(typed: Any, place: str = "") -> dict[str, str]:
    """A document as the fields of its form."""
    if isinstance(typed, str):
        return {place: typed}
    pairs = typed.items() if isinstance(typed, dict) else enumerate(typed)
    found: dict[str, str] = {}
    for key, value in pairs:
        found |= flat(value, f"{place}.{key}" if place else str(key))
    return found


def said(**fields: str) -> list[tuple[str, str, str]]:
    """Field, size and sentence of every note on the tunic with some fields exchanged."""
    typed = from_post(
        {**flat(from_toml(TEXT)), **{k.replace("__", "."): v for k, v in fields.items()}}
    )
    return [(note.field, note.size, note.sentence) for note in check(typed).notes]


# ---- whose it is ----


def test_a_series_that_changed_hands_takes_its_drafts_along(
    draft: PatternDraft, series: Series, teacher: User, other_teacher: User
) -> None:
    series.teacher = other_teacher
    series.save()
    address = f"/desk/patterns/{draft.public_id}/"
    assert at_desk(teacher).get(address).status_code == 404
    assert at_desk(other_teacher).get(address).status_code == 200


def test_only_her_own_drafts_are_listed(draft: PatternDraft, other_teacher: User) -> None:
    page = at_desk(other_teacher).get("/desk/patterns/").content.decode()
    assert draft.public_id not in page and "None yet." in page


def test_a_draft_is_thrown_away_and_the_version_in_use_stays(
    draft: PatternDraft, series: Series, teacher: User
) -> None:
    at_desk(teacher).post(f"/desk/patterns/{draft.public_id}/away/")
    assert not PatternDraft.objects.exists()
    assert Series.objects.get().pattern_version == series.pattern_version


def test_a_draft_begins_with_an_older_version(series: Series, teacher: User) -> None:
    old = series.pattern_version
    desk = at_desk(teacher)
    file = SimpleUploadedFile("p.toml", TEXT.replace("rows = 18", "rows = 20", 1).encode())
    desk.post(f"/desk/series/{series.slug}/pattern/", {"pattern_file": file})
    desk.post(f"/desk/series/{series.slug}/pattern/edit/", {"version": str(old.number)})
    assert load_pattern(to_toml(PatternDraft.objects.get().typed)) == load_pattern(TEXT)


def test_what_is_begun_is_offered_to_go_on_with(draft: PatternDraft, teacher: User) -> None:
    page = at_desk(teacher).get("/desk/series/ostrimane-evenings/pattern/").content.decode()
    assert f"/desk/patterns/{draft.public_id}/" in page and "Go on with what you typed" in page


# ---- as typed ----


def test_a_browsers_line_ends_are_the_patterns_own() -> None:
    document = from_toml(TEXT)
    sent = {name: value.replace("\n", "\r\n") for name, value in flat(document).items()}
    assert from_post(sent) == document


def test_a_text_that_is_too_long_is_refused_and_not_cut() -> None:
    assert said(pattern__note="a" * 10_001) == [
        ("pattern.note", "", "Write at most 10000 letters.")
    ]


def test_the_name_of_a_single_size_may_hold_a_blank() -> None:
    assert size_names(from_toml('[pattern]\nsizes = ["One size"]')) == ["One size"]


def test_a_new_piece_gets_a_short_name_that_its_new_title_does_not_change() -> None:
    posted = flat(changed(from_toml(TEXT), "copy-piece:0"))
    document = from_post({**posted, "pieces.1.title": "Back yoke", "pieces.1.key": ""})
    again = from_post({**flat(document), "pieces.1.title": "Yoke"})
    assert again["pieces"][1]["key"] == "back_yoke"


def test_places_chosen_one_by_one_are_one_list() -> None:
    posted = flat(from_toml(TEXT))
    del posted["follows.0.of"]
    chosen = {"follows.0.of.0": "back.body.rows", "follows.0.of.1": "back.hem.rows"}
    document = from_post({**posted, **chosen, "follows.0.of.2": ""})
    assert document["follows"][0]["of"] == "back.body.rows back.hem.rows"


@pytest.mark.parametrize("typed", ["06.5", "6,5", "\uff16.\uff15", "\u0666.\u0665"])
def test_a_decimal_is_read_as_hands_write_it(typed: str) -> None:
    pattern = check(from_post({**flat(from_toml(TEXT)), "machine.pitch_mm": typed})).pattern
    assert pattern is not None and pattern == load_pattern(TEXT)


@pytest.mark.parametrize(
    ("shown", "known"),
    [(shapes, Shape), (rhythms, Rhythm), (rules, Rule), (measures, MeasureOf)],
)
def test_every_word_of_the_format_can_be_chosen(shown: Any, known: Any) -> None:
    assert [name for name, _words in shown()] == list(get_args(known))


# ---- kept as one goes ----


def sent(draft: PatternDraft, note: str, **seen: str) -> dict[str, str]:
    return {**flat(draft.typed), "times_kept": "0", "pattern.note": note, **seen}


def test_a_page_is_not_outdated_by_its_own_pauses(draft: PatternDraft, teacher: User) -> None:
    address, desk = f"/desk/patterns/{draft.public_id}/", at_desk(teacher)
    desk.post(f"{address}check/", sent(draft, "one", page="a", turn="1"))
    answer = desk.post(address, sent(draft, "two", page="a", turn="2"))
    draft.refresh_from_db()
    assert answer.status_code == 302 and draft.typed["pattern"]["note"] == "two"


def test_a_sending_that_was_overtaken_changes_nothing(draft: PatternDraft, teacher: User) -> None:
    address, desk = f"/desk/patterns/{draft.public_id}/check/", at_desk(teacher)
    desk.post(address, sent(draft, "later", page="a", turn="2"))
    desk.post(address, sent(draft, "earlier", page="a", turn="1"))
    draft.refresh_from_db()
    assert draft.typed["pattern"]["note"] == "later"


def test_a_pause_in_an_outdated_window_overwrites_nothing(
    draft: PatternDraft, teacher: User
) -> None:
    address, desk = f"/desk/patterns/{draft.public_id}/check/", at_desk(teacher)
    desk.post(address, sent(draft, "here", page="a", turn="1"))
    page = desk.post(address, sent(draft, "there", page="b", turn="1")).content.decode()
    draft.refresh_from_db()
    assert "in another window meanwhile" in page and draft.typed["pattern"]["note"] == "here"


# ---- bad input, in the words of the page ----


@pytest.mark.parametrize("typed", ["many", "nan", "1e3", "-", "100.5", "1/2", "\U00010a40"])
def test_what_is_no_number_is_named_beside_its_cell(typed: str) -> None:
    row = f"100 100 {typed} 104 106 106 110 110"
    sentence = f"“{typed}” is no whole number; write one like 18."
    assert said(**{BODY: row}) == [(BODY, "3", sentence)]


def test_a_missing_number_is_counted() -> None:
    assert said(**{BODY: "100 100 104"})[0][2].startswith("Here are 3, and 8 are needed")


def test_groups_that_do_not_add_up_are_said_in_words() -> None:
    row = "5-5-5 6-6-5 7-6-5 8-7-7 8-8-8 9-9-8 9-9-9 10-10-9"
    sentence = "The groups hold 36 stitches, but 38 of the 90 are to go."
    assert said(pieces__0__sections__5__groups=row) == [
        ("pieces.0.sections.5.groups", "3", sentence)
    ]


def test_a_piece_whose_short_name_holds_any_sign_keeps_its_notes_beside_its_cells() -> None:
    found = said(pieces__3__key="neck - band.1", pieces__3__sections__0__rows="x")
    assert ("pieces.3.sections.0.rows", "", "“x” is no whole number; write one like 18.") in found


@pytest.mark.parametrize("edge", ["3n + 2", "3 n+2", "03n + 2", "3·n + 2"])
def test_an_edge_may_be_typed_by_its_repeat(edge: str) -> None:
    assert said(pieces__0__edge=edge) == []


def test_no_sentence_speaks_of_the_file(teacher: User) -> None:
    at_desk(teacher).post("/desk/patterns/")
    page = at_desk(teacher).get(f"/desk/patterns/{PatternDraft.objects.get().public_id}/")
    text = page.content.decode()
    assert not [
        word for word in ("without quotes", "TOML", "Short name", "sections[") if word in text
    ]


@pytest.mark.parametrize("raw", [b"a = " + b"[" * 50_000, b"\xff\xd8\xff", b"a = ", b"x" * 300_000])
def test_a_file_that_cannot_be_read_is_refused_in_a_sentence(teacher: User, raw: bytes) -> None:
    file = SimpleUploadedFile("p.toml", raw)
    page = at_desk(teacher).post("/desk/patterns/", {"pattern_file": file})
    assert page.status_code == 200 and "cannot be read as a pattern file" in page.content.decode()


def test_what_the_page_has_no_place_for_is_named_at_the_import(teacher: User) -> None:
    odd = TEXT.replace('designer = "', 'colour = "madder"\ndesigner = "', 1)
    file = SimpleUploadedFile("p.toml", odd.encode())
    page = at_desk(teacher).post("/desk/patterns/", {"pattern_file": file}, follow=True)
    assert "Not taken over from the file: pattern.colour." in page.content.decode()


def test_short_names_with_blanks_still_lead_to_their_numbers() -> None:
    text = TEXT.replace("[pieces.back", '[pieces."my back"').replace(
        "[[pieces.back.", '[[pieces."my back".'
    )
    text = text.replace('"back.', '"my back.')
    pattern = check(from_toml(text)).pattern
    assert pattern is not None and pattern.follows[1].of == ("my_back.body.rows",)


# ---- sizes, and what stands beside the fields ----


def test_a_size_is_taken_out_by_its_name(draft: PatternDraft, teacher: User) -> None:
    sent = {**flat(draft.typed), "times_kept": "0", "do": "remove-size", "which_size": "2"}
    at_desk(teacher).post(f"/desk/patterns/{draft.public_id}/", sent)
    draft.refresh_from_db()
    assert size_names(draft.typed) == ["1", "2", "4", "5", "6", "7", "8"]


def test_a_field_outside_the_grid_gets_its_note_while_one_types(
    draft: PatternDraft, teacher: User
) -> None:
    sent = {**flat(draft.typed), "machine.needles": "many"}
    answer = at_desk(teacher).post(f"/desk/patterns/{draft.public_id}/check/", sent)
    note = answer.content.decode().split('id="f-machine-needles-notes"')[1][:120]
    assert "hx-swap-oob" in note and "“many” is no whole number" in note


def test_rules_are_chosen_by_the_names_of_numbers(draft: PatternDraft, teacher: User) -> None:
    page = at_desk(teacher).get(f"/desk/patterns/{draft.public_id}/").content.decode()
    assert '<option value="back.body.rows" selected>Back, hem to armhole, rows</option>' in page
    assert '<option value="back.body" selected>Back, hem to armhole</option>' in page
