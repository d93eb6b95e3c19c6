"""Every page of the site in every state, as data: where it is, who sees it, what is done there."""

from collections.abc import Callable
from dataclasses import dataclass

from playwright.sync_api import Page

OPEN, CLOSED, LATER = (
    "/series/ostrimane-evenings/",
    "/series/an-old-series/",
    "/series/a-later-series/",
)
DESK = "/desk/series/ostrimane-evenings/"
OLD_DESK = "/desk/series/an-old-series/"
Do = Callable[[Page], object]


def stay(page: Page) -> None:
    """Look at the page as it comes."""


def press(button: str) -> Do:
    """Press a button without filling anything in."""

    def act(page: Page) -> None:
        page.get_by_role("button", name=button).first.click()
        page.wait_for_load_state()

    return act


def unfold(page: Page) -> None:
    """Open everything that can be opened."""
    page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")


def after(*steps: Do) -> Do:
    """One thing after the other."""

    def act(page: Page) -> None:
        for step in steps:
            step(page)

    return act


def fill(selector: str, words: str) -> Do:
    """Type into a field."""
    return lambda page: page.fill(selector, words)


def go_on_too_soon(page: Page) -> None:
    """From the garment without a size; its mistakes come in by themselves."""
    page.get_by_role("button", name="On to what you changed").click()
    page.locator("[data-step=garment] .errors-on-top").wait_for()


def choose_no_size(page: Page) -> None:
    """As a browser without the answer would send it."""
    page.evaluate("document.getElementsByName('size').forEach((one) => { one.checked = false; })")


def wait_for_the_look(page: Page) -> None:
    """The last step, once everything is there."""
    page.locator("#look .facts").wait_for()


@dataclass(frozen=True)
class View:
    """One page in one state."""

    path: str
    who: str = ""
    do: Do = stay
    state: str = ""

    def __str__(self) -> str:
        return f"{self.who or 'anybody'} at {self.path} {self.state}".strip()


