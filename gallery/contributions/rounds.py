"""One round with the sending page, remembered so that reload and the back button simply work.

A page that answers a POST directly makes the browser ask whether to send everything again. So what
was posted is kept in the session, and the page is fetched afresh from there.
"""

from dataclasses import dataclass

from django.http import HttpRequest, QueryDict

from gallery.series.models import Series

LARGEST = 100_000  # characters; a larger round is answered directly
NEVER_KEPT = ("draft", "csrfmiddlewaretoken")  # of a token only its hash is ever kept


@dataclass(frozen=True)
class Round:
    """What was posted, which button was pressed, and what was wrong with the pictures."""

    posted: QueryDict
    button: str = ""
    refused: tuple[str, ...] = ()


def remember(request: HttpRequest, series: Series, given: Round) -> bool:
    """Keep a round in the session; False where it is too large for that."""
    posted = given.posted.copy()
    for name in NEVER_KEPT:
        posted.pop(name, None)
    kept = [posted.urlencode(), given.button, list(given.refused)]
    if len(str(kept)) > LARGEST:
        return False
    request.session[_key(series)] = kept
    return True


def last(request: HttpRequest, series: Series) -> Round | None:
    """The last round of this browser with the page of that series."""
    kept = request.session.get(_key(series))
    return Round(QueryDict(kept[0]), kept[1], tuple(kept[2])) if kept else None


def forget(request: HttpRequest, series: Series) -> None:
    """Forget the round once the garment is sent."""
    request.session.pop(_key(series), None)


def _key(series: Series) -> str:
    return f"sending-{series.pk}"
