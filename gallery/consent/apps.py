"""Names this room to Django."""

from django.apps import AppConfig


class ConsentConfig(AppConfig):
    name = "gallery.consent"
    label = "consent"
