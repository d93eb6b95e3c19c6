"""Sending a garment from a telephone: step by step, on a bad connection, by keyboard, plainly."""

import re
import socket
import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from PIL import Image
from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.served import SERIES, Site, go_on, served, tick

PHONE = {"width": 390, "height": 844}
# What the browser's developer tools call slow 3G: bytes a second each way, milliseconds.
SLOW_3G = {"downloadThroughput": 50_000, "uploadThroughput": 50_000, "latency": 2000}
MOST_ON_THE_WIRE = 150_000  # bytes of the page before anybody touches it

pytestmark = [pytest.mark.browser, pytest.mark.outside]


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    with served(tmp_path_factory.mktemp("site")) as site:
        yield site


@pytest.fixture(scope="module")
def photos(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """Three pictures of some 300 kB: noise, which no encoder makes small."""
    folder = tmp_path_factory.mktemp("photos")
    made = []
    for colour in ("sienna", "teal", "olive"):
        noise = Image.effect_noise((1500, 1200), 40).convert("RGB")
        path = folder / f"{colour}.jpg"
        Image.blend(noise, Image.new("RGB", noise.size, colour), 0.6).save(path, quality=70)
        made.append(path)
    return made


@pytest.fixture
def phone(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(viewport=PHONE, has_touch=True, is_mobile=True)
    yield context
    context.close()


def rows(site: Site, sql: str) -> list[tuple[Any, ...]]:
    with closing(sqlite3.connect(site.data / "site.sqlite3")) as database:
        return database.execute(sql).fetchall()


def sent_garments(site: Site) -> int:
    return int(
        rows(site, "select count(*) from contributions_contribution where sent_at is not null")[0][
            0
        ]
    )


def begin(context: BrowserContext, site: Site) -> Page:
    page = context.new_page()
    page.goto(f"{site.base}{SERIES}send/")
    return page


def add(page: Page, files: list[Path], there: int) -> None:
    page.set_input_files("#id_pictures", files)
    expect(page.locator("li[data-picture]")).to_have_count(there, timeout=120_000)


def answer_about_people(page: Page) -> None:
    for nobody in page.locator("input[name$=-people][value=nobody]").all():
        nobody.press("Space")


def to_the_end(page: Page) -> None:
    """From the pictures to the last step, with the least there is to say."""
    answer_about_people(page)
    go_on(page, "On to the garment", "The garment")
    tick(page, "input[name=size][value='4']")
    go_on(page, "On to what you changed", "What you changed")
    go_on(page, "On to what you allow", "What may be done with it")
    tick(page, "input[name=allow_film][value=yes]")
    tick(page, "#id_is_old_enough")
    go_on(page, "Look it all over", "Look it over")


def send(page: Page) -> None:
    page.get_by_role("button", name="Send my garment").click()
    expect(page.get_by_role("heading", name="Thank you")).to_be_visible(timeout=60_000)


def wait_until_some_has_gone(page: Page) -> None:
    for _ in range(200):
        if float(page.locator(".drop progress").first.evaluate("one => one.value")) > 5:
            return
        page.wait_for_timeout(100)
    pytest.fail("Nothing of the picture went out.")


def test_on_slow_3g_with_a_dropped_connection_everything_arrives_exactly_once(
    site: Site, phone: BrowserContext, photos: list[Path]
) -> None:
    before = sent_garments(site)
    page = begin(phone, site)
    slow = phone.new_cdp_session(page)
    slow.send("Network.enable")
    slow.send("Network.emulateNetworkConditions", {"offline": False, **SLOW_3G})
    page.set_input_files("#id_pictures", photos)
    expect(page.locator("li[data-picture]")).to_have_count(1, timeout=120_000)
    wait_until_some_has_gone(page)
    slow.send("Network.emulateNetworkConditions", {"offline": True, **SLOW_3G})
    expect(page.locator("[data-try-again]:visible")).to_have_count(1, timeout=20_000)
    slow.send("Network.emulateNetworkConditions", {"offline": False, **SLOW_3G})
    expect(page.locator("li[data-picture]")).to_have_count(3, timeout=180_000)
    to_the_end(page)
    send(page)
    assert sent_garments(site) == before + 1
    [(kept,)] = rows(
        site,
        "select count(*) from contributions_photo where contribution_id = "
        "(select max(id) from contributions_contribution where sent_at is not null)",
    )
    assert kept == 3


def test_the_page_before_anybody_touches_it_is_light(site: Site, phone: BrowserContext) -> None:
    page = phone.new_page()
    sizes: list[float] = []
    watch = phone.new_cdp_session(page)
    watch.send("Network.enable")
    watch.on("Network.loadingFinished", lambda one: sizes.append(one["encodedDataLength"]))
    page.goto(f"{site.base}{SERIES}send/", wait_until="networkidle")
    assert 10_000 < sum(sizes) <= MOST_ON_THE_WIRE


def test_it_is_shown_without_waiting_for_a_script(site: Site, phone: BrowserContext) -> None:
    page = phone.new_page()
    page.route(re.compile(r"\.js(\?|$)"), lambda _: None)  # they never come
    page.goto(f"{site.base}{SERIES}send/", wait_until="commit")
    expect(page.get_by_role("heading", name="Send your garment")).to_be_visible(timeout=10_000)
    expect(page.locator("#permissions")).to_be_visible()


def test_a_closed_browser_goes_on_where_it_was(
    site: Site, phone: BrowserContext, photos: list[Path]
) -> None:
    page = begin(phone, site)
    add(page, photos[:2], there=2)
    go_on(page, "On to the garment", "The garment")
    tick(page, "input[name=size][value='5']")
    go_on(page, "On to what you changed", "What you changed")
    page.close()
    again = begin(phone, site)
    expect(again.locator("li[data-picture]")).to_have_count(2)
    expect(again.locator("input[name=size][value='5']")).to_be_checked()


def test_without_scripts_it_is_one_plain_form(
    site: Site, browser: Browser, photos: list[Path]
) -> None:
    before = sent_garments(site)
    context = browser.new_context(viewport=PHONE, java_script_enabled=False)
    page = begin(context, site)
    page.set_input_files("#id_pictures", photos[:1])
    page.get_by_role("button", name="Add these pictures").click()
    expect(page.locator("li[data-picture]")).to_have_count(1)
    page.locator("input[name$=-people][value=nobody]").press("Space")
    tick(page, "input[name=size][value='4']")
    tick(page, "input[name=allow_film][value=yes]")
    tick(page, "#id_is_old_enough")
    page.get_by_role("button", name="Show me everything once more").click()
    expect(page.locator("#look img[src*='slide.jpg']")).to_be_visible()
    # Ticks that are given anew with each sending are still there after a look.
    send(page)
    assert sent_garments(site) == before + 1
    context.close()


def tab_to(page: Page, selector: str) -> None:
    """Press Tab until the focus is there, as somebody without a mouse does."""
    for _ in range(400):
        page.keyboard.press("Tab")
        if page.evaluate("wanted => document.activeElement.matches(wanted)", selector):
            return
    pytest.fail(f"The keyboard never comes to {selector}.")


def choose(page: Page, selector: str) -> None:
    tab_to(page, selector)
    page.keyboard.press("Space")


def on(page: Page, then: str) -> None:
    tab_to(page, "[data-next]")
    page.keyboard.press("Enter")
    expect(page.locator("legend:visible", has_text=then).first).to_be_visible(timeout=20_000)


def test_the_whole_way_is_gone_by_keyboard_alone(
    site: Site, browser: Browser, photos: list[Path]
) -> None:
    before = sent_garments(site)
    context = browser.new_context()
    page = begin(context, site)
    tab_to(page, "#id_pictures")
    with page.expect_file_chooser() as chooser:
        page.keyboard.press("Enter")
    chooser.value.set_files(photos[:2])
    expect(page.locator("li[data-picture]")).to_have_count(2, timeout=60_000)
    page.locator("#main").focus()
    tab_to(page, "[name=later]")
    first = page.locator("li[data-picture]").first.get_attribute("data-picture")
    page.keyboard.press("Enter")
    expect(page.locator("li[data-picture]").last).to_have_attribute("data-picture", str(first))
    page.locator("#main").focus()
    tab_to(page, "[name=turn]")
    with page.expect_response(re.compile("/send/picture/.+")) as turned:
        page.keyboard.press("Enter")
    assert turned.value.ok
    page.locator("#main").focus()
    for _ in range(2):
        choose(page, "[name$=-people][value=nobody]")
    on(page, "The garment")
    choose(page, "[name=size]")
    on(page, "What you changed")
    choose(page, "#id_nothing_changed")
    on(page, "What may be done with it")
    choose(page, "[name=allow_film]")
    choose(page, "#id_is_old_enough")
    on(page, "Look it over")
    tab_to(page, "[name=send]")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="Thank you")).to_be_visible(timeout=60_000)
    assert sent_garments(site) == before + 1
    context.close()


