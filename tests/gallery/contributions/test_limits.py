"""How much may arrive: room on the disk, pictures an hour; and what a reader sees as one letter."""

import datetime
import shutil
from typing import Any, NamedTuple

import pytest
from django.utils import timezone

from gallery.contributions import limits
from gallery.contributions.limits import has_room, may_arrive
from gallery.contributions.models import Arrival
from gallery.contributions.tokens import is_token, link_token, new_token
from gallery.contributions.writing import letters_seen

GIB = 1024**3


class Disk(NamedTuple):
    total: int
    used: int
    free: int


@pytest.mark.parametrize(
    ("total", "free", "may"),
    [
        (10 * GIB, 2 * GIB, True),  # 2 GiB is more than 5 % of a small disk
        (10 * GIB, 2 * GIB - 1, False),
        (100 * GIB, 5 * GIB, True),  # 5 % of a large one
        (100 * GIB, 5 * GIB - 1, False),
    ],
)
def test_two_gibibyte_and_five_per_cent_stay_free(
    monkeypatch: pytest.MonkeyPatch, total: int, free: int, may: bool
) -> None:
    monkeypatch.setattr(shutil, "disk_usage", lambda _: Disk(total, total - free, free))
    assert has_room() is may


@pytest.mark.django_db
def test_sixty_pictures_an_hour_may_come_from_one_connection() -> None:
    assert [may_arrive("192.0.2.1") for _ in range(61)] == [True] * 60 + [False]


@pytest.mark.django_db
def test_another_connection_has_its_own_share(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(limits, "MOST_AN_HOUR", 1)
    assert [may_arrive(place) for place in ("192.0.2.1", "192.0.2.2")] == [True, True]


@pytest.mark.django_db
def test_after_an_hour_there_is_a_new_share(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(limits, "MOST_AN_HOUR", 1)
    may_arrive("192.0.2.1")
    Arrival.objects.update(at=timezone.now() - datetime.timedelta(hours=1))
    assert may_arrive("192.0.2.1")


@pytest.mark.django_db
def test_no_address_is_kept() -> None:
    may_arrive("192.0.2.1")
    assert "192.0.2.1" not in str(Arrival.objects.values_list())


@pytest.mark.parametrize(
    ("text", "letters"),
    [
        ("Anselma", 7),
        ("Zoe\u0301", 3),
        ("👩‍👩‍👧‍👦", 1),  # a family joined of four
        ("🇬🇧🇩🇪", 2),  # two flags of two signs each
        ("👍🏽", 1),  # a thumb with a skin tone
        ("한", 1),  # a syllable of three jamo
        ("", 0),
    ],
)
def test_a_letter_is_what_a_reader_sees_as_one(text: str, letters: int) -> None:
    assert letters_seen(text) == letters


def test_the_link_of_a_draft_is_always_the_same_and_no_other_one_s(settings: Any) -> None:
    one, other = new_token(), new_token()
    assert link_token(one) == link_token(one) != link_token(other)
    before = link_token(one)
    settings.SECRET_KEY = "another key"
    assert link_token(one) != before


def test_a_link_token_has_a_token_s_shape() -> None:
    assert is_token(link_token(new_token()))
