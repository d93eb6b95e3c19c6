"""Names this room to Django, and lets the film's engine speak the site's languages."""

from django.apps import AppConfig
from django.utils.translation import gettext


class AlbumConfig(AppConfig):
    name = "gallery.album"
    label = "album"

    def ready(self) -> None:
        from gallery.album.film import saying  # noqa: PLC0415 (the apps are loaded only now)

        saying.speak_through(gettext)
