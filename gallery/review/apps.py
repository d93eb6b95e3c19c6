"""Names this room to Django."""

from django.apps import AppConfig


class ReviewConfig(AppConfig):
    name = "gallery.review"
    label = "review"
