"""The public pages: words beside pictures, order, pages, and a constant number of questions."""

import datetime
import re
from collections.abc import Callable
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from alterations.kinds import BodyLength
from alterations.units import parse_length
from gallery.consent.purposes import NAME, NOTES, PUBLIC_PAGES
from gallery.exhibition import views
from gallery.series.models import Series

GARMENTS = "/series/ostrimane-evenings/garments/"
NASTY = "<script>alert(1)</script>\"'{{ 7 }}\u202e"
Maker = Callable[..., Any]


def text_of(client: Client, address: str) -> str:
    return client.get(address).content.decode()


def alts_of(page: str) -> list[str]:
    return re.findall(r'<img [^>]*alt="([^"]*)"', page)


def test_a_picture_is_described_in_its_senders_words(client: Client, garment: Maker) -> None:
    made = garment(allows=[PUBLIC_PAGES], description="On the chair by the window").decide()
    assert alts_of(text_of(client, made.address)) == ["On the chair by the window"]


def test_without_a_description_the_record_describes_the_picture(
    client: Client, garment: Maker
) -> None:
    made = garment(allows=[PUBLIC_PAGES, NOTES], description="").decide()
    (alt,) = alts_of(text_of(client, made.address))
    assert alt.startswith("Ostrimane Tunic")
    assert "body 5 cm longer" in alt
    assert alt.endswith("finished garment")


def test_where_numbers_stay_private_the_fall_back_says_none(client: Client, garment: Maker) -> None:
    made = garment(allows=[PUBLIC_PAGES], description="").decide()
    page, listing = text_of(client, made.address), text_of(client, GARMENTS)
    assert alts_of(page) == alts_of(listing) == ["Ostrimane Tunic, finished garment"]
    assert "Kelvarrick" not in page + listing
    assert "Size 4" not in page + listing


def test_of_several_pictures_each_says_which_it_is(client: Client, garment: Maker) -> None:
    made = garment(allows=[PUBLIC_PAGES], description="", photos=2).decide()
    assert alts_of(text_of(client, made.address)) == [
        "Ostrimane Tunic, finished garment, picture 1 of 2",
        "Ostrimane Tunic, finished garment, picture 2 of 2",
    ]


def test_only_a_picture_its_sender_calls_decorative_is_passed_over_in_silence(
    client: Client, garment: Maker
) -> None:
    made = garment(allows=[PUBLIC_PAGES], photos=2, description="On the chair").decide()
    made.row.photos.filter(position=2).update(is_decorative=True)
    assert alts_of(text_of(client, made.address)) == ["On the chair", ""]


def test_a_files_name_is_never_told(client: Client, shown: Any) -> None:
    for address in ("/", GARMENTS, shown.address):
        assert "secret-place" not in text_of(client, address)


def test_an_address_for_letters_is_never_told(client: Client, garment: Maker) -> None:
    made = garment(allows=[PUBLIC_PAGES, NOTES, NAME], email="tamsin@example.org").decide()
    for address in ("/", GARMENTS, made.address):
        assert "tamsin@example.org" not in text_of(client, address)


def test_a_name_stands_exactly_as_written_in_a_frame_of_its_own_direction(
    client: Client, garment: Maker
) -> None:
    made = garment(allows=[PUBLIC_PAGES, NAME], credit_name="Ô’Fenn-Brîck & Dau.").decide()
    for address in ("/", GARMENTS, made.address):
        assert "<bdi>Ô’Fenn-Brîck &amp; Dau.</bdi>" in text_of(client, address)


def test_words_of_a_sender_never_become_markup(client: Client, garment: Maker) -> None:
    made = garment(
        allows=[PUBLIC_PAGES, NOTES, NAME],
        credit_name=NASTY,
        notes=NASTY,
        description=NASTY,
    ).decide()
    for address in ("/", GARMENTS, made.address):
        page = text_of(client, address)
        assert "<script>alert" not in page
        assert "&lt;script&gt;alert(1)&lt;/script&gt;&quot;&#x27;{{ 7 }}" in page


def test_numbers_that_cannot_be_worked_out_are_not_called_unchanged(
    client: Client, garment: Maker
) -> None:
    impossible = [BodyLength(parse_length("-90 cm"))]
    made = garment(allows=[NOTES], changes=impossible).decide()
    page = text_of(client, made.address)
    assert "knitted as the pattern says" not in page
    assert "cannot be worked out" in page


