"""People in pictures: who must be answered for, who must agree, what stays unused till then."""

import datetime
import io
import json
import re
import zipfile
from collections.abc import Callable
from typing import Any

import pytest
from django.core import mail
from django.db import DatabaseError, connection, transaction
from django.test import Client
from django.utils import timezone

from gallery.consent.texts import add_text
from gallery.contributions.links import garment_behind
from gallery.contributions.models import Contribution, GuardianAnswer, PrivateLink
from gallery.contributions.people.cares import care_of
from gallery.contributions.people.cleared import cleared_photos
from gallery.contributions.tokens import kept_of, new_token

from .conftest import Knitter, picture

pytestmark = pytest.mark.django_db
GUARDIAN = "guardian@example.org"
YOUNG = {"is_younger": "on", "guardian_name": "Orla Fenwick", "guardian_email": GUARDIAN}
MAY_BE_SHOWN = {"allow_public_pages": "yes"}


def posted_back(knitter: Knitter, **given: Any) -> Any:
    """Send with one kept picture, answering about its people; the page that comes back."""
    knitter.post("add", pictures=picture(), new_people=None)
    name = f"picture-{knitter.garment.photos.get().public_id}"
    answers = {f"{name}-{field}": value for field, value in given.items()}
    return knitter.post(**{f"{name}-description": "On a bench", **answers, **MAY_BE_SHOWN})


def mistakes(answer: Any) -> dict[str, Any]:
    return dict(answer.context["sending"].photos[0].form.errors)


def letter_token(number: int = -1) -> str:
    found = re.search(r"/guardian/link/([\w-]+)/", str(mail.outbox[number].body))
    assert found
    return found[1]


@pytest.fixture
def posting(settings: Any, django_capture_on_commit_callbacks: Any) -> Callable[..., Any]:
    """Do something and let the letters leave."""

    def act(deed: Callable[..., Any], *what: Any, **how: Any) -> Any:
        with django_capture_on_commit_callbacks(execute=True):
            return deed(*what, **how)

    return act


@pytest.fixture
def child(knitter: Knitter, posting: Any) -> Knitter:
    """A garment was sent with a picture of a child; its guardian was written to."""
    posting(posted_back, knitter, people="child", guardian_email="Guardian@Example.org")
    return knitter


@pytest.fixture
def guardians_browser(child: Knitter) -> Client:
    browser = Client()
    browser.get(f"/guardian/link/{letter_token()}/")
    return browser


def said_by(browser: Client, garment: Contribution, word: str) -> Any:
    page = browser.get(f"/guardian/{garment.public_id}/")
    thing = page.context["things"][0].care
    asked = [str(one.text.pk) for one in thing.questions]
    data = {"about": thing.about, "answer": word, "asked": asked}
    return browser.post(f"/guardian/{garment.public_id}/", data)


def is_cleared(knitter: Knitter) -> bool:
    return cleared_photos("public_pages").filter(contribution=knitter.garment).exists()


def test_nobody_is_chosen_before_the_knitter_chooses(knitter: Knitter) -> None:
    knitter.post("add", pictures=picture(), new_people=None)
    page = knitter.browser.get(knitter.send_address).content.decode()
    assert not re.search(r'<input[^>]*-people"[^>]*\bchecked', page)


def test_a_picture_that_may_be_shown_needs_an_answer_and_nothing_is_lost(knitter: Knitter) -> None:
    answer = posted_back(knitter)
    assert mistakes(answer) == {"people": ["Please say who can be recognised in this picture."]}
    assert knitter.garment.sent_at is None
    assert knitter.garment.photos.get().description == "On a bench"


def test_a_picture_that_is_shown_nowhere_needs_no_answer(knitter: Knitter) -> None:
    knitter.post(pictures=picture(), new_people=None, allow_notes="yes")
    assert knitter.garment.sent_at is not None


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"people": "others"}, "others_agree"),
        ({"people": "child"}, "guardian_email"),
        ({"people": "child", "guardian_email": "nobody@home"}, "guardian_email"),
        ({"people": "a ghost"}, "people"),
    ],
)
def test_what_is_missing_is_said_beside_its_field(
    knitter: Knitter, given: dict[str, str], field: str
) -> None:
    assert list(mistakes(posted_back(knitter, **given))) == [field]


