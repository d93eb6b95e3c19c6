"""Names the annex to Django."""

from django.apps import AppConfig
from django.utils.formats import get_format
from django.utils.translation import gettext, ngettext

from alterations.saying import speak_through


class RecordsConfig(AppConfig):
    name = "alterations.records"
    label = "alterations"

    def ready(self) -> None:
        """The library speaks the language of whoever is looking."""
        speak_through(gettext, ngettext, lambda: str(get_format("DECIMAL_SEPARATOR")))
