"""What leaves the house beside pages: log lines without tokens, letters with the right address."""

import logging
from typing import Any

import pytest
from django.core import mail
from django.template import Context, Template

from gallery import letters
from gallery.checks import letters_are_posted
from gallery.logs import HideTokens

TOKEN = "q1w2e3r4t5z6u7i8o9p0a1s2d3f4g5h6j7k8l9y0x1c"


def line(message: str, *arguments: object) -> str:
    record = logging.LogRecord("django.request", logging.WARNING, "", 0, message, arguments, None)
    assert HideTokens().filter(record)
    return record.getMessage()


def test_the_token_of_a_private_link_is_struck_out_of_the_log() -> None:
    said = line("%s: %s", "Not Found", f"/mine/link/{TOKEN}/")
    assert said == "Not Found: /mine/link/…/"


def test_other_lines_stay_as_they_are() -> None:
    assert line("%s: %s", "Not Found", "/garments/abc/") == "Not Found: /garments/abc/"


def test_a_wrong_link_is_not_found_and_not_logged(
    client: Any, db: None, caplog: pytest.LogCaptureFixture
) -> None:
    caplog.handler.addFilter(HideTokens())
    assert client.get(f"/mine/link/{TOKEN}/").status_code == 404
    assert TOKEN not in caplog.text


def test_a_letter_leaves_only_when_the_change_is_kept(
    db: None, django_capture_on_commit_callbacks: Any
) -> None:
    with django_capture_on_commit_callbacks(execute=False):
        letters.post("Arrived", "It is here.", "wendeline@example.org")
    assert mail.outbox == []
    with django_capture_on_commit_callbacks(execute=True):
        letters.post("Arrived\nBcc: all@example.org", "It is here.", "wendeline@example.org")
    assert [letter.subject for letter in mail.outbox] == ["Arrived Bcc: all@example.org"]


@pytest.mark.parametrize(
    "trouble", [OSError("550 anna@example.org"), UnicodeError("anna@example.org")]
)
def test_a_letter_that_cannot_be_sent_undoes_nothing_and_names_nobody_in_the_log(
    db: None,
    django_capture_on_commit_callbacks: Any,
    monkeypatch: pytest.MonkeyPatch,
    caplog: pytest.LogCaptureFixture,
    trouble: Exception,
) -> None:
    def fail(letter: Any) -> None:
        raise trouble

    monkeypatch.setattr("django.core.mail.EmailMessage.send", fail)
    with django_capture_on_commit_callbacks(execute=True):
        letters.post("Arrived", "It is here.", "anna@example.org")
    assert "could not be sent" in caplog.text and "anna" not in caplog.text


def test_a_public_site_without_a_mail_server_is_told_of(settings: Any) -> None:
    settings.POSTS_LETTERS = False
    assert [found.id for found in letters_are_posted(None)] == ["gallery.W001"]


def test_links_in_letters_start_with_the_configured_address(settings: Any) -> None:
    settings.BASE_URL = "https://garments.example.org"
    assert letters.address("/mine/") == "https://garments.example.org/mine/"


def test_what_people_typed_is_no_markup_in_a_letter() -> None:
    typed = Template(
        "{% autoescape off %}{{ name }} wrote from http://a.test/?a=1&b=2{% endautoescape %}"
    )
    html = letters.as_html(typed.render(Context({"name": "<img src=//x.test> &amp;"})))
    assert "&lt;img src=//x.test&gt; &amp;amp;" in html and "<img" not in html
    assert '<a href="http://a.test/?a=1&amp;b=2">' in html
