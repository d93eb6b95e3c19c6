"""Letters leave here: plain text with a simple HTML twin, sent once what they tell of is kept."""

import logging

from django.conf import settings
from django.core.mail import EmailMultiAlternatives
from django.db import transaction
from django.utils.html import escape, linebreaks, urlize

logger = logging.getLogger(__name__)


def address(path: str) -> str:
    """A full link for a letter; it starts with the configured address, never the request's."""
    return settings.BASE_URL + path


def post(subject: str, words: str, to: str) -> None:
    """Send one letter when the transaction is kept; trouble with the post undoes nothing."""
    letter = EmailMultiAlternatives(
        subject=" ".join(subject.split()),
        body=words,
        to=[to],
        headers={"Auto-Submitted": "auto-generated"},  # RFC 3834: no machine should answer it
    )
    letter.attach_alternative(as_html(words), "text/html")
    transaction.on_commit(lambda: _send(letter))


def as_html(words: str) -> str:
    """The same words as the simplest HTML: paragraphs and links, nothing loaded from anywhere."""
    # A letter comes from a template and so counts as safe; what people typed in it is not.
    body = linebreaks(urlize(escape(words.strip()), autoescape=True), autoescape=False)
    return f'<!doctype html><html><head><meta charset="utf-8"></head><body>{body}</body></html>'


def _send(letter: EmailMultiAlternatives) -> None:
    try:
        letter.send()
    except (OSError, ValueError) as error:
        # smtplib's errors are OSErrors, an address that cannot be written is a ValueError; their
        # texts hold the address, which never goes to the log.
        logger.error("A letter could not be sent (%s).", type(error).__name__)
