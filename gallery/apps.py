"""Names the house to Django (static files and commands live here)."""

from django.apps import AppConfig


class GalleryConfig(AppConfig):
    name = "gallery"
    label = "gallery"
