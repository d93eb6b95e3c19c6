"""Names this room to Django."""

from django.apps import AppConfig


class ContributionsConfig(AppConfig):
    name = "gallery.contributions"
    label = "contributions"
