"""Where the files of a photo lie: the private original and the sizes made from it."""

from pathlib import Path

from django.conf import settings

from gallery.contributions.models import Photo
from gallery.contributions.photos.framing import Framing
from gallery.vault import Vault

SMALL, MEDIUM, LARGE, FILM = "small", "medium", "large", "film"
SIZES = {SMALL: 400, MEDIUM: 1200, LARGE: 2000, FILM: 2560}  # longer side in pixels


def originals() -> Vault:
    """The vault of what was sent; nothing in it is ever shown as it is."""
    return Vault(settings.ORIGINALS_DIR)


def safe_pictures() -> Vault:
    """The vault of pictures made anew from pixels."""
    return Vault(settings.PICTURES_DIR)


def framing_of(photo: Photo) -> Framing:
    """How its sender turned and cut it."""
    return Framing(photo.turn, tuple(photo.crop))


def original_path(photo: Photo) -> Path:
    """The file as it was sent."""
    return originals().path(photo.original_sha256)
