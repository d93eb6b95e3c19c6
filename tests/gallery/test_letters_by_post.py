"""Letters through a real mail server: what arrives is what was written."""

from email import message_from_bytes, policy
from typing import Any

import pytest
from django.db import transaction

from gallery import letters
from tests.post_office import Kept

pytestmark = pytest.mark.django_db


def sent(words: str, callbacks: Any) -> None:
    with callbacks(execute=True):
        letters.post("Your garment\r\nBcc: evil@example.org", words, "anna@example.org")


def test_a_letter_arrives_in_plain_text_and_html(
    post_office: Kept, django_capture_on_commit_callbacks: Any
) -> None:
    sent("Grüße\n\nhttps://example.org/mine/", django_capture_on_commit_callbacks)
    [envelope] = post_office.arrived
    letter = message_from_bytes(envelope.content, policy=policy.default)
    assert envelope.rcpt_tos == ["anna@example.org"]
    plain, html = (part.get_content() for part in letter.iter_parts())  # type: ignore[attr-defined]
    assert plain.replace("\r\n", "\n").strip() == "Grüße\n\nhttps://example.org/mine/"
    assert '<a href="https://example.org/mine/"' in html and "Grüße" in html


def test_a_subject_cannot_smuggle_a_header_in(
    post_office: Kept, django_capture_on_commit_callbacks: Any
) -> None:
    sent("words", django_capture_on_commit_callbacks)
    letter = message_from_bytes(post_office.arrived[0].content, policy=policy.default)
    assert letter["Bcc"] is None and letter["Subject"] == "Your garment Bcc: evil@example.org"


def test_markup_in_words_is_shown_not_run(
    post_office: Kept, django_capture_on_commit_callbacks: Any
) -> None:
    sent("<script>alert(1)</script>", django_capture_on_commit_callbacks)
    assert b"<script>" not in post_office.arrived[0].content.split(b"text/html")[1]


def test_nothing_is_sent_where_the_change_is_not_kept(post_office: Kept) -> None:
    with pytest.raises(RuntimeError), transaction.atomic():
        letters.post("Subject", "words", "anna@example.org")
        raise RuntimeError("not kept")
    assert post_office.arrived == []
