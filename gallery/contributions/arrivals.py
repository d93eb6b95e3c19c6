"""Pictures as they arrive: the good ones are kept, each other one is named with its reason."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from django.conf import settings
from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from gallery.contributions import drafts, limits
from gallery.contributions.drafts import Draft
from gallery.contributions.keeping import (
    AlreadyKeptError,
    KeptFile,
    NotKeptError,
    add,
    receive,
)
from gallery.contributions.models import Contribution, Photo
from gallery.series.models import Series

OK, TOO_MANY, NO_ROOM = 200, 429, 507
Add = Callable[[Contribution, KeptFile], Photo]


@dataclass(frozen=True)
class Arriving:
    """One file of the form, with what was said about it."""

    file: UploadedFile
    description: str = ""
    stage: str = Photo.Stage.FINISHED
    people: str = Photo.People.UNSAID

    @property
    def name(self) -> str:
        """The name it came with, for words to the person only."""
        return self.file.name or _("a picture without a name")


@dataclass
class Arrived:
    """What became of the files: the draft they are in, who was refused and why, what to tell."""

    draft: Draft
    kept: list[tuple[Photo, Arriving]] = field(default_factory=list)
    known: list[Photo] = field(default_factory=list)
    refused: list[str] = field(default_factory=list)
    told: list[str] = field(default_factory=list)
    status: int = OK
    add: Add = add


def take_in(
    draft: Draft, series: Series, files: Sequence[Arriving], address: str, add: Add = add
) -> Arrived:
    """Keep what can be kept in the draft; every other file gets a sentence with its name.

    `add` writes the rows of one picture: other rules hold once a garment is sent.
    """
    arrived = Arrived(draft, add=add)
    if not files:
        return arrived
    if not limits.has_room(sum(file.file.size or 0 for file in files)):
        arrived.status = NO_ROOM
        arrived.refused.append(_no_room())
        return arrived
    left_out = [file for file in files if not _keep_one(arrived, series, file, address)]
    _tell_left_out(arrived, left_out)
    return arrived


def _keep_one(arrived: Arrived, series: Series, file: Arriving, address: str) -> bool:
    """Keep one file or say why not; False where there was no place for it at all."""
    kept = arrived.draft.row.photos.count() if arrived.draft.row else 0
    if kept >= settings.UPLOAD_MAX_PICTURES or arrived.status == TOO_MANY:
        return False
    if not limits.may_arrive(address):
        arrived.status = TOO_MANY
        return False
    try:
        kept_file = receive(file.file)
        row = drafts.begin(arrived.draft, series)
        arrived.draft = Draft(arrived.draft.token, row)
        arrived.kept.append((arrived.add(row, kept_file), file))
        arrived.told += [f"“{file.name}”: {_(note)}" for note in kept_file.notes]
    except AlreadyKeptError as known:
        arrived.known.append(known.photo)
        arrived.told.append(
            _("“%(name)s” was already here, so it is kept once.") % {"name": file.name}
        )
    except NotKeptError as refused:
        arrived.refused.append(f"“{file.name}”: {refused}")
    return True


def _tell_left_out(arrived: Arrived, left_out: Sequence[Arriving]) -> None:
    if not left_out:
        return
    names = ", ".join(f"“{file.name}”" for file in left_out)
    if arrived.status == TOO_MANY:
        words = _(
            "More pictures have come from your connection within an hour than this site can take "
            "in. Please add these in an hour; all you gave stays here: %(names)s"
        )
        arrived.refused.append(words % {"names": names})
        return
    words = ngettext(
        "There is room for %(most)s pictures with one garment. This one was left out: %(names)s",
        "There is room for %(most)s pictures with one garment. These were left out: %(names)s",
        len(left_out),
    )
    arrived.refused.append(words % {"most": settings.UPLOAD_MAX_PICTURES, "names": names})


def _no_room() -> str:
    return _(
        "The site has no room for more pictures at the moment, and its keeper must make some. What "
        "you typed is still here. Please try again tomorrow, or write to %(contact)s."
    ) % {"contact": settings.CONTACT_EMAIL}
