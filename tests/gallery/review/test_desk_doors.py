"""The doors of the desk: who gets in, what each page shows, what the buttons do."""

import re
from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from gallery.consent.purposes import FILM, NAME, PUBLIC_PAGES
from gallery.review.models import Verdict
from gallery.series.models import Series

Maker = Callable[..., Any]
Desk = Callable[[User], Client]
SERIES = "/desk/series/ostrimane-evenings/"
NASTY = "<script>alert(1)</script>"


def desk_address(made: Any) -> str:
    return f"/desk/garments/{made.row.public_id}/"


def press(browser: Client, made: Any, button: str, about: str = "", **given: Any) -> Any:
    """Press a button beside the first photo, or beside what `about` names."""
    said = {"about": about or made.photo.public_id, "decision": button, "seen": 0, **given}
    return browser.post(f"{desk_address(made)}decide/", said)


def text_of(answer: Any) -> str:
    return re.sub(r"\s+", " ", answer.content.decode())


@pytest.fixture
def desk(desk_of: Desk, teacher: User) -> Client:
    return desk_of(teacher)


def test_whoever_is_not_signed_in_is_led_to_the_sign_in(client: Client, garment: Maker) -> None:
    made = garment()
    for address in ["/desk/", SERIES, desk_address(made)]:
        assert client.get(address).headers["Location"] == f"/desk/login/?next={address}"
    assert press(client, made, "approve").headers["Location"].startswith("/desk/login/")
    assert not Verdict.objects.exists()


def test_another_teacher_gets_the_same_answer_as_for_a_missing_garment(
    desk_of: Desk, other_teacher: User, garment: Maker
) -> None:
    browser = desk_of(other_teacher)
    hers, missing = browser.get(desk_address(garment())), browser.get("/desk/garments/nowhere/")
    assert (hers.status_code, missing.status_code) == (404, 404)
    assert without_tokens(hers) == without_tokens(missing)


def without_tokens(answer: Any) -> str:
    """The page without what differs at every request."""
    return re.sub(r'value="[A-Za-z0-9]{64}"', "", answer.content.decode())


def test_another_teacher_sees_no_series_and_decides_nothing(
    desk_of: Desk, other_teacher: User, garment: Maker
) -> None:
    browser, made = desk_of(other_teacher), garment()
    assert browser.get(SERIES).status_code == 404
    assert press(browser, made, "approve").status_code == 404
    assert "Tamsin" not in text_of(browser.get("/desk/"))
    assert not Verdict.objects.exists()


def test_the_keeper_of_the_site_sees_every_desk(desk_of: Desk, garment: Maker) -> None:
    browser = desk_of(User.objects.create_superuser("keeper"))
    assert browser.get(desk_address(garment())).status_code == 200
    assert "Tamsin" in text_of(browser.get("/desk/"))


def test_a_draft_is_not_on_the_desk(desk: Client, garment: Maker) -> None:
    assert desk.get(desk_address(garment(sent_at=None))).status_code == 404


def test_a_wrong_name_and_a_wrong_password_get_the_same_answer(
    client: Client, teacher: User
) -> None:
    answers = [
        client.post("/desk/login/", {"username": name, "password": "wrong"})
        for name in ("odalys", "nobody")
    ]
    known, unknown = (without_tokens(one).replace("odalys", "nobody") for one in answers)
    assert known == unknown
    assert "do not fit together" in known


def test_name_and_password_can_be_filled_in_by_a_password_keeper(client: Client, db: None) -> None:
    page = text_of(client.get("/desk/login/"))
    assert 'autocomplete="username"' in page
    assert 'autocomplete="current-password"' in page


def test_the_sign_in_page_names_the_site_as_every_page_does(client: Client, db: None) -> None:
    assert "· The Finishing Shelf</title>" in text_of(client.get("/desk/login/"))


def test_signing_in_leads_to_the_desk_and_never_to_another_site(
    client: Client, teacher: User
) -> None:
    said = {"username": "odalys", "password": "carriage-and-comb"}
    answer = client.post("/desk/login/", {**said, "next": "https://elsewhere.example/"})
    assert answer.headers["Location"] == "/desk/"


def test_signing_out_takes_a_button_not_a_link(desk: Client) -> None:
    assert desk.get("/desk/logout/").status_code == 405
    assert desk.post("/desk/logout/").status_code == 302
    assert desk.get("/desk/").status_code == 302


