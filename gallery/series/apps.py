"""Names this room to Django."""

from django.apps import AppConfig


class SeriesConfig(AppConfig):
    name = "gallery.series"
    label = "series"
