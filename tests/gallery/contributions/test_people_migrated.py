"""Photos sent before the question was asked stay as they were; a draft's are asked about."""

import importlib
from typing import Any

import pytest
from django.apps import apps

from .conftest import Knitter, picture

pytestmark = pytest.mark.django_db
migration: Any = importlib.import_module("gallery.contributions.migrations.0003_people_in_pictures")


def test_earlier_photos_count_as_answered_nobody(knitter: Knitter, another: Any) -> None:
    knitter.post(pictures=picture(), new_people=None)
    draft = another()
    draft.post("add", pictures=picture("teal"), new_people=None)
    migration.answer_for_earlier_photos(apps, None)
    assert knitter.garment.photos.get().people == "nobody"
    assert draft.garment.photos.get().people == ""
