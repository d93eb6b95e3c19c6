"""What is typed on the sending page stays in the draft, right or wrong, until it is sent."""

from django.http import QueryDict

from gallery.contributions import drafts, keeping
from gallery.contributions.drafts import Draft
from gallery.contributions.models import Contribution
from gallery.contributions.sending import Sending

MOVES = {"earlier": -1, "later": 1}


def keep_what_was_said(sending: Sending, draft: Draft) -> None:
    """Remember the words about the pictures and everything typed in the draft."""
    for photo, form in ((one.photo, one.form) for one in sending.photos):
        if form.is_bound:
            form.is_valid()  # what is wrong or missing does not keep the rest from being kept
            keeping.describe(photo, form.words_for(photo), form.said)
    seen = str(sending.said.get("as_of", ""))
    drafts.keep_typed(draft, sending.typed_so_far(), seen)


def put_in_order(row: Contribution | None, posted: QueryDict) -> None:
    """The order the page shows, then one step earlier or later where such a button was pressed."""
    if row is None:
        return
    keeping.set_order(row, posted.getlist("order"))
    for name, places in MOVES.items():
        if name in posted:
            keeping.move(row, str(posted[name]), places)