@pytest.mark.parametrize(
    ("given", "cleared"),
    [
        ({"people": "nobody"}, True),
        ({"people": "me"}, True),
        ({"people": "others", "others_agree": "on"}, False),
        ({"people": "child", "guardian_email": GUARDIAN}, False),
        ({"people": "child", "sender_is_guardian": "on"}, True),
    ],
)
def test_only_what_needs_nobody_elses_yes_is_cleared_at_once(
    knitter: Knitter, given: dict[str, str], cleared: bool
) -> None:
    posted_back(knitter, **given)
    assert (knitter.garment.sent_at is not None, is_cleared(knitter)) == (True, cleared)


def test_a_sender_who_is_the_guardian_is_recorded_as_such(knitter: Knitter) -> None:
    posted_back(knitter, people="child", sender_is_guardian="on")
    said = GuardianAnswer.objects.filter(agreement=knitter.garment.agreement)
    assert {(one.way, one.is_yes, one.purpose) for one in said} == {
        ("sender", True, "film"),
        ("sender", True, "public_pages"),
    }


def test_a_guardian_address_is_kept_with_a_childs_picture_only(knitter: Knitter) -> None:
    posted_back(knitter, people="me", guardian_email=GUARDIAN, others_agree="on")
    photo = knitter.garment.photos.get()
    assert (photo.people, photo.guardian_email, photo.others_agree) == ("me", "", False)


def test_the_guardian_gets_one_letter_with_a_link_of_seven_days(child: Knitter) -> None:
    assert [letter.to for letter in mail.outbox] == [[GUARDIAN]]
    link = PrivateLink.objects.get(purpose="guardian")
    assert link.token_sha256 == kept_of(letter_token())
    assert (link.expires_at - link.created_at).days in (6, 7)


def test_no_letter_leaves_where_nothing_is_allowed(knitter: Knitter, posting: Any) -> None:
    knitter.post("add", pictures=picture(), new_people=None)
    name = f"picture-{knitter.garment.photos.get().public_id}"
    given = {f"{name}-people": "child", f"{name}-guardian_email": GUARDIAN}
    posting(knitter.post, **{f"{name}-description": "", **given})
    assert (knitter.garment.sent_at is not None, mail.outbox) == (True, [])


def test_following_the_link_changes_nothing_and_hides_the_token(child: Knitter) -> None:
    before = list(PrivateLink.objects.values())
    token = letter_token()
    answer = Client().get(f"/guardian/link/{token}/")
    assert (answer.status_code, token in answer["Location"]) == (303, False)
    assert answer["Referrer-Policy"] == "no-referrer"
    assert list(PrivateLink.objects.values()) == before
    assert not GuardianAnswer.objects.exists()


def test_the_guardians_form_can_be_sent_by_a_browser(
    child: Knitter, guardians_browser: Client
) -> None:
    # Under "no-referrer" a browser posts with the origin "null", which is refused as a forgery.
    answer = guardians_browser.get(f"/guardian/{child.garment.public_id}/")
    assert answer["Referrer-Policy"] == "same-origin"


def test_a_link_for_one_purpose_never_opens_the_other(child: Knitter) -> None:
    own = child.link.rstrip("/").rsplit("/", 1)[1]
    assert garment_behind(letter_token()) is None
    assert Client().get(f"/mine/link/{letter_token()}/").status_code == 404
    assert Client().get(f"/guardian/link/{own}/").status_code == 404


@pytest.mark.parametrize("what", ["wrong", "short", "expired", "revoked"])
def test_a_link_that_is_not_good_is_answered_alike(child: Knitter, what: str) -> None:
    token = {"wrong": new_token(), "short": "x"}.get(what, letter_token())
    ends = {"expired": "expires_at", "revoked": "revoked_at"}.get(what)
    if ends:
        PrivateLink.objects.filter(purpose="guardian").update(**{ends: timezone.now()})
    answer = Client().get(f"/guardian/link/{token}/")
    other = Client().get(f"/guardian/link/{new_token()}/")
    assert (answer.status_code, len(answer.content)) == (404, len(other.content))


def test_a_revoked_link_ends_what_it_opened(child: Knitter, guardians_browser: Client) -> None:
    page = f"/guardian/{child.garment.public_id}/"
    assert guardians_browser.get(page).status_code == 200
    PrivateLink.objects.filter(purpose="guardian").update(revoked_at=timezone.now())
    assert guardians_browser.get(page).status_code == 404


def test_the_guardian_sees_the_picture_and_the_questions_that_were_allowed(
    child: Knitter, guardians_browser: Client
) -> None:
    page = guardians_browser.get(f"/guardian/{child.garment.public_id}/")
    [thing] = page.context["things"]
    assert [one.purpose for one in thing.care.questions] == ["public_pages"]
    photo = child.garment.photos.get()
    address = f"/pictures/{photo.public_id}/small.jpg"
    seen = [browser.get(address) for browser in (guardians_browser, Client())]
    for answer in seen:
        b"".join(answer)
    assert [answer.status_code for answer in seen] == [200, 404]
    assert guardians_browser.get(f"/pictures/{photo.public_id}/original").status_code == 404


