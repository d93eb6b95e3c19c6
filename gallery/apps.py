"""Names the house to Django (static files and commands live here)."""

from django.apps import AppConfig
from django.core.checks import register

from gallery.checks import letters_are_posted


class GalleryConfig(AppConfig):
    name = "gallery"
    label = "gallery"

    def ready(self) -> None:
        register(letters_are_posted, deploy=True)
