"""Secrets of the front door: the draft's token, what is kept of it, the private link's token."""

import hashlib
import re
import secrets

from django.utils.crypto import salted_hmac
from django.utils.http import urlsafe_base64_encode

_TOKEN = re.compile(r"[A-Za-z0-9_-]{43}")  # 32 bytes in URL-safe base64
_LINK = "gallery.contributions.private_link"
_PLACE = "gallery.contributions.came_from"


def new_token() -> str:
    """A new draft token: 256 random bits."""
    return secrets.token_urlsafe(32)


def is_token(text: str) -> bool:
    """Whether a text has the shape of a token; anything else is not even looked up."""
    return _TOKEN.fullmatch(text) is not None


def kept_of(token: str) -> str:
    """What the database keeps of a token: its SHA-256.

    A plain hash is enough for 256 random bits: there is nothing to guess.
    """
    return hashlib.sha256(token.encode()).hexdigest()


def link_token(draft_token: str) -> str:
    """The private link's token, worked out from the draft's.

    So a second click on "Send" can show the same link although neither token is kept anywhere.
    """
    return urlsafe_base64_encode(salted_hmac(_LINK, draft_token, algorithm="sha256").digest())


def place_of(address: str) -> str:
    """A keyed hash of an internet address: enough to count by, no address kept."""
    return salted_hmac(_PLACE, address, algorithm="sha256").hexdigest()