def test_the_guardians_yes_clears_the_picture_and_her_no_takes_it_back(
    child: Knitter, guardians_browser: Client
) -> None:
    stood = [is_cleared(child)]
    for word in ("yes", "no", "yes"):
        said_by(guardians_browser, child.garment, word)
        stood.append(is_cleared(child))
    assert stood == [False, True, False, True]
    assert GuardianAnswer.objects.count() == 3


def test_the_sender_takes_a_guardians_answers_away_with_her_data(
    child: Knitter, guardians_browser: Client
) -> None:
    said_by(guardians_browser, child.garment, "yes")
    answer = child.browser.get(f"/mine/{child.garment.public_id}/everything.zip")
    pack = zipfile.ZipFile(io.BytesIO(b"".join(answer)))  # type: ignore[call-overload]
    data = json.loads(pack.read("data.json"))
    assert data["photos"][0]["people"] == "child"
    told = [(one["purpose"], one["yes"], one["way"]) for one in data["guardian_answers"]]
    assert told == [("public_pages", True, "link")]


def test_a_yes_counts_for_what_was_asked_and_nothing_else(
    child: Knitter, guardians_browser: Client
) -> None:
    said_by(guardians_browser, child.garment, "yes")
    assert not cleared_photos("film").exists()


def test_an_answer_to_words_that_were_not_shown_is_none(
    child: Knitter, guardians_browser: Client
) -> None:
    about = child.garment.photos.get().public_id
    data = {"about": about, "answer": "yes", "asked": ["999"]}
    guardians_browser.post(f"/guardian/{child.garment.public_id}/", data)
    assert not GuardianAnswer.objects.exists()


def test_a_guardians_yes_stays_with_the_words_it_was_given_to(
    child: Knitter, guardians_browser: Client, series: Any
) -> None:
    said_by(guardians_browser, child.garment, "yes")
    older = GuardianAnswer.objects.get().text
    newer = add_text("public_pages", "May my photos be shown?", "Anyone.", scope=series.slug)
    child.browser.get(child.link)
    wish = {"purpose": newer.purpose, "answer": "yes", "text": newer.pk}
    child.browser.post(f"/mine/{child.garment.public_id}/permissions/", wish)
    page = guardians_browser.get(f"/guardian/{child.garment.public_id}/").content.decode()
    assert older.sentence in page and newer.sentence in page and is_cleared(child)
    for _ in range(2):  # pressed twice, kept once
        said_by(guardians_browser, child.garment, "yes")
    assert [one.text for one in GuardianAnswer.objects.all()] == [older, newer]


def test_a_guardian_answers_for_nothing_but_her_own(
    child: Knitter, guardians_browser: Client, another: Any
) -> None:
    other = another()
    other.browser.get(other.send_address)
    posted_back(other, people="child", guardian_email="someone-else@example.org")
    stranger = other.garment.photos.get()
    text = care_of(other.garment, stranger).questions[0].text.pk
    data = {"about": stranger.public_id, "answer": "yes", "asked": [str(text)]}
    guardians_browser.post(f"/guardian/{child.garment.public_id}/", data)
    assert guardians_browser.get(f"/guardian/{other.garment.public_id}/").status_code == 404
    assert not GuardianAnswer.objects.exists()


@pytest.mark.parametrize(
    "attack",
    [
        "UPDATE contributions_guardiananswer SET is_yes = NOT is_yes",
        "DELETE FROM contributions_guardiananswer",
        "INSERT OR REPLACE INTO contributions_guardiananswer "
        "SELECT * FROM contributions_guardiananswer LIMIT 1",
    ],
)
def test_the_database_refuses_to_change_a_guardians_answer(
    child: Knitter, guardians_browser: Client, attack: str
) -> None:
    if "REPLACE" in attack and connection.vendor != "sqlite":
        pytest.skip("only SQLite knows INSERT OR REPLACE")
    said_by(guardians_browser, child.garment, "no")
    with pytest.raises(DatabaseError), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(attack)