def test_what_waits_is_listed_oldest_first(desk: Client, garment: Maker) -> None:
    garment(credit_name="Wilmot Plumbeck")
    garment(credit_name="Jessamy Thrupp")
    garment(credit_name="Osbert Larkwhistle").decide()
    page = text_of(desk.get("/desk/"))
    assert page.index("Wilmot Plumbeck") < page.index("Jessamy Thrupp")
    assert "Osbert Larkwhistle" not in page


def test_what_was_taken_back_waits_no_more(desk: Client, garment: Maker) -> None:
    garment(allows=[FILM]).take_back(FILM)
    assert "Nothing waits" in text_of(desk.get("/desk/"))


def test_a_teacher_without_a_series_is_led_to_her_first(desk_of: Desk, other_teacher: User) -> None:
    page = text_of(desk_of(other_teacher).get("/desk/"))
    assert "No series yet" in page
    assert 'href="/desk/new-series/"' in page


def test_each_series_has_its_ways_on(desk: Client, series: Series) -> None:
    page = text_of(desk.get("/desk/"))
    root = "/series/ostrimane-evenings/"
    ways = [root, f"{root}garments/", f"{root}qr.svg", SERIES, f"{SERIES}albums/"]
    ways += [f"{SERIES}details/", f"{SERIES}pattern/", "/desk/new-series/"]
    assert [way for way in ways if f'href="{way}"' not in page] == []


@pytest.mark.parametrize(
    ("group", "shown"),
    [
        ("waiting", {"Wilmot"}),
        ("approved", {"Jessamy"}),
        ("asked", {"Osbert"}),
        ("declined", {"Petronel"}),
        ("all", {"Wilmot", "Jessamy", "Osbert", "Petronel"}),
        ("no-such-group", {"Wilmot", "Jessamy", "Osbert", "Petronel"}),
    ],
)
def test_a_series_can_be_sieved_by_state(
    desk: Client, garment: Maker, group: str, shown: set[str]
) -> None:
    garment(credit_name="Wilmot")
    garment(credit_name="Jessamy").decide()
    garment(credit_name="Osbert").decide("ask")
    garment(credit_name="Petronel").decide("decline")
    page = text_of(desk.get(SERIES, {"show": group}))
    names = {"Wilmot", "Jessamy", "Osbert", "Petronel"}
    assert {name for name in names if name in page} == shown


@pytest.mark.parametrize("address", ["/desk/", SERIES])
def test_a_list_takes_the_same_number_of_queries_for_one_and_for_many(
    desk: Client, garment: Maker, address: str
) -> None:
    def asked() -> int:
        with CaptureQueriesContext(
            connection,
        ) as queries:
            desk.get(address)
        return len(queries)

    garment(photos=2)
    one = asked()
    for _more in range(4):
        garment(photos=2)
    assert asked() == one


def test_the_permissions_stand_beside_each_photo(desk: Client, garment: Maker) -> None:
    made = garment(allows=[FILM, NAME])
    made.take_back(NAME)
    photo = text_of(desk.get(desk_address(made))).split('class="verdict"')[1]
    for words in ["Closing film: yes, ", "Public pages: no, ", "Name: taken back, "]:
        assert words in photo


def test_the_made_number_stands_beside_the_patterns(desk: Client, garment: Maker) -> None:
    page = text_of(desk.get(desk_address(garment())))
    assert "made-base" in page and "made-now" in page
    assert "A pocket on the left." in page


def test_a_photo_whose_sizes_are_being_made_says_so(desk: Client, garment: Maker) -> None:
    assert "The sizes are being made" in text_of(desk.get(desk_address(garment(is_safe=False))))


def test_a_photo_whose_sizes_failed_says_why(desk: Client, garment: Maker) -> None:
    made = garment(is_safe=False)
    made.row.photos.update(trouble="The picture ends in the middle.")
    page = text_of(desk.get(desk_address(made)))
    assert "The picture ends in the middle." in page
    assert "The sizes are being made" not in page


def test_name_notes_and_descriptions_are_only_ever_text(desk: Client, garment: Maker) -> None:
    made = garment(credit_name=NASTY, notes=NASTY, description=NASTY)
    made.decide_on(made.photo, "ask", NASTY)
    for address in ["/desk/", SERIES, desk_address(made)]:
        page = desk.get(address).content.decode()
        assert NASTY not in page
        assert "&lt;script&gt;alert(1)&lt;/script&gt;" in page


@pytest.mark.parametrize("button", ["approve", "ask", "decline"])
def test_a_button_keeps_its_verdict(desk: Client, garment: Maker, button: str) -> None:
    made = garment()
    answer = press(desk, made, button, note="Lovely hem.")
    assert answer.headers["Location"] == f"{desk_address(made)}#{made.photo.public_id}"
    verdict = Verdict.objects.get()
    assert (verdict.photo, verdict.decision, verdict.note) == (made.photo, button, "Lovely hem.")