def test_a_garment_as_the_pattern_says_is_welcome(client: Client, garment: Maker) -> None:
    made = garment(allows=[NOTES], changes=[]).decide()
    assert "knitted as the pattern says" in text_of(client, made.address)
    assert "Size 4, as the pattern says" in text_of(client, GARMENTS)


def test_numbers_that_would_fill_the_page_are_folded_away_not_left_out(
    client: Client, garment: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = garment(allows=[NOTES]).decide()
    whole = text_of(client, made.address)
    monkeypatch.setattr(views, "LINES_AT_ONCE", 1)
    folded = text_of(client, made.address)
    assert "<details" not in whole
    assert "<details" in folded
    assert folded.count("<dt>") == whole.count("<dt>")


def test_the_page_of_pictures_asks_as_much_of_the_database_for_12_as_for_3(
    client: Client, garment: Maker
) -> None:
    def asked() -> int:
        with CaptureQueriesContext(
            connection,
        ) as queries:
            assert client.get(GARMENTS).status_code == 200
            client.get("/")
        return len(queries)

    for _ in range(3):
        garment(allows=[PUBLIC_PAGES, NOTES, NAME], photos=2).decide()
    for_three = asked()
    for _ in range(9):
        garment(allows=[PUBLIC_PAGES, NOTES, NAME], photos=2).decide()
    assert asked() == for_three


def test_long_lists_come_in_pages(
    client: Client, garment: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(views, "A_PAGE", 2)
    made = [garment(allows=[PUBLIC_PAGES]).decide() for _ in range(3)]
    first, second = text_of(client, GARMENTS), text_of(client, f"{GARMENTS}?page=2")
    on_first = [one.address in first for one in made]
    assert on_first == [False, True, True]  # the latest come first
    assert made[0].address in second


@pytest.mark.parametrize("page", ["0", "-1", "99", "two", ""])
def test_a_page_number_that_is_none_still_shows_garments(
    client: Client, shown: Any, page: str
) -> None:
    assert shown.address in text_of(client, f"{GARMENTS}?page={page}")


def test_only_the_garments_of_the_series_are_on_its_page(
    client: Client, shown: Any, series: Series
) -> None:
    other = Series.objects.create(
        slug="other",
        short_code="other",
        title="Other Evenings",
        teacher=series.teacher,
        teacher_name=series.teacher_name,
        pattern_version=series.pattern_version,
        opens_on=series.opens_on,
        closes_on=series.closes_on,
    )
    assert shown.address not in text_of(client, f"/series/{other.slug}/garments/")


def test_the_front_names_open_calls_first(client: Client, series: Series) -> None:
    today = timezone.localdate()
    Series.objects.create(
        slug="closed",
        short_code="closed",
        title="Evenings of Last Year",
        teacher=series.teacher,
        teacher_name=series.teacher_name,
        pattern_version=series.pattern_version,
        opens_on=today - datetime.timedelta(days=300),
        closes_on=today - datetime.timedelta(days=200),
    )
    page = text_of(client, "/")
    assert page.index(series.title) < page.index("Evenings of Last Year")
    assert page.count('href="/series/closed/"') == 0
    assert f'href="/series/{series.slug}/"' in page


@pytest.mark.django_db
def test_a_site_with_nothing_says_so_kindly(client: Client) -> None:
    assert "There is no series here yet" in text_of(client, "/")


def test_a_series_without_garments_says_so_and_invites(client: Client, series: Series) -> None:
    page = text_of(client, GARMENTS)
    assert "No garment is shown yet" in page
    assert f'href="/series/{series.slug}/send/"' in page


def test_every_page_has_one_heading_of_the_first_order(client: Client, shown: Any) -> None:
    for address in ("/", GARMENTS, shown.address):
        assert text_of(client, address).count("<h1") == 1


def test_a_page_kept_by_a_browser_is_asked_for_again(client: Client, shown: Any) -> None:
    for address in ("/", GARMENTS, shown.address):
        assert client.get(address)["Cache-Control"] == "no-cache"


@pytest.mark.django_db
@pytest.mark.parametrize(
    "address", ["/series/none/garments/", "/garments/none/", "/garments/é/", "/garments/%00/"]
)
def test_what_is_not_there_is_answered_with_404(client: Client, address: str) -> None:
    assert client.get(address).status_code == 404
