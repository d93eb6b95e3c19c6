"""Does a machine send this? Nobody is asked a puzzle, and nothing is thrown away: what looks so is
kept apart until the teacher has looked.

Three signs: a field that people never see is filled in; the page was shown a moment ago, or never;
more garments come from one connection within an hour than people send. (Common practice against
automatic form filling; OWASP "Bot Management" and "Credential Stuffing" cheat sheets name the
first and the last.)
"""

from collections.abc import Mapping
from typing import Any

from django.core.signing import BadSignature, SignatureExpired, TimestampSigner
from django.http import QueryDict

from gallery.contributions import limits

TRAP, SHOWN = "website", "shown"  # names of the hidden fields
AGAIN = "again"  # what the stamp of a page says that was open for a day and is shown once more
LEAST_SECONDS = 3
MOST_SECONDS = 24 * 60 * 60
HIDDEN_FIELD, TOO_FAST, RATE = "hidden-field", "too-fast", "rate"
_signer = TimestampSigner(salt="gallery.contributions.shown")


def stamp() -> str:
    """What the page carries to say when it was shown; signed, so that it cannot be made up."""
    return _signer.sign(SHOWN)


def renewed(said: Mapping[str, Any]) -> str:
    """The stamp of a page that comes back: its own, so that whoever mends a mistake at once is not
    taken for a machine; after a day one that may be pressed without waiting."""
    given = str(said.get(SHOWN, ""))
    try:
        _signer.unsign(given, max_age=MOST_SECONDS)
    except SignatureExpired:
        return _signer.sign(AGAIN)
    except BadSignature:
        return stamp()
    return given


def is_stale(posted: QueryDict) -> bool:
    """Whether the page was open for more than a day: then it is shown once more, kept whole."""
    try:
        _signer.unsign(posted.get(SHOWN, ""), max_age=MOST_SECONDS)
    except SignatureExpired:
        return True
    except BadSignature:
        return False
    return False


def suspicion(posted: QueryDict, address: str) -> str:
    """Why this looks like a machine's sending; empty where it does not. Counts it as one more
    garment from that connection."""
    may_send = limits.may_send(address)
    if posted.get(TRAP, ""):
        return HIDDEN_FIELD
    if _is_too_fast(posted):
        return TOO_FAST
    return "" if may_send else RATE


def _is_too_fast(posted: QueryDict) -> bool:
    """Never shown, or shown less than a few seconds ago."""
    given = posted.get(SHOWN, "")
    try:
        told = _signer.unsign(given, max_age=MOST_SECONDS)
        return told != AGAIN and _is_younger(given)
    except BadSignature:
        return True


def _is_younger(given: str) -> bool:
    try:
        _signer.unsign(given, max_age=LEAST_SECONDS)
    except SignatureExpired:
        return False
    return LEAST_SECONDS > 0
