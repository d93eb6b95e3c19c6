"""Names this room to Django."""

from django.apps import AppConfig


class AlbumConfig(AppConfig):
    name = "gallery.album"
    label = "album"
