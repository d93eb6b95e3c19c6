"""What everybody may see: only what is permitted and approved, at this very moment."""

from collections.abc import Callable
from typing import Any

import pytest
from django.test import Client

from gallery.consent.purposes import FILM, NAME, NOTES, PUBLIC_PAGES
from gallery.contributions.permissions import withdraw_all
from gallery.exhibition import showing
from gallery.review.models import Verdict

GARMENTS = "/series/ostrimane-evenings/garments/"
NAME_WRITTEN = "Tamsin Quillfeather"
NUMBERS = "5 cm longer"  # BodyLength of 5 cm, as the caption says it
NOTE = "It wears like an old friend."
PICTURE = "/pictures/"

Maker = Callable[..., Any]


def status_of(client: Client, address: str) -> int:
    """The status of an answer that is read to its end, so that its file is closed."""
    answer = client.get(address)
    b"".join(answer)
    return answer.status_code


def page_of(client: Client, garment: Any) -> str:
    """The garment's own page as text, empty where there is none."""
    answer = client.get(garment.address)
    assert answer.status_code in (200, 404)
    return answer.content.decode() if answer.status_code == 200 else ""


@pytest.mark.parametrize("is_first", ["withdrawal", "approval"])
def test_whichever_comes_first_a_withdrawal_wins_over_an_approval(
    client: Client, garment: Maker, is_first: str
) -> None:
    sent = garment(allows=[PUBLIC_PAGES, NOTES, NAME])
    deeds = [lambda: withdraw_all(sent.row), sent.decide]
    for deed in deeds if is_first == "withdrawal" else reversed(deeds):
        deed()
    assert page_of(client, sent) == ""
    assert status_of(client, sent.picture()) == 404
    assert PICTURE not in client.get(GARMENTS).content.decode()


# Worked out from the four questions: whether there is a page, a picture, numbers, a name.
EACH_PERMISSION = [
    ((), (False, False, False, False)),
    ((FILM,), (False, False, False, False)),
    ((NAME,), (False, False, False, False)),
    ((FILM, NAME), (False, False, False, False)),
    ((PUBLIC_PAGES,), (True, True, False, False)),
    ((NOTES,), (True, False, True, False)),
    ((PUBLIC_PAGES, NAME), (True, True, False, True)),
    ((NOTES, NAME), (True, False, True, True)),
    ((PUBLIC_PAGES, NOTES), (True, True, True, False)),
    ((PUBLIC_PAGES, NOTES, NAME), (True, True, True, True)),
]


@pytest.mark.parametrize(("allowed", "expected"), EACH_PERMISSION)
def test_a_garments_page_shows_exactly_what_is_allowed(
    client: Client, garment: Maker, allowed: Any, expected: tuple[bool, ...]
) -> None:
    text = page_of(client, garment(allows=allowed).decide())
    assert (bool(text), PICTURE in text, NUMBERS in text, NAME_WRITTEN in text) == expected
    assert (NOTE in text) == (NUMBERS in text)


@pytest.mark.parametrize(("allowed", "expected"), EACH_PERMISSION)
def test_the_page_of_pictures_shows_exactly_what_is_allowed(
    client: Client, garment: Maker, allowed: Any, expected: tuple[bool, ...]
) -> None:
    made = garment(allows=allowed).decide()
    text = client.get(GARMENTS).content.decode()
    found = (made.address in text, PICTURE in text, NUMBERS in text, NAME_WRITTEN in text)
    assert found == expected


@pytest.mark.parametrize(
    ("decisions", "is_shown"),
    [
        ([], False),
        (["ask"], False),
        (["decline"], False),
        (["approve"], True),
        (["decline", "approve"], True),
        (["approve", "ask"], False),
        (["approve", "decline"], False),
    ],
)
def test_only_the_newest_verdict_counts(
    client: Client, garment: Maker, decisions: list[str], is_shown: bool
) -> None:
    made = garment(allows=[PUBLIC_PAGES, NOTES])
    for decision in decisions:
        made.decide(decision)
    assert bool(page_of(client, made)) is is_shown
    assert (made.address in client.get(GARMENTS).content.decode()) is is_shown
    assert (status_of(client, made.picture()) == 200) is is_shown


def test_of_two_photos_only_the_approved_one_is_shown(client: Client, garment: Maker) -> None:
    made = garment(allows=[PUBLIC_PAGES], photos=2)
    first, second = made.row.photos.all()
    made.decide_on(first)
    made.decide_on(second, Verdict.Decision.DECLINE)
    text = page_of(client, made)
    assert first.public_id in text
    assert second.public_id not in text


def test_words_that_are_not_approved_stay_away_while_the_picture_is_shown(
    client: Client, garment: Maker
) -> None:
    made = garment(allows=[PUBLIC_PAGES, NOTES])
    made.decide_on(made.photo)
    text = page_of(client, made)
    assert PICTURE in text
    assert NUMBERS not in text
    assert NOTE not in text


@pytest.mark.parametrize("purpose", [PUBLIC_PAGES, NOTES, NAME])
def test_what_is_taken_back_is_gone_with_the_next_request(
    client: Client, shown: Any, purpose: str
) -> None:
    sign = {PUBLIC_PAGES: PICTURE, NOTES: NUMBERS, NAME: NAME_WRITTEN}[purpose]
    assert all(sign in page for page in (page_of(client, shown), front_and_list(client)))
    shown.take_back(purpose)
    assert not any(sign in page for page in (page_of(client, shown), front_and_list(client)))


def front_and_list(client: Client) -> str:
    return client.get("/").content.decode() + client.get(GARMENTS).content.decode()


def test_after_everything_is_taken_back_page_and_pictures_are_as_if_never_there(
    client: Client, shown: Any
) -> None:
    addresses = [shown.address, *(shown.picture(size) for size in ("small", "medium", "large"))]
    assert [status_of(client, address) for address in addresses] == [200] * 4
    shown.take_back(FILM, PUBLIC_PAGES, NOTES, NAME)
    assert [status_of(client, address) for address in addresses] == [404] * 4
    assert shown.row.public_id not in front_and_list(client)


def test_a_draft_is_never_shown(client: Client, garment: Maker) -> None:
    made = garment(allows=[PUBLIC_PAGES, NOTES], sent_at=None).decide()
    assert page_of(client, made) == ""
    assert status_of(client, made.picture()) == 404


def test_a_photo_whose_sizes_are_not_made_yet_is_not_shown(client: Client, garment: Maker) -> None:
    made = garment(allows=[PUBLIC_PAGES], is_safe=False).decide()
    assert page_of(client, made) == ""
    assert status_of(client, made.picture("small")) == 404


def test_the_readings_say_the_same_as_the_pages(garment: Maker) -> None:
    may, may_not = garment(allows=[PUBLIC_PAGES]).decide(), garment(allows=[NOTES]).decide()
    assert list(showing.shown_photos()) == [may.photo]
    assert showing.may_show_photo(may.photo) and not showing.may_show_photo(may_not.photo)
    assert showing.may_show_words(may_not.row) and not showing.may_show_words(may.row)
