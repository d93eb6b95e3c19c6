"""A sender's changes after sending, as the deeds get them: for tests of every room."""

from dataclasses import replace
from typing import Any

from alterations.records import store
from gallery.contributions.editing import keep
from gallery.contributions.editing.keep import Edited, EditedPicture
from gallery.contributions.intake import Tools
from gallery.contributions.keeping import words_of
from gallery.contributions.models import Contribution, Photo
from gallery.contributions.people.said import PeopleSaid, said_of


def as_it_is(row: Contribution, **changed: Any) -> Edited:
    """Everything as it is kept, but for what is given."""
    sheet = row.sheet
    if sheet is None:
        raise TypeError("This garment has no sheet.")
    kept = {
        "version": sheet.version,
        "size_name": sheet.size_name,
        "stage": row.stage,
        "tools": Tools(tool=sheet.tool),
        "alterations": store.alterations_of(sheet),
        "notes": row.notes,
        "credit_name": row.credit_name,
        "pictures": [said(photo) for photo in row.photos.all()],
    }
    return Edited(**{**kept, **changed})


def said(photo: Photo, **changed: Any) -> EditedPicture:
    """A picture as it is kept, but for what is given."""
    people = changed.pop("people", said_of(photo))
    return EditedPicture(photo, replace(words_of(photo), **changed), people)


def edit(made: Any, **changed: Any) -> int:
    """Her changes to a garment; gives how many lines of history they are."""
    made.row.refresh_from_db()
    lines = keep.save(made.row, as_it_is(made.row, **changed), made.row.edition)
    made.row.refresh_from_db()
    return lines


def edit_photo(made: Any, **changed: Any) -> int:
    """Her changes to the first picture of a garment."""
    if "people" in changed:
        changed["people"] = PeopleSaid(changed["people"])
    first, *others = made.row.photos.all()
    return edit(made, pictures=[said(first, **changed), *(said(one) for one in others)])
