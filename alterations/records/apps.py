"""Names the annex to Django."""

from django.apps import AppConfig


class RecordsConfig(AppConfig):
    name = "alterations.records"
    label = "alterations"
