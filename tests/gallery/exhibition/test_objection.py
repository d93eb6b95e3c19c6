"""Somebody in a public picture objects: it is hidden at once, until the teacher has looked."""

import re
from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client

from gallery.contributions import limits
from gallery.contributions.models import Contribution, Objection, Photo
from gallery.exhibition.showing import may_show_photo

pytestmark = pytest.mark.django_db
HIDDEN = "It is hidden now. The teacher will look at it."


def door(shown: Any) -> str:
    return f"/pictures/{shown.photo.public_id}/objection/"


def rule(desk: Client, shown: Any, ruling: str) -> Any:
    newest = Objection.objects.latest("pk").pk
    data = {"photo": shown.photo.public_id, "ruling": ruling, "seen": str(newest)}
    return desk.post(f"/desk/garments/{shown.row.public_id}/objection/", data)


@pytest.fixture
def desk(teacher: User, desk_of: Callable[[User], Client]) -> Client:
    return desk_of(teacher)


def test_every_public_picture_carries_the_link(garment: Any) -> None:
    shown = garment(allows=["public_pages"], photos=2).decide()
    page = Client().get(shown.address).content.decode()
    for photo in shown.row.photos.all():
        assert f'href="/pictures/{photo.public_id}/objection/"' in page
    for page in ("/", f"/series/{shown.row.series.slug}/garments/"):
        listed = Client().get(page).content.decode()
        pictures = set(re.findall(r'src="/pictures/([\w-]+)', listed))
        links = set(re.findall(r'href="/pictures/([\w-]+)/objection/"', listed))
        assert pictures and links == pictures


def test_looking_at_the_page_hides_nothing(shown: Any) -> None:
    assert Client().get(door(shown)).status_code == 200
    assert may_show_photo(shown.photo)


def test_one_press_hides_the_picture_everywhere_at_once(shown: Any) -> None:
    answer = Client().post(door(shown), {"words": "I was only passing by."})
    assert HIDDEN in answer.content.decode()
    assert Client().get(shown.picture()).status_code == 404
    assert shown.photo.public_id not in Client().get(shown.address).content.decode()
    assert shown.photo.public_id not in Client().get("/").content.decode()
    assert Objection.objects.get().words == "I was only passing by."


def test_a_second_objection_gets_the_same_answer(shown: Any, desk: Client) -> None:
    answers = [Client().post(door(shown)).content]
    answers.append(Client().post(door(shown)).content)
    rule(desk, shown, "keep_hidden")
    answers.append(Client().post(door(shown)).content)
    assert len(set(answers)) == 1
    assert not Objection.objects.filter(resolved_at__isnull=True).exists()


def test_the_page_of_a_hidden_picture_does_not_show_it(shown: Any) -> None:
    Client().post(door(shown))
    assert f"{shown.photo.public_id}/small" not in Client().get(door(shown)).content.decode()


def test_the_desk_lists_it_on_top(shown: Any, desk: Client) -> None:
    Client().post(door(shown))
    page = desk.get("/desk/").content.decode()
    assert 0 < page.index("Somebody says a picture shows them") < page.index("What waits for you")


@pytest.mark.parametrize(("ruling", "is_shown"), [("show_again", True), ("keep_hidden", False)])
def test_the_teacher_decides_and_it_is_kept_with_day_and_name(
    shown: Any, desk: Client, teacher: User, ruling: str, is_shown: bool
) -> None:
    Client().post(door(shown))
    rule(desk, shown, ruling)
    kept = Objection.objects.get()
    assert (may_show_photo(shown.photo), kept.upheld) == (is_shown, not is_shown)
    assert (kept.resolved_at is not None, kept.resolved_by) == (True, teacher)


def test_an_objection_that_came_after_her_page_hides_on(shown: Any, desk: Client) -> None:
    Client().post(door(shown), {"words": "first"})
    seen = Objection.objects.get().pk
    Client().post(door(shown), {"words": "second"})
    data = {"photo": shown.photo.public_id, "ruling": "show_again", "seen": str(seen)}
    desk.post(f"/desk/garments/{shown.row.public_id}/objection/", data)
    assert not may_show_photo(shown.photo)


@pytest.mark.parametrize("words", ["a\x07b", "x" * 2001])
def test_words_that_cannot_be_taken_are_refused_beside_the_field(shown: Any, words: str) -> None:
    answer = Client().post(door(shown), {"words": words})
    assert list(answer.context["form"].errors) == ["words"]
    assert may_show_photo(shown.photo)


def test_too_many_from_one_connection_are_asked_to_wait(shown: Any, monkeypatch: Any) -> None:
    monkeypatch.setattr(limits, "MOST_OBJECTIONS_AN_HOUR", 1)
    assert [Client().post(door(shown)).status_code for _ in range(2)] == [200, 429]


def test_objections_take_nothing_from_the_share_of_pictures(shown: Any, monkeypatch: Any) -> None:
    monkeypatch.setattr(limits, "MOST_AN_HOUR", 1)
    Client().post(door(shown))
    assert limits.may_arrive("127.0.0.1")


def test_of_an_erased_photo_only_the_objections_dates_stay(shown: Any) -> None:
    Client().post(door(shown), {"words": "My face, my name is Quill."})
    shown.row.delete()
    kept = Objection.objects.get()
    assert (kept.photo, kept.words, kept.at is not None) == (None, "", True)


def test_other_grown_ups_are_shown_once_the_teacher_has_seen_that_they_agree(
    shown: Any, desk: Client, teacher: User
) -> None:
    Photo.objects.filter(pk=shown.photo.pk).update(people="others", others_agree=True)
    assert not may_show_photo(shown.photo)
    page = desk.get(f"/desk/garments/{shown.row.public_id}/").content.decode()
    assert "I have seen that they agree" in page
    place = f"/desk/garments/{shown.row.public_id}/people/"
    desk.post(place, {"photo": shown.photo.public_id})
    assert may_show_photo(shown.photo)
    assert shown.photo.people_seen_by == teacher


def test_the_teacher_cannot_agree_for_others_the_sender_did_not_ask(
    shown: Any, desk: Client
) -> None:
    Photo.objects.filter(pk=shown.photo.pk).update(people="others", others_agree=False)
    place = f"/desk/garments/{shown.row.public_id}/people/"
    desk.post(place, {"photo": shown.photo.public_id})
    assert not may_show_photo(shown.photo)


def test_of_a_young_sender_neither_words_nor_name_are_shown(shown: Any) -> None:
    Contribution.objects.filter(pk=shown.row.pk).update(is_younger=True)
    assert Client().get(shown.address).status_code == 404
