"""What the room of pictures answers in English, in the language of the page."""

from django.utils.translation import gettext

from gallery.contributions.photos.errors import PictureRefused


def said(refused: PictureRefused) -> str:
    """Why a picture is not taken, and what to do."""
    facts = {name: gettext(fact) for name, fact in refused.facts.items()}
    words = gettext(refused.words)
    return words % facts if facts else words
