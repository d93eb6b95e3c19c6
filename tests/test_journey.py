"""One garment's whole way in a real browser: sent, approved, filmed, handed over, taken back.

The site runs as its keeper would run it (`manage.py serve`: web server and worker), on a data
folder of its own; the photos are real-sized camera files with an orientation and a place in them.
"""

import datetime
import json
import socket
import sqlite3
import subprocess
import time
import urllib.request
import zipfile
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
import webvtt
from playwright.sync_api import Browser, Page, expect

from alterations import read_pattern
from gallery.demo.camera import save_as_camera_file
from gallery.demo.drawing import Shot, draw
from gallery.demo.shapes import shape_of
from tests.served import CHECKOUT, SERIES, Site, go_on, needs, served, tick

PATTERN = CHECKOUT / "gallery" / "demo" / "ostrimane_tunic.toml"
NAME, UNNAMED, UNFILMED = "Bérénice Vaulorme", "Ottoline Drewgarth", "Quenby Ashgrove"
FILM_SECONDS = 300  # patience with a slow machine

pytestmark = [pytest.mark.browser, pytest.mark.outside]


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    with served(tmp_path_factory.mktemp("site")) as site:
        yield site


@pytest.fixture(scope="module")
def camera_files(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """Three photos of a size 4 tunic: 12 megapixels twice, turned by their orientation."""
    pattern = read_pattern(PATTERN)
    shape = shape_of(pattern, pattern.size("4"))
    folder = tmp_path_factory.mktemp("camera")
    files = []
    for number, (scene, megapixels, turn) in enumerate(
        [("flat", 12, 1), ("hanger", 12, 6), ("detail", 3, 3)]
    ):
        shot = Shot(shape, "madder", scene, portrait=turn == 6, megapixels=megapixels, seed=number)
        path = folder / f"IMG_{number}.jpg"
        save_as_camera_file(
            draw(shot),
            path,
            orientation=turn,
            gps=(-48.8767, -123.3933),
            taken=datetime.datetime(2026, 10, 4, 11, 30),
            camera="Lumenwick P3",
            kind="jpeg",
        )
        files.append(path)
    return files


def send(page: Page, site: Site, files: list[Path], name: str, allows: dict[str, str]) -> str:
    """Send a garment by the form; the private link."""
    page.goto(site.base + SERIES)
    page.get_by_role("link", name="Send your garment").click()
    page.set_input_files("#id_pictures", files)
    expect(page.locator("li[data-picture]")).to_have_count(len(files), timeout=60_000)
    for nobody in page.locator("input[name$=-people][value=nobody]").all():
        nobody.press("Space")
    go_on(page, "On to the garment", "The garment")
    tick(page, "input[name=size][value='4']")
    go_on(page, "On to what you changed", "What you changed")
    page.get_by_role("link", name="Body length").press("Enter")
    page.fill("#id_body_length_amount", "5")
    go_on(page, "On to what you allow", "What may be done with it")
    for purpose, answer in allows.items():
        tick(page, f"input[name=allow_{purpose}][value={answer}]")
    page.fill("#id_credit_name", name)
    tick(page, "#id_is_old_enough")
    go_on(page, "Look it all over", "Look it over")
    page.get_by_role("button", name="Send my garment").click()
    expect(page.get_by_role("heading", name="Thank you")).to_be_visible(timeout=60_000)
    return page.locator("output.keep").inner_text().split()[0]


def yes_but(**answers: str) -> dict[str, str]:
    return {"film": "yes", "public_pages": "yes", "notes": "yes", "name": "yes", **answers}


def sign_in(page: Page, site: Site) -> None:
    page.goto(site.base + "/desk/")
    page.get_by_label("Name").fill("odalys")
    page.get_by_label("Password").fill(site.password)
    page.get_by_role("button", name="Sign in").click()
    expect(page.get_by_role("heading", level=1)).to_be_visible()


def approve_everything(page: Page, site: Site, garments: int) -> None:
    for _ in range(garments):
        page.goto(site.base + "/desk/")
        page.locator("main a[href*='/desk/garments/']").first.click()
        page.get_by_role("button", name="Approve all that waits").click()
        expect(page.get_by_role("button", name="Approve all that waits")).to_have_count(0)


def wait_for_sizes(page: Page, site: Site, pictures: int) -> None:
    """The worker makes the safe sizes; the album's slides then can be drawn."""
    page.goto(site.base + "/desk/series/ostrimane-evenings/albums/")
    page.get_by_role("button", name="Begin the album").click()
    # A click returns before the answer has come: reload only a page that has arrived.
    expect(page.locator(".storyboard")).to_be_visible()
    for _ in range(120):
        page.goto(page.url)
        if page.locator(".slide-left-out").count() == 0:
            break
        time.sleep(0.5)
    expect(page.locator(".storyboard > li")).to_have_count(pictures + 2)


@pytest.fixture(scope="module")
def pack(
    site: Site,
    browser: Browser,
    camera_files: list[Path],
    tmp_path_factory: pytest.TempPathFactory,
) -> dict[str, Any]:
    """The whole way once: three senders, the desk, the film, the pack."""
    knitter = browser.new_context(viewport={"width": 390, "height": 844}).new_page()
    link = send(knitter, site, camera_files, NAME, yes_but())
    others = browser.new_context().new_page()
    send(others, site, camera_files[:1], UNNAMED, yes_but(name="no", notes="no"))
    unfilmed = browser.new_context().new_page()
    send(unfilmed, site, camera_files[1:2], UNFILMED, yes_but(film="no"))
    desk = browser.new_context(accept_downloads=True).new_page()
    sign_in(desk, site)
    approve_everything(desk, site, 3)
    wait_for_sizes(desk, site, pictures=4)
    desk.get_by_role("button", name="Make the film").click()
    expect(desk.locator("video")).to_be_visible(timeout=FILM_SECONDS * 1000)
    with desk.expect_download() as arriving:
        desk.get_by_role("link", name="Everything in one pack").click()
    folder = tmp_path_factory.mktemp("pack")
    arriving.value.save_as(folder / "pack.zip")
    with zipfile.ZipFile(folder / "pack.zip") as archive:
        archive.extractall(folder)
    return {"folder": folder, "link": link, "desk": desk, "film_page": desk.url}


def test_ffprobe_accepts_the_film(pack: dict[str, Any]) -> None:
    told = probe(pack["folder"] / "film.mp4")
    expected = {
        "codec_name": "h264",
        "profile": "High",
        "pix_fmt": "yuv420p",
        "color_range": "tv",
        "color_space": "bt709",
        "color_transfer": "bt709",
        "color_primaries": "bt709",
        "r_frame_rate": "30/1",
        "width": 1920,
        "height": 1080,
        # two cards of 4 s, four photos of 5 s, one fade of 0.8 s: 28.8 s at 30 frames
        "nb_read_frames": "864",
    }
    [stream] = told["streams"]
    assert {name: stream[name] for name in expected} == expected
    assert float(told["format"]["duration"]) == pytest.approx(28.8, abs=1 / 30)


def probe(path: Path) -> dict[str, Any]:
    needs("ffprobe", "ffmpeg")
    asked = ["ffprobe", "-v", "error", "-count_frames", "-show_streams", "-show_format"]
    told = subprocess.run([*asked, "-of", "json", path], capture_output=True, check=True)
    answer: dict[str, Any] = json.loads(told.stdout)
    return answer


def test_a_player_can_begin_before_the_whole_film_has_come(pack: dict[str, Any]) -> None:
    film = (pack["folder"] / "film.mp4").read_bytes()
    assert 0 < film.index(b"moov") < film.index(b"mdat")


def test_only_the_names_that_may_be_named_are_credited(pack: dict[str, Any]) -> None:
    assert (pack["folder"] / "credits.txt").read_text(encoding="utf-8") == f"{NAME}\n"


def test_a_garment_without_film_permission_leaves_no_trace_in_the_pack(
    pack: dict[str, Any],
) -> None:
    texts = [path for path in pack["folder"].iterdir() if path.suffix in {".txt", ".vtt", ".json"}]
    said = "\n".join(path.read_text(encoding="utf-8") for path in texts)
    assert (UNFILMED in said, UNNAMED in said, NAME in said) == (False, False, True)


def test_the_captions_are_read_by_a_reader_that_is_not_ours(pack: dict[str, Any]) -> None:
    captions = webvtt.read(pack["folder"] / "captions.vtt")
    said = [caption.text for caption in captions]
    assert len(said) == 6
    assert any("Size 4 · body 5 cm longer (+14 rows)" in one and NAME in one for one in said)
    chapters = webvtt.read(pack["folder"] / "chapters.vtt")
    assert len(chapters.captions) == 6


def test_exiftool_finds_no_place_comment_or_thumbnail_in_what_is_served(
    pack: dict[str, Any], site: Site, browser: Browser, tmp_path: Path
) -> None:
    needs("exiftool", "libimage-exiftool-perl")
    page = browser.new_context().new_page()
    page.goto(site.base + SERIES + "garments/")
    page.locator("article a").first.click()
    addresses = page.evaluate(
        "[...document.querySelectorAll('main img')].flatMap(one => one.srcset.split(', ')"
        ".map(part => part.split(' ')[0]))"
    )
    assert addresses
    for number, address in enumerate(addresses):
        served = page.request.get(site.base + address)
        assert served.status == 200
        (tmp_path / f"{number}.jpg").write_bytes(served.body())
    told = subprocess.run(["exiftool", "-G", "-j", tmp_path], capture_output=True, check=True)
    keys = {key for one in json.loads(told.stdout) for key in one}
    groups = {key.split(":")[0] for key in keys}
    # XMP: the credit that is allowed, and nothing else (tests/gallery/exhibition).
    assert groups <= {"SourceFile", "ExifTool", "File", "JFIF", "ICC_Profile", "Composite", "XMP"}
    credit = ("Creator", "Credit", "AltTextAccessibility")
    fields = (*credit, "ModelReleaseStatus", "CreditLineRequired")
    assert {key for key in keys if key.startswith("XMP")} <= {f"XMP:{one}" for one in fields}


def count_clicks(page: Page) -> list[str]:
    """A list that grows by one for each click a person makes on the page."""
    clicks: list[str] = []
    page.expose_function("clickCounted", lambda: clicks.append(page.url))
    page.add_init_script(
        "addEventListener('click', one => { if (one.isTrusted) clickCounted(); }, true)"
    )
    return clicks


def test_one_permission_is_taken_back_and_given_again_by_one_click_each(
    pack: dict[str, Any], site: Site, browser: Browser
) -> None:
    page = browser.new_context().new_page()
    clicks = count_clicks(page)
    page.goto(pack["link"])
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    public = f"{site.base}/garments/{page.url.rsplit('/', 2)[-2]}/"
    shown = page.locator("section[aria-labelledby=allow-public_pages]")
    away, again = (shown.get_by_role("button", name=one) for one in ("No longer", "Yes, I allow"))
    away.click()
    expect(again).to_be_visible()
    assert "/pictures/" not in page.request.get(public).text()
    assert len(clicks) == 1
    again.click()
    expect(away).to_be_visible()
    assert "/pictures/" in page.request.get(public).text()
    assert len(clicks) == 2
    assert page.locator("input[type=password], textarea, [required]").count() == 0


def test_taking_everything_back_closes_the_pack_and_the_pages_at_once(
    pack: dict[str, Any], site: Site, browser: Browser
) -> None:
    page = browser.new_context().new_page()
    clicks = count_clicks(page)
    page.goto(pack["link"])
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    public = page.url.rsplit("/", 2)[-2]
    assert page.request.get(f"{site.base}/garments/{public}/").status == 200
    page.get_by_role("link", name="Take everything back").click()
    assert page.locator("input[type=password], textarea, [required]").count() == 0
    page.get_by_role("button", name="Yes, take everything back").click()
    expect(page.get_by_role("button", name="Yes, take everything back")).to_have_count(0)
    assert len(clicks) == 2
    assert page.request.get(f"{site.base}/garments/{public}/").status == 404
    desk: Page = pack["desk"]
    desk.goto(pack["film_page"])
    expect(desk.get_by_text("The download is closed")).to_be_visible()
    expect(desk.get_by_role("link", name="Everything in one pack")).to_have_count(0)


def test_a_connection_lost_in_the_middle_leaves_nothing_behind(
    pack: dict[str, Any], site: Site
) -> None:
    def garments() -> int:
        with closing(sqlite3.connect(site.data / "site.sqlite3")) as database:
            [number] = database.execute("SELECT count(*) FROM contributions_contribution")
        return int(number[0])

    before = garments()
    port = int(site.base.rsplit(":", 1)[1])
    with socket.create_connection(("127.0.0.1", port)) as sender:
        sender.sendall(
            f"POST {SERIES}send/ HTTP/1.1\r\nHost: 127.0.0.1\r\n"
            "Content-Type: multipart/form-data; boundary=x\r\n"
            "Content-Length: 5000000\r\n\r\n"
            '--x\r\nContent-Disposition: form-data; name="pictures"; filename="a.jpg"\r\n\r\n'
            "".encode()
            + b"\xff\xd8\xff" * 300_000
        )
    urllib.request.urlopen(f"{site.base}/help/", timeout=30)  # the site goes on
    assert garments() == before
    assert list((site.data / "arriving").iterdir()) == []
