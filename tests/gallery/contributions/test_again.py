"""Another garment of the same person: what she told before is offered, and taken over only so."""

from typing import Any

import pytest
from django.test import Client

from gallery.contributions.models import Contribution

from .conftest import Knitter, picture

pytestmark = pytest.mark.django_db
TOLD = {
    "credit_name": "Bérénice Vaulorme",
    "email": "anna@example.org",
    "tool": "needles",
    "needle_mm": "3,75",
    "yarn_choice": "other",
    "yarn_name": "Kelvarrick Cotton",
    "allow_film": "yes",
}


@pytest.fixture
def sent(knitter: Knitter) -> Knitter:
    knitter.post("add", pictures=picture())
    name = f"picture-{knitter.garment.photos.get().public_id}"
    knitter.post(**{f"{name}-people": "nobody", **TOLD})
    assert knitter.garment.sent_at is not None
    return knitter


def again(sent: Knitter, *ticks: str) -> Any:
    """The page of the next garment, with these ticks set."""
    data = {"draft": "", "take_over": "yes", "over": list(ticks)}
    answer = sent.browser.post(sent.send_address, data)
    return sent.browser.get(answer["Location"]).content.decode()


def test_what_was_told_is_offered_to_the_same_browser_only(sent: Knitter) -> None:
    page = sent.browser.get(sent.send_address)
    assert [one.name for one in page.context["offered"]] == ["person", "tool", "yarn"]
    assert Client().get(sent.send_address).context["offered"] == []


def test_nothing_is_taken_over_by_itself(sent: Knitter) -> None:
    page = sent.browser.get(sent.send_address).content.decode()
    assert "Bérénice" not in page and "Kelvarrick" not in page


def test_only_what_is_ticked_is_taken_over(sent: Knitter) -> None:
    page = again(sent, "yarn")
    assert "Kelvarrick Cotton" in page
    assert "Bérénice" not in page and 'name="needle_mm" value="3.75"' not in page


def test_name_tools_and_yarn_are_filled_in(sent: Knitter) -> None:
    page = again(sent, "person", "tool", "yarn")
    assert all(
        word in page for word in ("Bérénice Vaulorme", "anna@example.org", "Kelvarrick", "3.75")
    )


def test_no_permission_and_no_age_is_ever_taken_over(sent: Knitter) -> None:
    page = again(sent, "person", "tool", "yarn", "swatch")
    assert "checked" not in page.split('id="permissions"')[1].split('id="look"')[0]


def test_the_private_link_leads_to_another_garment_too(sent: Knitter) -> None:
    browser = Client()
    browser.get(sent.link)
    page = browser.get(f"/mine/{sent.garment.public_id}/").content.decode()
    assert f'href="{sent.send_address}"' in page
    assert browser.get(sent.send_address).context["offered"] != []
    assert Contribution.objects.count() == 1
