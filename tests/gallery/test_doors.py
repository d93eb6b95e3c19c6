"""Every address of the site against every person who may stand before it."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import URLPattern, URLResolver, get_resolver, reverse

from gallery.series.editor.drafts import begin

PEOPLE = ("anybody", "sender", "other sender", "teacher", "other teacher")
OPEN, DONE, GONE, SIGN_IN, ONLY_POST = "open", "done", "gone", "sign in", "only by post"

EVERYBODY = (OPEN,) * 5
NOBODY = (GONE,) * 5
TEACHER_OR_SENDER = (GONE, OPEN, GONE, OPEN, GONE)
SENDER_ALONE = (GONE, OPEN, GONE, GONE, GONE)
ANY_TEACHER = (SIGN_IN, SIGN_IN, SIGN_IN, OPEN, OPEN)
ITS_TEACHER = (SIGN_IN, SIGN_IN, SIGN_IN, OPEN, GONE)

SERIES = ("ostrimane-evenings",)
# name of the address, its arguments ({…}: of the cast below), what each person finds there
DOORS: tuple[tuple[str, tuple[str, ...], tuple[str, ...]], ...] = (
    ("front", (), EVERYBODY),
    ("privacy", (), EVERYBODY),
    ("call", SERIES, EVERYBODY),
    ("garments", SERIES, EVERYBODY),
    ("garment", ("{shown}",), EVERYBODY),
    ("garment", ("{private}",), NOBODY),
    ("garment", ("{draft}",), NOBODY),
    ("garment", ("missing",), NOBODY),
    ("garment_worksheet", ("{shown}",), EVERYBODY),
    ("garment_worksheet", ("{private}",), TEACHER_OR_SENDER),
    ("garment_worksheet", ("{draft}",), NOBODY),
    ("garment_worksheet", ("missing",), NOBODY),
    ("pattern_worksheet", SERIES, EVERYBODY),
    ("picture", ("{shown photo}", "small"), EVERYBODY),
    ("picture", ("{shown photo}", "film"), TEACHER_OR_SENDER),
    ("picture", ("{private photo}", "small"), TEACHER_OR_SENDER),
    ("picture", ("{private photo}", "large"), TEACHER_OR_SENDER),
    ("picture", ("{private photo}", "film"), TEACHER_OR_SENDER),
    ("picture", ("{draft photo}", "small"), NOBODY),
    ("picture", ("missing", "small"), NOBODY),
    ("original", ("{shown photo}",), TEACHER_OR_SENDER),
    ("original", ("{private photo}",), TEACHER_OR_SENDER),
    ("original", ("{draft photo}",), NOBODY),
    ("original", ("missing",), NOBODY),
    ("login", (), (OPEN, OPEN, OPEN, DONE, DONE)),
    ("logout", (), (ONLY_POST,) * 5),
    ("desk", (), ANY_TEACHER),
    ("desk_series", SERIES, ITS_TEACHER),
    ("desk_series", ("missing",), (SIGN_IN, SIGN_IN, SIGN_IN, GONE, GONE)),
    ("desk_garment", ("{shown}",), ITS_TEACHER),
    ("desk_garment", ("{private}",), ITS_TEACHER),
    ("desk_garment", ("{draft}",), (SIGN_IN, SIGN_IN, SIGN_IN, GONE, GONE)),
    ("desk_garment", ("missing",), (SIGN_IN, SIGN_IN, SIGN_IN, GONE, GONE)),
    ("decide", ("{private}",), (SIGN_IN, SIGN_IN, SIGN_IN, ONLY_POST, ONLY_POST)),
    ("pattern_numbers", SERIES, EVERYBODY),
    ("pattern_file", SERIES, EVERYBODY),
    ("call_qr", SERIES, EVERYBODY),
    ("short_address", ("ostri",), (DONE,) * 5),
    ("help", (), EVERYBODY),
    ("new_series", (), ANY_TEACHER),
    ("series_details", SERIES, ITS_TEACHER),
    ("pattern_upload", SERIES, ITS_TEACHER),
    ("edit_pattern", SERIES, (SIGN_IN, SIGN_IN, SIGN_IN, ONLY_POST, ONLY_POST)),
    ("pattern_drafts", (), ANY_TEACHER),
    ("pattern_draft", ("{pattern draft}",), ITS_TEACHER),
    ("check_pattern", ("{pattern draft}",), (SIGN_IN, SIGN_IN, SIGN_IN, ONLY_POST, ONLY_POST)),
    ("draft_file", ("{pattern draft}",), ITS_TEACHER),
    ("throw_draft_away", ("{pattern draft}",), (SIGN_IN, SIGN_IN, SIGN_IN, ONLY_POST, ONLY_POST)),
    ("mine", ("{shown}",), SENDER_ALONE),
    ("mine", ("{private}",), SENDER_ALONE),
    ("mine", ("missing",), NOBODY),
    ("withdraw", ("{private}",), SENDER_ALONE),
    ("edit_mine", ("{shown}",), SENDER_ALONE),
    ("edit_mine", ("{private}",), SENDER_ALONE),
    ("edit_mine", ("{draft}",), NOBODY),
    ("edit_mine", ("missing",), NOBODY),
    ("work_out_mine", ("{private}",), (ONLY_POST,) * 5),
    ("garment_live", SERIES, (ONLY_POST,) * 5),
    ("garment_live_mine", ("{private}",), (ONLY_POST,) * 5),
    ("change_permissions", ("{private}",), (ONLY_POST,) * 5),
    ("private_link", ("missing",), NOBODY),
    ("series_questions", SERIES, ITS_TEACHER),
    ("ask_again", (*SERIES, "film"), ITS_TEACHER),
    ("ask_again", (*SERIES, "missing"), (SIGN_IN, SIGN_IN, SIGN_IN, GONE, GONE)),
    ("told", ("{private}",), ITS_TEACHER),
    ("told", ("missing",), (SIGN_IN, SIGN_IN, SIGN_IN, GONE, GONE)),
    ("objection", ("{shown photo}",), EVERYBODY),
    ("objection", ("{private photo}",), NOBODY),
    ("objection", ("{draft photo}",), NOBODY),
    ("objection", ("missing",), NOBODY),
    ("people_seen", ("{private}",), (SIGN_IN, SIGN_IN, SIGN_IN, ONLY_POST, ONLY_POST)),
    ("answer_objection", ("{private}",), (SIGN_IN, SIGN_IN, SIGN_IN, ONLY_POST, ONLY_POST)),
    ("say_people", ("{private}",), SENDER_ALONE),
    ("say_people", ("missing",), NOBODY),
    ("guardian_link", ("missing",), NOBODY),
    ("held_back", (), ANY_TEACHER),
    ("judge_held", ("{private}",), (SIGN_IN, SIGN_IN, SIGN_IN, ONLY_POST, ONLY_POST)),
    ("draft_link", ("missing",), NOBODY),
    ("throw_away", SERIES, NOBODY),
    ("cut_picture", (*SERIES, "{draft photo}"), NOBODY),
    ("whole_picture", (*SERIES, "{draft photo}"), NOBODY),
    ("slide_to_come", SERIES, NOBODY),
    ("check_step", SERIES, (ONLY_POST,) * 5),
    ("add_picture", SERIES, (ONLY_POST,) * 5),
    ("picture_deed", (*SERIES, "{draft photo}"), (ONLY_POST,) * 5),
    ("cut_mine", ("{private}", "{private photo}"), SENDER_ALONE),
    ("whole_mine", ("{private}", "{private photo}"), SENDER_ALONE),
    ("guardian", ("{private}",), NOBODY),
)
COVERED = ("gallery.exhibition", "gallery.review", "gallery.series")
Cast = Mapping[str, Any]


@pytest.fixture
def cast(
    garment: Callable[..., Any],
    shown: Any,
    teacher: User,
    other_teacher: User,
    desk_of: Callable[[User], Client],
) -> Cast:
    """A shown garment and a private one of the same sender, somebody else's draft, five people."""
    private = garment().decide()
    draft = garment(sent_at=None)
    sender = private.sender()
    sender.get(f"/mine/link/{shown.token}/")
    return {
        "anybody": Client(),
        "sender": sender,
        "other sender": garment().sender(),
        "teacher": desk_of(teacher),
        "other teacher": desk_of(other_teacher),
        "shown": shown.row.public_id,
        "shown photo": shown.photo.public_id,
        "private": private.row.public_id,
        "private photo": private.photo.public_id,
        "draft": draft.row.public_id,
        "draft photo": draft.photo.public_id,
        "pattern draft": begin(teacher).public_id,
    }


