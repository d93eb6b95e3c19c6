"""The sender's own page: by her link only, changed by her clicks only."""

import datetime
from typing import Any

import pytest
from django.test import Client
from django.utils import timezone

from gallery.consent import gate
from gallery.consent.models import Entry
from gallery.consent.purposes import FILM, NAME, PURPOSES
from gallery.consent.texts import add_text
from gallery.contributions.models import Contribution, Photo, PrivateLink
from gallery.contributions.tokens import new_token
from gallery.series.models import Series

from .conftest import Knitter, picture

pytestmark = pytest.mark.django_db
ALL_YES = {f"allow_{purpose}": "yes" for purpose in PURPOSES}


def everything() -> list[Any]:
    rows = (Contribution, Photo, PrivateLink, Entry)
    return [list(model.objects.values_list()) for model in rows]


def change(knitter: Knitter, purpose: str, answer: str) -> Any:
    page = knitter.browser.get(f"/mine/{knitter.garment.public_id}/")
    one = next(one for one in page.context["permissions"] if one.purpose == purpose)
    return knitter.browser.post(
        f"/mine/{knitter.garment.public_id}/permissions/",
        {"purpose": purpose, "answer": answer, "text": one.text.pk},
    )


def test_the_link_leads_to_the_garment_without_its_token(knitter: Knitter) -> None:
    knitter.post(pictures=picture())
    answer = Client().get(knitter.link)
    assert (answer.status_code, answer["Location"]) == (303, f"/mine/{knitter.garment.public_id}/")
    assert answer["Referrer-Policy"] == "no-referrer"


def test_following_the_link_changes_nothing_that_is_kept(knitter: Knitter) -> None:
    knitter.post(pictures=picture(), **ALL_YES)
    link, before = knitter.link, everything()
    scanner = Client()
    scanner.get(link, follow=True)
    scanner.head(link)
    assert everything() == before


def test_a_wrong_an_expired_and_a_revoked_link_look_alike(knitter: Knitter) -> None:
    knitter.post(pictures=picture())
    link = knitter.link
    wrong = Client().get(f"/mine/link/{new_token()}/")
    PrivateLink.objects.update(expires_at=timezone.now() - datetime.timedelta(seconds=1))
    expired = Client().get(link)
    PrivateLink.objects.update(
        expires_at=timezone.now() + datetime.timedelta(days=1), revoked_at=timezone.now()
    )
    revoked = Client().get(link)
    assert {answer.status_code for answer in (wrong, expired, revoked)} == {404}
    assert wrong.content == expired.content == revoked.content


def test_without_the_link_the_page_is_not_there(knitter: Knitter) -> None:
    knitter.post(pictures=picture())
    garment = knitter.garment.public_id
    stranger = Client()
    pages = [f"/mine/{garment}/", "/mine/no-such-garment/", f"/mine/{garment}/withdraw/"]
    assert {stranger.get(page).status_code for page in pages} == {404}
    assert stranger.post(f"/mine/{garment}/withdraw/").status_code == 404


def test_a_draft_has_no_private_page(knitter: Knitter) -> None:
    knitter.post("add", pictures=picture())
    assert knitter.browser.get(f"/mine/{knitter.garment.public_id}/").status_code == 404


def test_the_private_page_is_kept_by_no_cache(knitter: Knitter) -> None:
    knitter.post(pictures=picture())
    answer = knitter.browser.get(f"/mine/{knitter.garment.public_id}/")
    assert answer["Cache-Control"] == "private, no-store"


def test_a_permission_is_taken_back_with_one_click(knitter: Knitter) -> None:
    knitter.post(pictures=picture(), **ALL_YES)
    change(knitter, FILM, "no")
    assert not gate.may_use(knitter.garment.agreement, FILM)
    newest = Entry.objects.latest("seq")
    assert (newest.answer, newest.way, newest.actor) == ("withdrawn", "private_page", "sender")


def test_a_permission_is_given_later_with_one_click(knitter: Knitter) -> None:
    knitter.post(pictures=picture())
    change(knitter, NAME, "yes")
    assert gate.may_use(knitter.garment.agreement, NAME)


def test_asking_for_what_stands_already_adds_no_entry(knitter: Knitter) -> None:
    knitter.post(pictures=picture(), **ALL_YES)
    change(knitter, FILM, "yes")
    assert Entry.objects.count() == len(PURPOSES)