def test_a_verdict_on_the_words_names_no_photo(desk: Client, garment: Maker) -> None:
    press(desk, garment(), "approve", about="words")
    assert Verdict.objects.get().photo is None


def test_a_question_without_words_is_refused_beside_its_field(desk: Client, garment: Maker) -> None:
    answer = press(desk, garment(), "ask", note="   ")
    assert "Write what you would like to ask." in text_of(answer)
    assert not Verdict.objects.exists()


@pytest.mark.parametrize(
    ("given", "sentence"),
    [
        ({"button": "praise"}, "Please press one of the three buttons."),
        ({"button": ""}, "Please press one of the three buttons."),
        ({"button": "decline", "note": "x" * 2001}, "please keep it under 2000"),
    ],
)
def test_a_damaged_form_is_answered_in_words(
    desk: Client, garment: Maker, given: dict[str, str], sentence: str
) -> None:
    assert sentence in text_of(press(desk, garment(), **given))
    assert not Verdict.objects.exists()


@pytest.mark.parametrize("seen", ["", "-1", "many", "9" * 40])
def test_a_damaged_mark_of_what_was_seen_never_overwrites(
    desk: Client, garment: Maker, seen: str
) -> None:
    made = garment().decide()
    assert press(desk, made, "decline", seen=seen).status_code in (200, 409)
    assert Verdict.objects.filter(decision="decline").count() == 0


def test_a_photo_of_another_garment_cannot_be_decided_here(desk: Client, garment: Maker) -> None:
    other = garment().photo.public_id
    assert press(desk, garment(), "approve", about=other).status_code == 404


def test_whoever_was_slower_is_told_and_keeps_her_note(desk: Client, garment: Maker) -> None:
    made = garment()
    made.decide_on(made.photo, "approve")
    answer = press(desk, made, "decline", note="Too dark, I think.")
    page = text_of(answer)
    assert answer.status_code == 409
    assert "Somebody decided meanwhile" in page
    assert "Too dark, I think." in page
    assert [one.decision for one in Verdict.objects.all()] == ["approve"]


def test_after_being_told_she_may_decide_all_the_same(desk: Client, garment: Maker) -> None:
    made = garment()
    made.decide_on(made.photo, "approve")
    page = text_of(press(desk, made, "decline", note="Too dark."))
    seen = re.search(rf'name="seen" value="(\d+)"[^>]*id="{made.photo.public_id}-seen"', page)
    assert seen is not None
    press(desk, made, "decline", note="Too dark.", seen=seen[1])
    assert [one.decision for one in Verdict.objects.all()] == ["approve", "decline"]


def test_one_click_approves_all_that_waits(desk: Client, garment: Maker) -> None:
    made = garment(photos=3, allows=[PUBLIC_PAGES])
    page = text_of(desk.get(desk_address(made)))
    assert "Approve all that waits" in page
    press(desk, made, "", about="all")
    assert Verdict.objects.filter(decision="approve").count() == 4
    assert "Approve all that waits" not in text_of(desk.get(desk_address(made)))


def test_approving_all_on_an_old_page_is_told(desk: Client, garment: Maker) -> None:
    made = garment(photos=2)
    made.decide_on(made.photo, "decline")
    answer = press(desk, made, "", about="all")
    assert answer.status_code == 409
    assert Verdict.objects.count() == 1


def test_deciding_by_following_a_link_is_not_possible(desk: Client, garment: Maker) -> None:
    assert desk.get(f"{desk_address(garment())}decide/").status_code == 405


def test_no_cache_keeps_a_page_of_the_desk(desk: Client, garment: Maker) -> None:
    for address in ["/desk/", SERIES, desk_address(garment())]:
        assert desk.get(address).headers["Cache-Control"] == "private, no-store"


def test_the_garment_that_waits_longest_is_the_next(desk: Client, garment: Maker) -> None:
    first, second, third = garment(), garment(), garment()
    page = text_of(desk.get(desk_address(first)))
    assert f'href="{desk_address(second)}"' in page
    assert f'href="{desk_address(third)}"' not in page


def test_the_sender_reads_the_answer_on_her_private_page(garment: Maker) -> None:
    made = garment()
    made.decide_on(made.photo, "ask", "Is the hem folded?")
    page = text_of(made.sender().get(f"/mine/{made.row.public_id}/"))
    assert "Is the hem folded?" in page