def test_dragging_and_buttons_give_the_same_order(
    site: Site, browser: Browser, photos: list[Path]
) -> None:
    context = browser.new_context(viewport={"width": 1000, "height": 5000})
    page = begin(context, site)
    add(page, photos, there=3)
    places = "[...document.querySelectorAll('[data-picture]')].map(one => one.dataset.picture)"
    one, two, three = page.evaluate(places)
    handle = page.locator("[data-drag]").nth(2).bounding_box()
    target = page.locator("[data-picture]").first.bounding_box()
    assert handle is not None
    assert target is not None
    page.mouse.move(handle["x"] + 10, handle["y"] + 10)
    page.mouse.down()
    page.mouse.move(target["x"] + 60, target["y"] + 5, steps=12)
    page.mouse.up()
    assert page.evaluate(places) == [three, one, two]
    page.locator(f"#later-{three}").press("Enter")
    assert page.evaluate(places) == [one, three, two]
    page.wait_for_timeout(2500)  # what is moved is kept like what is typed
    kept = rows(site, "select public_id from contributions_photo order by id desc limit 3")
    in_order = rows(
        site,
        "select public_id from contributions_photo where public_id in "  # noqa: S608
        f"({','.join(repr(one) for (one,) in kept)}) order by position",
    )
    assert [public_id for (public_id,) in in_order] == [one, three, two]
    context.close()


