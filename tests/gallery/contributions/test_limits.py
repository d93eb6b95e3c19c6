"""How much may arrive: pictures an hour; and what a reader sees as one letter."""

import datetime
from typing import Any

import pytest
from django.test import Client
from django.utils import timezone

from gallery.access import open_as_own
from gallery.contributions import limits
from gallery.contributions.limits import may_arrive
from gallery.contributions.models import Arrival
from gallery.contributions.tokens import is_token, link_token, new_token
from gallery.contributions.writing import letters_seen


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


def test_a_days_share_is_not_forgotten_after_an_hour(db: None) -> None:
    for _ in range(limits.MOST_LETTERS_A_DAY):
        assert limits.may_write_to("Anna@example.org")
    Arrival.objects.update(at=timezone.now() - datetime.timedelta(hours=2))
    assert limits.may_arrive("192.0.2.7")  # counting something else forgets nothing
    assert not limits.may_write_to("anna@example.org")
    Arrival.objects.update(at=timezone.now() - limits.DAY)
    assert limits.may_write_to("anna@example.org")


def test_a_senders_session_lasts_a_day_and_a_teachers_is_shorter(
    client: Client, django_user_model: Any, settings: Any
) -> None:
    request = client.get("/help/").wsgi_request
    open_as_own(request, "abc")
    assert request.session.get_expiry_age() == 24 * 60 * 60
    request.session.save()
    client.cookies[settings.SESSION_COOKIE_NAME] = request.session.session_key
    django_user_model.objects.create_user("odalys", password="a long word")
    client.post("/desk/login/", {"username": "odalys", "password": "a long word"})
    assert client.session.get_expiry_age() == settings.SESSION_COOKIE_AGE
