"""A draft: from the first picture on, on every device that holds a key, until it ends."""

import datetime
import re
from typing import Any

import pytest
from django.core import mail
from django.core.management import call_command
from django.test import Client
from django.utils import timezone

from gallery.contributions.draft_links import MOST_LETTERS
from gallery.contributions.models import Contribution, PrivateLink
from gallery.contributions.pictures import originals
from gallery.contributions.tokens import kept_of

from .conftest import Knitter, picture

pytestmark = pytest.mark.django_db
TO = "anna@example.org"
ELSEWHERE = re.compile(r"http://[^\s]+(/go-on/[A-Za-z0-9_-]+/)")


@pytest.fixture
def letters(django_capture_on_commit_callbacks: Any, settings: Any) -> Any:
    """Run a deed with its letters; gives the bodies of those that left."""
    settings.POSTS_LETTERS = True

    def run(deed: Any) -> list[str]:
        before = len(mail.outbox)
        with django_capture_on_commit_callbacks(execute=True):
            deed()
        return [str(letter.body) for letter in mail.outbox[before:]]

    return run


def link_in(bodies: list[str]) -> str:
    [body] = bodies
    found = ELSEWHERE.search(body)
    assert found is not None
    return found.group(1)


def begun(knitter: Knitter, letters: Any) -> str:
    knitter.post("add", pictures=picture())
    return link_in(letters(lambda: knitter.post("post_link", email=TO, notes="Half way.")))


def test_the_posted_link_opens_the_draft_elsewhere_and_hides_its_token(
    knitter: Knitter, letters: Any
) -> None:
    link = begun(knitter, letters)
    other = Client()
    answer = other.get(link)
    assert (answer.status_code, answer["Location"]) == (303, knitter.send_address)
    assert answer["Referrer-Policy"] == "no-referrer"
    page = other.get(knitter.send_address)
    assert len(page.context["sending"].photos) == 1
    assert "Half way." in page.content.decode()


def test_of_the_posted_link_only_the_hash_is_kept(knitter: Knitter, letters: Any) -> None:
    token = begun(knitter, letters).split("/")[2]
    link = PrivateLink.objects.get(purpose=PrivateLink.Purpose.DRAFT)
    assert link.token_sha256 == kept_of(token)
    assert token not in str(Contribution.objects.values().get())


def test_following_the_link_changes_nothing(knitter: Knitter, letters: Any) -> None:
    link = begun(knitter, letters)
    before = Contribution.objects.values().get()
    Client().get(link)
    assert Contribution.objects.values().get() == before


def test_a_link_that_ended_is_like_none(knitter: Knitter, letters: Any) -> None:
    link = begun(knitter, letters)
    PrivateLink.objects.update(expires_at=timezone.now())
    assert Client().get(link).status_code == 404


def elsewhere(knitter: Knitter, link: str) -> Knitter:
    """The same person at another device."""
    other = Knitter(knitter.garment.series)
    other.browser.get(link)
    other.token = link.split("/")[2]
    return other


def test_two_devices_add_pictures_to_one_draft_and_send_it_once(
    knitter: Knitter, letters: Any
) -> None:
    other = elsewhere(knitter, begun(knitter, letters))
    other.post("add", pictures=picture("teal"))
    knitter.post("add", pictures=picture("olive"))
    name = {f"picture-{one.public_id}-people": "nobody" for one in knitter.garment.photos.all()}
    other.post(**name)
    knitter.post(**name)
    [row] = Contribution.objects.all()
    assert row.sent_at is not None
    assert row.photos.count() == 3


def test_what_another_device_typed_is_not_emptied_by_a_page_that_does_not_know_it(
    knitter: Knitter, letters: Any
) -> None:
    other = elsewhere(knitter, begun(knitter, letters))
    as_of = other.browser.get(other.send_address).context["as_of"]
    knitter.post("keep", notes="From the phone.", as_of="an older state")
    other.post("keep", credit_name="Bérénice", as_of=as_of)
    typed = knitter.garment.typed
    assert (typed["notes"], typed["credit_name"]) == ("From the phone.", "Bérénice")