# The page on which a garment is sent: one line for each of its states.
SENDING = [
    View(f"{OPEN}send/"),
    View(f"{OPEN}send/", do=unfold, state="unfolded"),
    View(f"{OPEN}send/#look", do=after(press("Send my garment"), unfold), state="nothing filled"),
    View(f"{OPEN}send/", "somebody with a draft", unfold, "with pictures"),
    View(f"{OPEN}send/#garment", do=unfold, state="the garment"),
    View(f"{OPEN}send/#changes", do=unfold, state="what was changed"),
    View(f"{OPEN}send/#permissions", do=unfold, state="what is allowed"),
    View(f"{OPEN}send/#garment", do=go_on_too_soon, state="a step with mistakes"),
    View(f"{OPEN}send/#look", "somebody with a draft", wait_for_the_look, "looked over"),
    View(f"{OPEN}send/", "sender", state="another garment"),
    View(f"{OPEN}send/away/", "somebody with a draft"),
    View(f"{OPEN}send/", "somebody with a draft", press("Cut"), "the page to cut"),
    View("/de/series/ostrimane-evenings/send/", do=unfold, state="in German"),
    View(f"{OPEN}sent/", "sender"),
    View(f"{OPEN}sent/", "young sender"),
    View(f"{CLOSED}send/", state="closed"),
    View(f"{LATER}send/", state="not open yet"),
]
PUBLIC = [
    View("/"),
    View("/privacy/"),
    View("/help/"),
    View(OPEN),
    View(CLOSED),
    View(LATER),
    View(f"{OPEN}garments/"),
    View(f"{OPEN}garments/?page=2"),
    View(f"{LATER}garments/", state="without garments"),
    View("/garments/{shown}/", do=unfold),
    View("/garments/{shown}/worksheet/"),
    View(f"{OPEN}worksheet/"),
    View(f"{OPEN}numbers/"),
    View("/pictures/{shown photo}/objection/"),
    View(
        "/pictures/{shown photo}/objection/",
        do=after(
            lambda page: page.eval_on_selector("textarea", "it => it.value = 'x'.repeat(2001)"),
            press("Hide this picture"),
        ),
        state="too many words",
    ),
    View("/mine/lost/"),
    View("/mine/lost/", do=press("Send me my link"), state="nothing filled"),
    View(
        "/mine/lost/",
        do=after(lambda page: page.context.clear_cookies(), press("Send me my link")),
        state="without its secret",
    ),
    View("/nothing/here/", state="missing"),
    View("/desk/login/"),
    View("/desk/login/", do=press("Sign in"), state="nothing filled"),
    View(
        "/desk/login/",
        do=after(fill("[name=username]", "a"), fill("[name=password]", "b"), press("Sign in")),
        state="wrong password",
    ),
]
PRIVATE = [
    View("/mine/{hers}/", "sender", unfold),
    View("/mine/{hers}/receipt/", "sender"),
    View("/mine/{hers}/withdraw/", "sender"),
    View("/mine/{hers}/erase/", "sender"),
    View("/mine/{hers}/change/", "sender", unfold),
    View(
        "/mine/{hers}/change/",
        "sender",
        after(
            choose_no_size,
            press("Keep my changes"),
            unfold,
        ),
        "no size",
    ),
    View("/mine/{young}/", "young sender"),
    View("/mine/{young}/people/", "young sender", unfold),
    View(
        "/mine/{young}/people/",
        "young sender",
        after(press("Keep this answer"), unfold),
        "nothing filled",
    ),
    View("/guardian/{young}/", "guardian", unfold),
]
TEACHER = [
    View(path, "teacher", do, state)
    for path, do, state in [
        ("/desk/", unfold, ""),
        (DESK, stay, ""),
        ("/desk/garments/{hers}/", unfold, ""),
        ("/desk/garments/{waiting}/", stay, ""),
        ("/desk/garments/{unnamed}/", stay, ""),
        ("/desk/garments/{young}/", stay, ""),
        ("/desk/garments/{waiting}/", press("Ask"), "asked without a question"),
        ("/desk/garments/{waiting}/told/", stay, ""),
        ("/desk/garments/{waiting}/told/", press("Write it down"), "nothing filled"),
        (f"{DESK}questions/", unfold, ""),
        (f"{OLD_DESK}questions/film/ask/", stay, ""),
        (f"{OLD_DESK}questions/name/ask/", stay, "nobody to ask"),
        ("/desk/new-series/", stay, ""),
        ("/desk/new-series/", press("Set up the series"), "nothing filled"),
        (f"{DESK}details/", stay, ""),
        (f"{DESK}details/", after(fill("#id_title", ""), press("Keep the changes")), "no title"),
        (f"{DESK}pattern/", stay, ""),
        (f"{DESK}pattern/", press("Check and use this file"), "no file"),
        ("/desk/patterns/", stay, ""),
        ("/desk/patterns/{pattern draft}/", unfold, ""),
        ("/desk/health/", stay, ""),
        (f"{DESK}albums/", stay, "no album"),
        (f"{OLD_DESK}albums/", stay, ""),
        ("/desk/albums/{album}/", unfold, ""),
        ("/desk/albums/{older album}/", stay, "something taken back"),
        ("/desk/films/{film}/", unfold, ""),
        ("/desk/films/{closed film}/", stay, "closed"),
        ("/desk/films/{film under way}/", stay, "under way"),
        ("/desk/films/{failed film}/", stay, "failed"),
        ("/desk/films/{film}/copies/", unfold, ""),
        ("/desk/films/{film}/copies/", press("Write it down"), "nothing filled"),
        ("/desk/films/{closed film}/copies/", unfold, "closed"),
        ("/desk/films/{film}/authority/", stay, ""),
    ]
]
FULL = PUBLIC + SENDING + PRIVATE + TEACHER
# A page's states differ little in frame and order: one state of each, the last.
ONCE = list({(view.path, view.who): view for view in FULL}.values())
EMPTY = [
    View("/"),
    View("/help/"),
    View("/privacy/"),
    View("/desk/", "teacher"),
    View("/desk/patterns/", "teacher"),
    View("/desk/new-series/", "teacher"),
    View("/desk/health/", "teacher"),
]
