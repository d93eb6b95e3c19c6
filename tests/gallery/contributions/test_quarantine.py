"""What looks like a machine's sending is kept apart, never lost, and nobody is asked a puzzle."""

from typing import Any

import pytest
from django.core import mail
from django.core.signing import TimestampSigner
from django.test import Client

from gallery.contributions import limits, suspicion
from gallery.contributions.arrived import arrived, held
from gallery.contributions.models import Contribution
from gallery.review import listing
from gallery.review.standing import newest_verdict

from .conftest import Knitter, picture

pytestmark = pytest.mark.django_db
TO, GUARDIAN = "anna@example.org", "guardian@example.org"


def with_picture(knitter: Knitter, **given: Any) -> Any:
    knitter.post("add", pictures=picture())
    name = f"picture-{knitter.garment.photos.get().public_id}"
    return knitter.post(**{f"{name}-people": "nobody", **given})


def stamped(seconds_ago: int, monkeypatch: pytest.MonkeyPatch) -> str:
    """A page's stamp of so long ago."""
    import time  # noqa: PLC0415

    now = time.time()
    with monkeypatch.context() as past:
        past.setattr(time, "time", lambda: now - seconds_ago)
        return suspicion.stamp()


def test_a_field_people_do_not_see_gives_a_machine_away(knitter: Knitter) -> None:
    with_picture(knitter, website="https://example.org")
    assert knitter.garment.held_because == "hidden-field"


@pytest.mark.parametrize(("seconds", "why"), [(900, "too-fast"), (1001, "")])
def test_nobody_fills_the_page_in_faster_than_the_limit(
    knitter: Knitter, monkeypatch: pytest.MonkeyPatch, seconds: int, why: str
) -> None:
    monkeypatch.setattr(suspicion, "LEAST_SECONDS", 1000)
    with_picture(knitter, shown=stamped(seconds, monkeypatch))
    assert knitter.garment.held_because == why


@pytest.mark.parametrize("shown", ["", "shown:never:signed"])
def test_a_sending_without_the_page_is_held_back(knitter: Knitter, shown: str) -> None:
    with_picture(knitter, shown=shown)
    assert knitter.garment.held_because == "too-fast"


def test_the_stamp_of_another_purpose_does_not_count(knitter: Knitter) -> None:
    with_picture(knitter, shown=TimestampSigner(salt="another").sign("shown"))
    assert knitter.garment.held_because == "too-fast"