def test_a_younger_sender_names_a_guardian_and_nothing_is_used_before_the_yes(
    knitter: Knitter, posting: Any
) -> None:
    younger = {
        "is_old_enough": None,
        "is_younger": "on",
        "guardian_name": "Orla Fenwick",
        "guardian_email": GUARDIAN,
    }
    posting(knitter.post, pictures=picture(), allow_public_pages="yes", **younger)
    assert knitter.garment.is_younger
    browser = Client()
    browser.get(f"/guardian/link/{letter_token()}/")
    stood = [is_cleared(knitter)]
    for word in ("yes", "no"):
        said_by(browser, knitter.garment, word)
        stood.append(is_cleared(knitter))
    assert stood == [False, True, False]


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"is_old_enough": None}, "is_old_enough"),
        ({"is_younger": "on"}, "is_younger"),
        (
            {"is_old_enough": None, "is_younger": "on", "guardian_name": "Orla Fenwick"},
            "guardian_email",
        ),
        (
            {"is_old_enough": None, "is_younger": "on", "guardian_email": "g@example.org"},
            "guardian_name",
        ),
        (
            {
                "is_old_enough": None,
                "is_younger": "on",
                "guardian_name": "Orla Fenwick",
                "email": "me@example.org",
                "guardian_email": "Me@Example.org",
            },
            "guardian_email",
        ),
    ],
)
def test_an_unclear_age_is_asked_about_beside_its_field(
    knitter: Knitter, given: dict[str, Any], field: str
) -> None:
    answer = knitter.post(pictures=picture(), **given)
    assert list(answer.context["sending"].sender.errors) == [field]


def test_a_younger_sender_cannot_be_a_childs_guardian(knitter: Knitter) -> None:
    knitter.post("add", pictures=picture(), new_people=None)
    name = f"picture-{knitter.garment.photos.get().public_id}"
    younger = {
        "is_old_enough": None,
        "is_younger": "on",
        "guardian_name": "Orla Fenwick",
        "guardian_email": GUARDIAN,
    }
    said = {f"{name}-people": "child", f"{name}-sender_is_guardian": "on"}
    answer = knitter.post(**{f"{name}-description": "", **said}, **younger, **MAY_BE_SHOWN)
    assert list(mistakes(answer)) == ["sender_is_guardian"]


def test_what_was_left_open_is_answered_later_on_the_senders_own_page(knitter: Knitter) -> None:
    knitter.post(pictures=picture(), new_people=None)
    page = f"/mine/{knitter.garment.public_id}/people/"
    photo = knitter.garment.photos.get().public_id
    knitter.browser.post(page, {"photo": photo, f"{photo}-people": "me"})
    assert is_cleared(knitter)
    again = knitter.browser.post(page, {"photo": photo, f"{photo}-people": "nobody"})
    assert (again.status_code, knitter.garment.photos.get().people) == (404, "me")


def test_the_guardian_is_written_to_again_once_an_hour(child: Knitter, posting: Any) -> None:
    page = f"/mine/{child.garment.public_id}/people/"
    wish = {"again": child.garment.photos.get().public_id}
    posting(child.browser.post, page, wish)
    assert len(mail.outbox) == 1
    PrivateLink.objects.filter(purpose="guardian").update(created_at="2026-01-01T00:00Z")
    first = letter_token()
    posting(child.browser.post, page, wish)
    assert len(mail.outbox) == 2
    assert letter_token() != first
    assert Client().get(f"/guardian/link/{letter_token()}/").status_code == 303


def test_a_guardian_is_written_to_again_when_more_is_allowed_later(
    child: Knitter, posting: Any
) -> None:
    PrivateLink.objects.filter(purpose="guardian").update(
        created_at=timezone.now() - datetime.timedelta(hours=2)
    )
    page = f"/mine/{child.garment.public_id}/"
    child.browser.get(child.link)
    film = child.browser.get(page).context["permissions"][0]
    wish = {"purpose": film.purpose, "answer": "yes", "text": film.text.pk}
    posting(child.browser.post, f"{page}permissions/", wish)
    assert [letter.to for letter in mail.outbox] == [[GUARDIAN], [GUARDIAN]]


def test_when_a_garment_is_erased_the_guardians_answer_stays_and_names_nobody(
    child: Knitter, guardians_browser: Client
) -> None:
    said_by(guardians_browser, child.garment, "yes")
    child.garment.delete()
    kept = str(list(GuardianAnswer.objects.values()))
    assert ("is_yes': True" in kept, GUARDIAN in kept) == (True, False)
    assert not PrivateLink.objects.exists()


