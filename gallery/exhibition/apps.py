"""Names this room to Django."""

from django.apps import AppConfig


class ExhibitionConfig(AppConfig):
    name = "gallery.exhibition"
    label = "exhibition"