def address_of(name: str, arguments: tuple[str, ...], cast: Cast) -> str:
    return reverse(name, args=[argument.format_map(cast) for argument in arguments])


def found(answer: Any) -> str:
    b"".join(answer)  # read to its end, so that its file is closed
    if answer.status_code in (302, 303):
        return SIGN_IN if answer["Location"].startswith(reverse("login")) else DONE
    return {200: OPEN, 404: GONE, 405: ONLY_POST}[answer.status_code]


@pytest.mark.parametrize(("name", "arguments", "expected"), DOORS)
def test_each_person_finds_at_an_address_what_is_theirs(
    cast: Cast, name: str, arguments: tuple[str, ...], expected: tuple[str, ...]
) -> None:
    address = address_of(name, arguments, cast)
    assert tuple(found(cast[person].get(address)) for person in PEOPLE) == expected


ITS_TEACHER_MAY = (SIGN_IN, SIGN_IN, SIGN_IN, DONE, GONE)
ITS_TEACHER_MAY_TRY = (SIGN_IN, SIGN_IN, SIGN_IN, OPEN, GONE)
ITS_TEACHER_GONE = (SIGN_IN, SIGN_IN, SIGN_IN, GONE, GONE)
POSTS = (
    ("decide", ("{private}",), {"about": "all"}, (SIGN_IN, SIGN_IN, SIGN_IN, DONE, GONE)),
    ("decide", ("missing",), {"about": "all"}, (SIGN_IN, SIGN_IN, SIGN_IN, GONE, GONE)),
    ("logout", (), {}, (DONE,) * 5),
    ("objection", ("{shown photo}",), {}, EVERYBODY),
    ("objection", ("{private photo}",), {}, NOBODY),
    ("people_seen", ("{private}",), {"photo": "{private photo}"}, ITS_TEACHER_MAY),
    ("people_seen", ("{private}",), {"photo": "{shown photo}"}, ITS_TEACHER_GONE),
    ("answer_objection", ("{private}",), {"photo": "{private photo}"}, ITS_TEACHER_MAY),
    ("say_people", ("{private}",), {"photo": "missing"}, NOBODY),
    ("guardian", ("{private}",), {"about": "{private photo}", "answer": "yes"}, NOBODY),
    ("edit_pattern", SERIES, {}, (SIGN_IN, SIGN_IN, SIGN_IN, DONE, GONE)),
    ("check_pattern", ("{pattern draft}",), {}, (SIGN_IN, SIGN_IN, SIGN_IN, OPEN, GONE)),
    ("throw_draft_away", ("{pattern draft}",), {}, (SIGN_IN, SIGN_IN, SIGN_IN, DONE, GONE)),
    ("edit_pattern", SERIES, {}, (SIGN_IN, SIGN_IN, SIGN_IN, DONE, GONE)),
    ("withdraw", ("{private}",), {}, (GONE, DONE, GONE, GONE, GONE)),
    ("edit_mine", ("{private}",), {"take_out": "{shown photo}"}, SENDER_ALONE),
    ("edit_mine", ("{draft}",), {"take_out": "{draft photo}"}, NOBODY),
    ("work_out_mine", ("{private}",), {"size": "3"}, SENDER_ALONE),
    ("work_out_mine", ("{draft}",), {"size": "3"}, NOBODY),
    ("decide", ("{private}",), {"about": "name"}, ITS_TEACHER_MAY_TRY),
    (
        "change_permissions",
        ("{private}",),
        {"purpose": "film", "answer": "no"},
        (GONE, DONE, GONE, GONE, GONE),
    ),
)


