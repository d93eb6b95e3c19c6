"""What axe leaves to a person and can be worked out: words in drawings, signing in, gliding."""

import re

import pytest
from playwright.sync_api import expect

from tests.gallery.accessible.conftest import At
from tests.gallery.test_face import _contrast

pytestmark = [pytest.mark.browser, pytest.mark.outside]

WORDS = """() => [...document.querySelectorAll("figure svg text")].map((one) => [
  getComputedStyle(one).fill, getComputedStyle(one.closest("figure")).backgroundColor,
  parseFloat(getComputedStyle(one).opacity)])"""
NUMBERED = re.compile(r"[\d.]+")


def mixed(ink: str, ground: str, opacity: float) -> str:
    """The colour that is seen where ink of some opacity lies on a ground, as #rrggbb."""
    pairs = zip(NUMBERED.findall(ink), NUMBERED.findall(ground), strict=True)
    parts = [round(float(a) * opacity + float(b) * (1 - opacity)) for a, b in pairs]
    return "#" + "".join(f"{part:02x}" for part in parts[:3])


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(
    "path", ["/garments/{shown}/worksheet/", "/desk/patterns/{pattern draft}/"]
)
def test_words_in_a_drawing_reach_4_5(at: At, path: str, scheme: str) -> None:
    page = at(path, "teacher", color_scheme=scheme)
    words = page.evaluate(WORDS)
    assert words
    seen = [_contrast(mixed(*word), mixed(word[1], word[1], 1)) for word in words]
    assert min(seen) >= 4.5


def test_signing_in_needs_no_memory(at: At) -> None:
    page = at("/desk/login/")
    expect(page.get_by_label("Sign-in name")).to_have_attribute("autocomplete", "username")
    password = page.get_by_label("Password")
    expect(password).to_have_attribute("autocomplete", "current-password")
    refused = """it => !it.dispatchEvent(new ClipboardEvent("paste", { cancelable: true }))"""
    assert password.evaluate(refused) is False


@pytest.mark.parametrize(("wish", "way"), [("reduce", "auto"), ("no-preference", "smooth")])
def test_the_page_glides_only_where_motion_is_welcome(at: At, wish: str, way: str) -> None:
    page = at("/", reduced_motion=wish)
    assert page.evaluate("getComputedStyle(document.documentElement).scrollBehavior") == way