def test_a_yes_to_other_words_is_not_taken(knitter: Knitter) -> None:
    knitter.post(pictures=picture())
    old = Entry.objects.get(purpose=FILM).text_id
    add_text(FILM, "Shall the whole world see it?", "Everywhere.")
    address = f"/mine/{knitter.garment.public_id}/permissions/"
    knitter.browser.post(address, {"purpose": FILM, "answer": "yes", "text": old})
    assert not gate.may_use(knitter.garment.agreement, FILM)


def test_what_was_allowed_shows_the_words_it_was_allowed_with(knitter: Knitter) -> None:
    knitter.post(pictures=picture(), **ALL_YES)
    add_text(FILM, "Shall the whole world see it?", "Everywhere.")
    page = knitter.browser.get(f"/mine/{knitter.garment.public_id}/").content.decode()
    assert "may be shown in the closing film of this series" in page


def test_everything_is_taken_back_with_one_button(knitter: Knitter) -> None:
    knitter.post(pictures=picture(), **ALL_YES)
    knitter.browser.post(f"/mine/{knitter.garment.public_id}/withdraw/")
    allowed = [gate.may_use(knitter.garment.agreement, purpose) for purpose in PURPOSES]
    assert allowed == [False] * 4


def test_taking_back_withdraws_only_what_was_given(knitter: Knitter) -> None:
    knitter.post(pictures=picture(), allow_film="yes")
    knitter.browser.post(f"/mine/{knitter.garment.public_id}/withdraw/")
    assert list(Entry.objects.filter(answer="withdrawn").values_list("purpose", flat=True)) == [
        FILM
    ]


def test_only_what_was_given_is_called_taken_back(knitter: Knitter) -> None:
    knitter.post(pictures=picture(), allow_film="yes")
    answer = knitter.browser.post(f"/mine/{knitter.garment.public_id}/withdraw/", follow=True)
    assert answer.content.decode().count("Taken back") == 1


def test_a_change_without_the_form_s_safety_mark_is_refused(knitter: Knitter) -> None:
    knitter.post(pictures=picture(), **ALL_YES)
    strict = Client(enforce_csrf_checks=True)
    strict.get(knitter.link)
    assert strict.post(f"/mine/{knitter.garment.public_id}/withdraw/").status_code == 403


def test_a_browser_tells_a_page_with_buttons_where_they_were_pressed(knitter: Knitter) -> None:
    # With "no-referrer" Chromium posts "Origin: null", and every button would be refused.
    knitter.post(pictures=picture())
    answer = knitter.browser.get(f"/mine/{knitter.garment.public_id}/")
    assert answer["Referrer-Policy"] == "same-origin"


def test_words_with_markup_stay_text(knitter: Knitter) -> None:
    evil = "<script>alert(1)</script>"
    knitter.post(pictures=picture(), credit_name=evil, notes=evil, free_note=evil)
    page = knitter.browser.get(f"/mine/{knitter.garment.public_id}/").content.decode()
    assert "<script>alert" not in page
    assert page.count("&lt;script&gt;alert(1)") >= 3


def test_the_private_page_shows_base_and_made(knitter: Knitter) -> None:
    knitter.post(pictures=picture(), body_length_amount="5")
    page = knitter.browser.get(f"/mine/{knitter.garment.public_id}/").content.decode()
    assert "104" in page
    assert "118" in page


def test_an_expired_call_keeps_the_draft_and_names_the_contact(
    knitter: Knitter, series: Series
) -> None:
    knitter.post("add", pictures=picture())
    series.closes_on = timezone.localdate() - datetime.timedelta(days=1)
    series.save()
    answer = knitter.post(pictures=picture("teal"), notes="one day late")
    page = answer.content.decode()
    assert "The call closed on" in page
    assert "teacher@example.org" in page
    assert "one day late" in page
    assert (knitter.garment.sent_at, knitter.garment.photos.count()) == (None, 2)


def test_a_call_that_is_not_open_says_so(knitter: Knitter, series: Series) -> None:
    series.closes_on = timezone.localdate() - datetime.timedelta(days=1)
    series.save()
    page = knitter.browser.get(knitter.send_address).content.decode()
    assert "The call is closed" in page
    assert "<form class" not in page
