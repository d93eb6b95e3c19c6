"""Corners of permissions that the pages' own buttons hardly reach: all of them lead to no use."""

from typing import Any

import pytest
from django.core import mail
from django.test import Client
from django.utils import timezone

from gallery.consent.texts import current_texts
from gallery.contributions import permissions
from gallery.contributions.links import garment_behind
from gallery.contributions.models import Contribution, GuardianAnswer, Photo
from gallery.contributions.people.answers import add_answer
from gallery.contributions.people.cares import Asked, care_of
from gallery.contributions.people.guardian import correct_address
from gallery.contributions.people.said import PeopleSaid
from gallery.contributions.people.say import say
from gallery.series.models import Series

from .conftest import Knitter, picture
from .test_people import GUARDIAN, YOUNG, child, corrected, letter_token, posted_back, posting

__all__ = ["child", "posting"]  # the fixtures

pytestmark = pytest.mark.django_db


@pytest.fixture
def draft(series: Series) -> Contribution:
    """A garment that was begun and not sent: nothing was asked, so nothing stands."""
    return Contribution.objects.create(series=series)


@pytest.mark.parametrize("token", ["", "short", "x" * 500, "with spaces and /"])
def test_what_is_no_token_opens_nothing(db: None, token: str) -> None:
    assert garment_behind(token) is None


def test_a_draft_allows_nothing_and_nothing_can_be_taken_back(draft: Contribution) -> None:
    assert permissions.standing(draft) == []
    with pytest.raises(permissions.OtherWordsError):
        permissions.withdraw_all(draft)


def test_about_a_draft_no_guardian_can_be_asked(draft: Contribution) -> None:
    care = care_of(draft, None)
    assert not care.questions
    text = current_texts(scope=draft.series.slug)[0]
    asked = Asked(text.purpose, text, timezone.now(), None)
    with pytest.raises(TypeError, match="not sent"):
        add_answer(care, asked, is_yes=True, way=GuardianAnswer.Way.LINK)
    assert not GuardianAnswer.objects.exists()


def test_a_complete_answer_about_people_is_not_changed_by_a_late_one(child: Knitter) -> None:
    photo = child.garment.photos.get()
    assert not say(child.garment, photo, PeopleSaid(Photo.People.NOBODY))
    assert child.garment.photos.get().people == Photo.People.CHILD


def test_a_sender_who_says_later_that_she_is_the_guardian_has_answered(knitter: Knitter) -> None:
    knitter.post(pictures=picture(), new_people=None)
    photo = knitter.garment.photos.get()
    assert say(knitter.garment, photo, PeopleSaid(Photo.People.CHILD, sender_is_guardian=True))
    answers = GuardianAnswer.objects.filter(about=photo.public_id)
    assert {(one.purpose, one.is_yes, one.way) for one in answers} >= {
        ("public_pages", True, GuardianAnswer.Way.SENDER)
    }


def test_a_young_senders_guardian_can_be_asked_at_another_address(
    knitter: Knitter, posting: Any
) -> None:
    posting(
        knitter.post,
        pictures=picture(),
        allow_public_pages="yes",
        **{"is_old_enough": None, **YOUNG},
    )
    wrong = letter_token()
    wish = {"correct": knitter.garment.public_id, "guardian_email": "right@example.org"}
    page = f"/mine/{knitter.garment.public_id}/people/"
    posting(knitter.browser.post, page, wish)
    knitter.garment.refresh_from_db()
    assert knitter.garment.guardian_email == "right@example.org"
    assert mail.outbox[-1].to == ["right@example.org"]
    assert Client().get(f"/guardian/link/{wrong}/").status_code == 404


def test_a_guardians_link_lives_on_while_another_picture_needs_it(
    knitter: Knitter, posting: Any
) -> None:
    both = {"people": "child", "guardian_email": GUARDIAN}
    posting(posted_back, knitter, **both)
    first = knitter.garment.photos.get()
    second = knitter.garment.photos.get()
    second.pk, second.public_id, second.position = None, "another", 2
    second.original_sha256 = "0" * 64
    second.save()
    token = letter_token()
    assert correct_address(knitter.garment, first.public_id, "right@example.org")
    assert Client().get(f"/guardian/link/{token}/").status_code == 303


def test_only_what_a_guardian_was_named_for_can_be_asked_elsewhere(child: Knitter) -> None:
    for about in ("missing", child.garment.public_id):
        assert not correct_address(child.garment, about, "right@example.org")
    assert child.garment.photos.get().guardian_email == GUARDIAN


def test_the_same_address_again_is_no_correction(child: Knitter, posting: Any) -> None:
    for _once in range(5):
        corrected(child, posting, GUARDIAN)
    assert child.garment.links.filter(revoked_at__isnull=False).count() == 0
