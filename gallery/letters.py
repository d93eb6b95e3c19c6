"""Letters leave here: plain text, sent once the change they tell of is kept."""

import logging

from django.conf import settings
from django.core.mail import EmailMessage
from django.db import transaction

logger = logging.getLogger(__name__)


def address(path: str) -> str:
    """A full link for a letter; it starts with the configured address, never the request's."""
    return settings.BASE_URL + path


def post(subject: str, words: str, to: str) -> None:
    """Send one letter when the transaction is kept; trouble with the post undoes nothing."""
    letter = EmailMessage(subject=" ".join(subject.split()), body=words, to=[to])
    transaction.on_commit(lambda: _send(letter))


def _send(letter: EmailMessage) -> None:
    try:
        letter.send()
    except (OSError, ValueError) as error:
        # smtplib's errors are OSErrors, an address that cannot be written is a ValueError; their
        # texts hold the address, which never goes to the log.
        logger.error("A letter could not be sent (%s).", type(error).__name__)
