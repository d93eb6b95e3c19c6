"""Sending a garment: once, whole, with every answer exactly as it was given."""

import itertools
import re
from typing import Any

import pytest
from django.core import mail

from gallery.consent import gate
from gallery.consent.models import Agreement, Entry
from gallery.consent.purposes import FILM, NAME, PURPOSES
from gallery.consent.texts import add_text
from gallery.contributions.drafts import Draft
from gallery.contributions.models import Contribution, PrivateLink
from gallery.contributions.tokens import kept_of
from gallery.series.models import Series

from .conftest import Knitter, picture

pytestmark = pytest.mark.django_db


def said(given: tuple[bool, ...]) -> dict[str, str]:
    """Half of the refusals are said, half are left open: both are a no."""
    words = {True: "yes", False: "no"}
    return {
        f"allow_{purpose}": words[is_given]
        for number, (purpose, is_given) in enumerate(zip(PURPOSES, given, strict=True))
        if is_given or number % 2
    }


@pytest.mark.parametrize("given", list(itertools.product([True, False], repeat=4)))
def test_every_combination_of_permissions_is_kept_exactly(
    knitter: Knitter, given: tuple[bool, ...]
) -> None:
    knitter.post(pictures=picture(), **said(given))
    agreement = knitter.garment.agreement
    assert tuple(gate.may_use(agreement, purpose) for purpose in PURPOSES) == given


def test_nothing_is_ticked_before_the_knitter_ticks_it(knitter: Knitter) -> None:
    page = knitter.browser.get(knitter.send_address).content.decode()
    assert not re.search(r"<input[^>]*\bchecked\b", page)


def test_a_garment_goes_off_in_one_press_with_its_pictures_in_the_field(knitter: Knitter) -> None:
    answer = knitter.post(pictures=[picture(), picture("teal", "back.jpg")])
    assert (answer.status_code, answer["Location"]) == (303, knitter.sent_address)
    assert knitter.garment.photos.count() == 2


def test_pressing_send_twice_sends_one_garment(knitter: Knitter) -> None:
    first = knitter.post(pictures=picture())
    link = knitter.link
    second = knitter.post(pictures=picture("teal"))
    assert first["Location"] == second["Location"] == knitter.sent_address
    assert Contribution.objects.count() == Agreement.objects.count() == 1
    assert knitter.link == link
    assert knitter.garment.photos.count() == 1


def test_the_second_of_two_clicks_at_once_leads_to_the_thanks_too(
    knitter: Knitter, monkeypatch: pytest.MonkeyPatch
) -> None:
    knitter.post(pictures=picture())
    # The second request was read before the first one had written anything.
    unknowing = Draft(knitter.token, None)
    monkeypatch.setattr("gallery.contributions.drafts.of_form", lambda *_: unknowing)
    answer = knitter.post(pictures=picture())
    assert (answer.status_code, answer["Location"]) == (303, knitter.sent_address)


def test_the_thanks_are_shown_to_the_sending_browser_only(knitter: Knitter, another: Any) -> None:
    knitter.post(pictures=picture())
    assert another().browser.get(knitter.sent_address).status_code == 404


def test_the_thanks_are_kept_by_no_cache(knitter: Knitter) -> None:
    knitter.post(pictures=picture())
    answer = knitter.browser.get(knitter.sent_address)
    assert answer["Cache-Control"] == "private, no-store"


def test_neither_token_is_in_the_database(knitter: Knitter) -> None:
    knitter.post(pictures=picture())
    token = knitter.link.split("/")[-2]
    link = PrivateLink.objects.get()
    assert link.token_sha256 == kept_of(token)
    assert token not in str(PrivateLink.objects.values_list()) + str(
        Contribution.objects.values_list()
    )
    assert knitter.token not in str(Contribution.objects.values_list())


def test_the_private_link_goes_to_the_address_given(
    knitter: Knitter, django_capture_on_commit_callbacks: Any
) -> None:
    with django_capture_on_commit_callbacks(execute=True):
        knitter.post(pictures=picture(), email="anselma@example.org")
    assert knitter.link in mail.outbox[0].body
    assert mail.outbox[0].to == ["anselma@example.org"]


def test_without_an_address_no_letter_leaves(
    knitter: Knitter, django_capture_on_commit_callbacks: Any
) -> None:
    with django_capture_on_commit_callbacks(execute=True):
        knitter.post(pictures=picture())
    assert mail.outbox == []


@pytest.mark.parametrize(
    "name", [" Anselma  Quillfeather ", "Zoé", "Zoe\u0301", "王 小明", "<b>Bo</b>", 'O\'Dd & "Co"']
)
def test_a_name_is_kept_exactly_as_written(knitter: Knitter, name: str) -> None:
    knitter.post(pictures=picture(), credit_name=name, **{f"allow_{NAME}": "yes"})
    assert knitter.garment.credit_name == name


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("Ansel\x07ma", "invisible control character"),
        ("Ansel\u2028ma", "invisible control character"),
        ("\u202elive", "invisible control character"),
        ("   ", "nothing but spaces"),
        ("a" * 101, "too long to be shown"),
    ],
)
def test_a_name_that_cannot_be_shown_is_refused_in_words(
    knitter: Knitter, name: str, words: str
) -> None:
    answer = knitter.post(pictures=picture(), credit_name=name)
    assert words in str(answer.context["sending"].sender.errors["credit_name"])
    assert knitter.garment.sent_at is None


def test_marks_count_with_their_letter(knitter: Knitter) -> None:
    name = "e\u0301" * 100  # a hundred letters, two hundred characters
    knitter.post(pictures=picture(), credit_name=name)
    assert knitter.garment.credit_name == name


def test_an_answer_to_other_words_is_asked_again(knitter: Knitter) -> None:
    page = knitter.browser.get(knitter.send_address)
    asked = page.context["sending"].permissions.wording
    add_text(FILM, "Shall the whole world see it?", "Everywhere.")
    answer = knitter.post(pictures=picture(), asked=asked, allow_film="yes")
    assert "changed while the page was open" in answer.content.decode()
    assert Entry.objects.count() == 0
    assert 'value="yes" checked' not in answer.content.decode()


def test_the_age_must_be_stated(knitter: Knitter) -> None:
    answer = knitter.post(pictures=picture(), is_old_enough=None)
    assert "parent or guardian" in str(answer.context["sending"].sender.errors["is_old_enough"])


def test_a_token_of_another_series_opens_no_draft_of_it(knitter: Knitter, series: Series) -> None:
    knitter.post("add", pictures=picture())
    Series.objects.create(
        slug="other",
        short_code="other",
        title="Other",
        teacher=series.teacher,
        teacher_name="T",
        pattern_version=series.pattern_version,
        opens_on=series.opens_on,
        closes_on=series.closes_on,
    )
    given = {"draft": knitter.token, "add": "yes"}
    answer = knitter.browser.post("/series/other/send/", given, follow=True)
    assert answer.context["draft"].row is None
    assert answer.context["draft"].token != knitter.token
