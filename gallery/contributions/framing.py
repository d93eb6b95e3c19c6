"""A sender turns or cuts a picture: its small size is made anew at once, the others when needed."""

import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from django.conf import settings
from django.db import transaction
from django.utils.translation import gettext as _

from gallery.contributions.keeping import MadeSize, kept_size, write_size
from gallery.contributions.models import Photo
from gallery.contributions.photos.framing import Framing
from gallery.contributions.photos.safely import PictureRefused, receive_safely
from gallery.contributions.picture_words import said
from gallery.contributions.pictures import original_path
from gallery.vault import VaultError

LEAST_SIDE = 200  # pixels that must be left on each side


class CannotFrameError(Exception):
    """A picture that cannot be turned or cut so; its text says why and what to do."""


@dataclass(frozen=True)
class Framed:
    """A picture turned and cut, its small size kept, its rows not written yet."""

    framing: Framing
    small: MadeSize
    doubts: tuple[str, ...]


def frame(photo: Photo, turn: int, crop: Sequence[int]) -> None:
    """Turn (degrees clockwise) and cut a picture of a draft; raises CannotFrameError."""
    write_framed(photo, framed(photo, turn, crop))


def framed(photo: Photo, turn: int, crop: Sequence[int]) -> Framed:
    """The small size of the picture as it is to be, its file kept; raises CannotFrameError."""
    try:
        framing = Framing(turn, tuple(crop))
    except ValueError as error:
        raise CannotFrameError(_("This cut lies outside the picture. Please cut again.")) from error
    if crop and min(framing.size_of(photo.width, photo.height)) < LEAST_SIDE:
        words = _("Less than %(least)s pixels would be left on one side. Please cut away less.")
        raise CannotFrameError(words % {"least": LEAST_SIDE})
    return _made(photo, framing)


def _made(photo: Photo, framing: Framing) -> Framed:
    with tempfile.TemporaryDirectory(dir=settings.FILE_UPLOAD_TEMP_DIR) as folder:
        try:
            received = receive_safely(original_path(photo), "", Path(folder), framing)
            return Framed(framing, kept_size(received.small), received.inspected.doubts)
        except PictureRefused as refused:
            raise CannotFrameError(said(refused)) from refused
        except VaultError as trouble:
            raise CannotFrameError(str(trouble)) from trouble


@transaction.atomic
def write_framed(photo: Photo, made: Framed) -> None:
    """Write the rows; every size that shows more than is left, or stands otherwise, is gone."""
    photo.turn, photo.crop = made.framing.turn, list(made.framing.cut)
    photo.doubts, photo.safe_at, photo.trouble = list(made.doubts), None, ""
    photo.save(update_fields=["turn", "crop", "doubts", "safe_at", "trouble"])
    photo.renditions.all().delete()
    write_size(photo, made.small)
