"""The call: what to send, until when, what for."""

import datetime

import pytest
from django.test import Client
from django.utils import timezone

from gallery.consent.purposes import QUESTIONS
from gallery.series.models import Series

CALL = "/series/ostrimane-evenings/"
SEND = 'href="/series/ostrimane-evenings/send/"'


def call_of(client: Client, series: Series, opens: int, closes: int) -> str:
    """The page of a call that opens and closes so many days from today."""
    today = timezone.localdate()
    series.opens_on = today + datetime.timedelta(days=opens)
    series.closes_on = today + datetime.timedelta(days=closes)
    series.save()
    return client.get(CALL).content.decode()


@pytest.mark.parametrize(
    ("days", "may_send", "words"),
    [
        ((-10, 10), True, "Garments may be sent until the end of"),
        ((-10, 0), True, "Garments may be sent until the end of"),
        ((0, 10), True, "Garments may be sent until the end of"),
        ((1, 10), False, "Until then, knit in peace."),
        ((-10, -1), False, "The call closed on"),
    ],
)
def test_the_way_to_send_is_open_on_both_named_days_and_between(
    client: Client, series: Series, days: tuple[int, int], may_send: bool, words: str
) -> None:
    page = call_of(client, series, *days)
    assert (SEND in page) is may_send
    assert words in page


def test_the_call_says_what_each_answer_will_be_used_for(client: Client, series: Series) -> None:
    page = client.get(CALL).content.decode()
    assert [question.sentence in page for question in QUESTIONS] == [True] * 4


def test_the_call_gives_the_short_address_and_its_code(client: Client, series: Series) -> None:
    page = client.get(CALL).content.decode()
    assert "/go/ostri/" in page
    assert 'src="/series/ostrimane-evenings/qr.svg"' in page


def test_a_closed_call_explains_nothing_that_is_over(client: Client, series: Series) -> None:
    page = call_of(client, series, -10, -1)
    assert "What to send" not in page
    assert "qr.svg" not in page
    assert 'href="/series/ostrimane-evenings/garments/"' in page


@pytest.mark.django_db
def test_the_privacy_page_holds_every_question_with_its_meaning(client: Client) -> None:
    page = client.get("/privacy/").content.decode()
    assert all(one.sentence in page and one.meaning in page for one in QUESTIONS)