def test_a_picture_is_cut_by_drawing_a_corner(
    site: Site, browser: Browser, photos: list[Path]
) -> None:
    context = browser.new_context()
    page = begin(context, site)
    add(page, photos[:1], there=1)
    page.locator("[name=cut]").press("Enter")
    expect(page.get_by_role("heading", name="Turn or cut the picture")).to_be_visible()
    expect(page.locator("[data-cut-board] img")).to_have_js_property("complete", value=True)
    board = page.locator("[data-cut-board]").bounding_box()
    assert board is not None
    page.mouse.move(board["x"] + 20, board["y"] + 20)
    page.mouse.down()
    page.mouse.move(board["x"] + board["width"] / 2, board["y"] + board["height"] / 4, steps=8)
    page.mouse.up()
    expect(page.locator("#id_left")).to_have_value(re.compile("^(49|50|51)$"))
    page.get_by_role("button", name="Cut it so").click()
    shown = page.locator("li[data-picture] img")
    expect(shown).to_be_visible()
    wide, high = (int(shown.get_attribute(side) or 0) for side in ("width", "height"))
    assert wide / high == pytest.approx(1500 / 1200 * 0.5 / 0.75, rel=0.05)
    context.close()


def test_after_sending_the_back_button_sends_nothing_twice(
    site: Site, phone: BrowserContext, photos: list[Path]
) -> None:
    page = begin(phone, site)
    add(page, photos[:1], there=1)
    to_the_end(page)
    send(page)
    sent = sent_garments(site)
    page.go_back()
    expect(page.get_by_text("You sent a garment from this browser")).to_be_visible()
    assert sent_garments(site) == sent


@pytest.mark.parametrize("percent", [5, 50, 99])
def test_a_connection_cut_in_the_middle_leaves_nothing_behind(
    site: Site, photos: list[Path], percent: int
) -> None:
    before = rows(site, "select count(*) from contributions_photo")
    body = photos[0].read_bytes()
    head = (
        f"POST {SERIES}send/picture/ HTTP/1.1\r\nHost: {urlsplit(site.base).netloc}\r\n"
        "Content-Type: multipart/form-data; boundary=xx\r\n"
        f"Content-Length: {len(body) + 200}\r\n\r\n--xx\r\n"
        'Content-Disposition: form-data; name="pictures"; filename="a.jpg"\r\n\r\n'
    )
    with socket.create_connection(("127.0.0.1", urlsplit(site.base).port or 80)) as line:
        line.sendall(head.encode() + body[: len(body) * percent // 100])
    time.sleep(0.5)
    assert rows(site, "select count(*) from contributions_photo") == before
    assert list((site.data / "arriving").iterdir()) == []