def test_a_page_open_for_more_than_a_day_is_shown_again_with_everything(
    knitter: Knitter, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = with_picture(knitter, shown=stamped(86_401, monkeypatch), notes="All of it.")
    words = page.content.decode()
    assert "open for more than a day" in words and "All of it." in words
    assert knitter.garment.sent_at is None
    with_new = knitter.browser.get(knitter.send_address).context["shown"]
    assert not suspicion.is_stale({"shown": with_new})  # type: ignore[arg-type]


def test_whoever_sends_the_page_at_once_that_came_back_is_no_machine(
    knitter: Knitter, monkeypatch: pytest.MonkeyPatch
) -> None:
    with_picture(knitter, shown=stamped(90_000, monkeypatch))
    monkeypatch.setattr(suspicion, "LEAST_SECONDS", 1000)
    again = knitter.browser.get(knitter.send_address + "?again=1").context["shown"]
    with_picture(knitter, shown=again)
    assert (knitter.garment.sent_at is not None, knitter.garment.held_because) == (True, "")


def test_a_page_with_a_mistake_comes_back_with_the_stamp_it_had(
    knitter: Knitter, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = stamped(900, monkeypatch)
    page = with_picture(knitter, shown=first, size=None)
    assert page.context["shown"] == first


def test_more_garments_than_people_send_are_held_back(
    knitter: Knitter, another: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(limits, "MOST_GARMENTS_AN_HOUR", 1)
    with_picture(knitter)
    second = another()
    with_picture(second)
    assert (knitter.garment.held_because, second.garment.held_because) == ("", "rate")


@pytest.fixture
def machine(knitter: Knitter) -> Knitter:
    """A sending that is held back."""
    with_picture(
        knitter,
        website="x",
        email=TO,
        allow_film="yes",
        allow_public_pages="yes",
        is_old_enough=None,
        is_younger="on",
        guardian_name="Odo",
        guardian_email=GUARDIAN,
    )
    return knitter


def desk_of(knitter: Knitter) -> Client:
    browser = Client()
    browser.force_login(knitter.garment.series.teacher)
    return browser


def test_its_sender_sees_the_same_thanks_and_her_own_page(machine: Knitter) -> None:
    assert machine.garment.sent_at is not None
    assert machine.browser.get(machine.sent_address).status_code == 200
    assert machine.browser.get(f"/mine/{machine.garment.public_id}/").status_code == 200


def test_what_is_held_back_is_in_no_list_and_nowhere_shown(machine: Knitter) -> None:
    row = machine.garment
    assert list(Contribution.objects.filter(arrived())) == []
    assert list(listing.sent_in(row.series)) == list(listing.sent_to(row.series.teacher)) == []
    assert desk_of(machine).get(f"/desk/garments/{row.public_id}/").status_code == 404
    public = Client().get(f"/series/{row.series.slug}/garments/").content.decode()
    assert row.public_id not in public
    assert newest_verdict(row, None) is None


def test_no_letter_leaves_for_what_is_held_back(
    knitter: Knitter, request: Any, django_capture_on_commit_callbacks: Any, settings: Any
) -> None:
    settings.POSTS_LETTERS = True
    with django_capture_on_commit_callbacks(execute=True):
        request.getfixturevalue("machine")
    assert mail.outbox == []


def test_the_teacher_is_told_why_and_takes_a_persons_in(
    machine: Knitter, django_capture_on_commit_callbacks: Any, settings: Any
) -> None:
    settings.POSTS_LETTERS = True
    desk, row = desk_of(machine), machine.garment
    assert "held back" in desk.get("/desk/").content.decode()
    assert (
        "A field was filled in that people do not see." in desk.get("/desk/held/").content.decode()
    )
    with django_capture_on_commit_callbacks(execute=True):
        desk.post(f"/desk/held/{row.public_id}/", {"answer": "person"})
    assert list(Contribution.objects.filter(arrived())) == [row]
    assert list(Contribution.objects.filter(held())) == []
    assert sorted(letter.to[0] for letter in mail.outbox) == [TO, GUARDIAN]
    assert desk.get(f"/desk/garments/{row.public_id}/").status_code == 200


def test_the_teacher_erases_a_machines(machine: Knitter) -> None:
    desk_of(machine).post(f"/desk/held/{machine.garment.public_id}/", {"answer": "erase"})
    assert Contribution.objects.count() == 0


def test_another_teacher_finds_nothing_there(machine: Knitter, django_user_model: Any) -> None:
    other = Client()
    other.force_login(django_user_model.objects.create_user("other"))
    answer = other.post(f"/desk/held/{machine.garment.public_id}/", {"answer": "erase"})
    assert (answer.status_code, Contribution.objects.count()) == (404, 1)


@pytest.mark.parametrize("word", ["Wool Winter", "woolwinter", " WOOL  WINTER "])
def test_the_word_of_the_invitation_lets_in_whatever_its_capitals(
    knitter: Knitter, series: Any, word: str
) -> None:
    series.invitation_code = "Wool Winter"
    series.save()
    with_picture(knitter, invitation=word)
    assert knitter.garment.sent_at is not None


def test_another_word_is_told_beside_its_field_and_nothing_is_lost(
    knitter: Knitter, series: Any
) -> None:
    series.invitation_code = "Wool Winter"
    series.save()
    page = with_picture(knitter, invitation="Summer", notes="All of it.").content.decode()
    assert "This is not the word of the invitation." in page and "All of it." in page
    assert knitter.garment.sent_at is None


def test_without_an_invitation_nobody_is_asked_for_a_word(knitter: Knitter) -> None:
    assert "invitation" not in knitter.browser.get(knitter.send_address).content.decode()