@pytest.mark.parametrize(("name", "arguments", "data", "expected"), POSTS)
def test_each_person_may_change_what_is_theirs(
    cast: Cast,
    name: str,
    arguments: tuple[str, ...],
    data: dict[str, str],
    expected: tuple[str, ...],
) -> None:
    address = address_of(name, arguments, cast)
    said = {field: value.format_map(cast) for field, value in data.items()}
    assert tuple(found(cast[person].post(address, said)) for person in PEOPLE) == expected


@pytest.mark.parametrize(
    "name",
    [
        "decide",
        "logout",
        "withdraw",
        "edit_mine",
        "work_out_mine",
        "change_permissions",
        "people_seen",
        "answer_objection",
        "say_people",
        "guardian",
        "objection",
    ],
)
def test_a_change_without_the_forms_own_secret_is_refused(
    cast: Cast, teacher: User, name: str
) -> None:
    strict = Client(enforce_csrf_checks=True)
    strict.force_login(teacher)
    arguments = () if name == "logout" else ("{private}",)
    assert strict.post(address_of(name, arguments, cast)).status_code == 403


@pytest.mark.parametrize(("name", "arguments", "expected"), DOORS)
def test_what_only_some_may_see_is_kept_by_no_cache(
    cast: Cast, name: str, arguments: tuple[str, ...], expected: tuple[str, ...]
) -> None:
    kept = []
    for person, finds in zip(PEOPLE, expected, strict=True):
        answer = cast[person].get(address_of(name, arguments, cast))
        b"".join(answer)
        if finds == OPEN and GONE in expected and "no-store" not in answer.get("Cache-Control", ""):
            kept.append(person)
    assert kept == []


def _patterns(resolver: URLResolver) -> Iterator[URLPattern]:
    for entry in resolver.url_patterns:
        if isinstance(entry, URLResolver):
            yield from _patterns(entry)
        else:
            yield entry


def _is_covered(pattern: URLPattern) -> bool:
    view = pattern.callback
    rooms = (*COVERED, "django.contrib.auth")
    return view.__module__.startswith(rooms)


def test_no_address_of_these_rooms_is_left_out() -> None:
    names = {pattern.name for pattern in _patterns(get_resolver()) if _is_covered(pattern)}
    assert names >= {"front", "picture", "desk", "decide", "login"}
    assert names - {name for name, _, _ in DOORS} == set()