def test_a_young_senders_guardian_is_named_to_the_teacher_and_to_nobody_else(
    knitter: Knitter, posting: Any
) -> None:
    posting(
        knitter.post,
        pictures=picture(),
        allow_public_pages="yes",
        **{"is_old_enough": None, **YOUNG},
    )
    desk = Client()
    desk.force_login(knitter.garment.series.teacher)
    garment = knitter.garment.public_id
    assert "Orla Fenwick" in desk.get(f"/desk/garments/{garment}/").content.decode()
    browser = Client()
    browser.get(f"/guardian/link/{letter_token()}/")
    said_by(browser, knitter.garment, "yes")
    for page in ("/", f"/garments/{garment}/"):
        assert "Orla Fenwick" not in Client().get(page).content.decode()


def test_the_thanks_say_who_was_written_to(child: Knitter) -> None:
    page = child.browser.get(f"/series/{child.garment.series.slug}/sent/").content.decode()
    assert GUARDIAN in page and "7 days" in page


def test_without_letters_the_form_and_the_thanks_say_that_nobody_can_be_asked(
    knitter: Knitter, settings: Any, posting: Any
) -> None:
    settings.POSTS_LETTERS = False
    assert "cannot send letters" in knitter.browser.get(knitter.send_address).content.decode()
    posting(posted_back, knitter, people="child", guardian_email=GUARDIAN)
    page = knitter.browser.get(f"/series/{knitter.garment.series.slug}/sent/").content.decode()
    assert "nobody is asked yet" in page


def corrected(child: Knitter, posting: Any, address: str) -> Any:
    wish = {"correct": child.garment.photos.get().public_id, "guardian_email": address}
    return posting(
        child.browser.post, f"/mine/{child.garment.public_id}/people/", wish, follow=True
    )


def test_a_wrong_address_is_corrected_and_its_link_ends(child: Knitter, posting: Any) -> None:
    wrong = letter_token()
    corrected(child, posting, "Right@Example.org")
    assert [one.to for one in mail.outbox[-1:]] == [["right@example.org"]]
    assert Client().get(f"/guardian/link/{wrong}/").status_code == 404
    assert Client().get(f"/guardian/link/{letter_token()}/").status_code == 303


def test_other_addresses_can_be_tried_three_times_a_day(child: Knitter, posting: Any) -> None:
    for number in range(3):
        corrected(child, posting, f"try{number}@example.org")
    before = len(mail.outbox)
    answer = corrected(child, posting, "try3@example.org")
    assert "give it again tomorrow" in answer.content.decode()
    assert len(mail.outbox) == before
    assert child.garment.photos.get().guardian_email == "try2@example.org"
    a_day_ago = timezone.now() - datetime.timedelta(hours=25)
    child.garment.links.filter(revoked_at__isnull=False).update(revoked_at=a_day_ago)
    corrected(child, posting, "try3@example.org")
    assert mail.outbox[-1].to == ["try3@example.org"]


def test_without_letters_no_page_says_that_one_went(
    child: Knitter, settings: Any, posting: Any
) -> None:
    settings.POSTS_LETTERS = False
    page = f"/mine/{child.garment.public_id}/people/"
    shown = child.browser.get(page).content.decode()
    assert "may not have been asked" in shown and "A letter went" not in shown
    before = len(mail.outbox)
    again = {"again": child.garment.photos.get().public_id}
    answer = posting(child.browser.post, page, again, follow=True).content.decode()
    assert "cannot send letters" in answer and "on its way" not in answer
    assert len(mail.outbox) == before
    answer = corrected(child, posting, "right@example.org").content.decode()
    assert "The address is kept." in answer and "on its way" not in answer
    desk = Client()
    desk.force_login(child.garment.series.teacher)
    waiting = desk.get(f"/desk/garments/{child.garment.public_id}/").content.decode()
    assert "whom this site cannot write to" in waiting


@pytest.mark.parametrize(
    ("address", "said"), [("", "the right address"), ("nowhere", "not complete")]
)
def test_an_address_that_cannot_be_written_to_is_refused_in_words(
    child: Knitter, posting: Any, address: str, said: str
) -> None:
    answer = corrected(child, posting, address)
    assert said in answer.content.decode()
    assert child.garment.photos.get().guardian_email == GUARDIAN


def test_once_a_guardian_has_answered_the_address_stays(
    child: Knitter, guardians_browser: Client, posting: Any
) -> None:
    said_by(guardians_browser, child.garment, "no")
    answer = corrected(child, posting, "right@example.org")
    assert "answered already" in answer.content.decode()
    assert child.garment.photos.get().guardian_email == GUARDIAN
    missing = {"correct": "missing", "guardian_email": "right@example.org"}
    page = f"/mine/{child.garment.public_id}/people/"
    assert child.browser.post(page, missing).status_code == 404