def test_a_page_that_knows_all_may_empty_a_field(knitter: Knitter) -> None:
    knitter.post("add", pictures=picture(), notes="Half way.")
    as_of = knitter.browser.get(knitter.send_address).context["as_of"]
    knitter.post("keep", notes="", as_of=as_of)
    assert "notes" not in knitter.garment.typed


def test_without_a_whole_address_no_letter_leaves_and_it_is_said(
    knitter: Knitter, letters: Any
) -> None:
    knitter.post("add", pictures=picture())
    answers: list[Any] = []
    assert letters(lambda: answers.append(knitter.post("post_link", email="anna@"))) == []
    assert "whole e-mail address" in answers[0].content.decode()


def test_nobody_is_flooded_with_links(knitter: Knitter, letters: Any) -> None:
    knitter.post("add", pictures=picture())
    for _ in range(MOST_LETTERS):
        assert len(letters(lambda: knitter.post("post_link", email=TO))) == 1
    assert letters(lambda: knitter.post("post_link", email=TO)) == []


def days_ago(days: int) -> None:
    Contribution.objects.update(touched_at=timezone.now() - datetime.timedelta(days=days))


def test_the_page_says_until_when_a_draft_is_kept(knitter: Knitter) -> None:
    knitter.post("add", pictures=picture())
    days_ago(10)
    told = knitter.browser.get(knitter.send_address).context["kept_until"]
    assert told == timezone.localdate() + datetime.timedelta(days=50)


@pytest.mark.parametrize(("days", "warned"), [(52, 0), (53, 1)])
def test_a_week_before_it_ends_its_sender_is_written_to_once(
    knitter: Knitter, letters: Any, days: int, warned: int
) -> None:
    begun(knitter, letters)
    days_ago(days)
    assert len(letters(lambda: call_command("sweep"))) == warned
    assert letters(lambda: call_command("sweep")) == []


@pytest.mark.parametrize(("days", "left"), [(59, 1), (60, 0)])
def test_a_draft_nobody_touches_for_sixty_days_is_gone_with_its_files(
    knitter: Knitter, days: int, left: int
) -> None:
    knitter.post("add", pictures=picture())
    sha256 = knitter.garment.photos.get().original_sha256
    days_ago(days)
    call_command("sweep")
    assert Contribution.objects.count() == left
    assert originals().path(sha256).exists() == bool(left)


def test_no_draft_ends_before_its_letter_had_a_week(knitter: Knitter, letters: Any) -> None:
    begun(knitter, letters)
    days_ago(90)
    letters(lambda: call_command("sweep"))
    assert Contribution.objects.count() == 1
    Contribution.objects.update(warned_at=timezone.now() - datetime.timedelta(days=7))
    letters(lambda: call_command("sweep"))
    assert Contribution.objects.count() == 0


def test_a_draft_can_be_thrown_away(knitter: Knitter) -> None:
    knitter.post("add", pictures=picture())
    sha256 = knitter.garment.photos.get().original_sha256
    away = knitter.send_address + "away/"
    assert "Throw it away" in knitter.browser.get(away).content.decode()
    assert Contribution.objects.count() == 1
    knitter.browser.post(away)
    assert Contribution.objects.count() == 0
    assert not originals().path(sha256).exists()


def test_a_sent_garment_cannot_be_thrown_away_so(knitter: Knitter) -> None:
    knitter.post("add", pictures=picture())
    knitter.post(**{f"picture-{knitter.garment.photos.get().public_id}-people": "nobody"})
    assert knitter.browser.post(knitter.send_address + "away/").status_code == 404
    assert Contribution.objects.count() == 1


def test_a_call_that_closes_meanwhile_loses_nothing(knitter: Knitter, series: Any) -> None:
    knitter.post("add", pictures=picture(), notes="Nearly there.")
    series.closes_on = timezone.localdate() - datetime.timedelta(days=1)
    series.save()
    page = knitter.post(notes="Nearly there.").content.decode()
    assert "The call closed on" in page and "teacher@example.org" in page
    assert "Nearly there." in page
    assert knitter.garment.sent_at is None and knitter.garment.photos.count() == 1
