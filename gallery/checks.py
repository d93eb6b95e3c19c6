"""What `check --deploy` looks at besides Django's own list."""

from typing import Any

from django.conf import settings
from django.core.checks import CheckMessage, Warning


def letters_are_posted(app_configs: Any, **others: Any) -> list[CheckMessage]:
    """A public site without a mail server loses every letter."""
    if settings.POSTS_LETTERS:
        return []
    return [
        Warning(
            "No letter leaves this site: set GALLERY_SMTP_HOST.",
            hint="Knitters then get their private link on the page only.",
            id="gallery.W001",
        )
    ]
