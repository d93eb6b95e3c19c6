"""Rows of the ledger: texts, agreements and entries; added to, never changed; knows nobody."""

import uuid

from django.db import models
from django.utils.translation import gettext_lazy

from gallery.consent.purposes import PURPOSE_CHOICES


class ConsentText(models.Model):
    """One question exactly as shown: a changed wording is a new version, never an edit."""

    purpose = models.CharField(max_length=20, choices=PURPOSE_CHOICES)
    version = models.PositiveIntegerField()
    language = models.CharField(max_length=10, default="en")
    scope = models.CharField(max_length=60, blank=True, help_text="empty: for every series")
    sentence = models.TextField()
    meaning = models.TextField()
    sha256 = models.CharField(max_length=64)
    valid_from = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["purpose", "scope", "language", "version"]
        constraints = [
            models.UniqueConstraint(
                fields=["purpose", "scope", "language", "version"], name="one_text_a_version"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.purpose} {self.language} v{self.version}"


class Agreement(models.Model):
    """One page of the ledger: the entries about one sending. It names nobody."""

    uuid = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    opened_at = models.DateTimeField(auto_now_add=True)

    def __str__(self) -> str:
        return str(self.uuid)


class Entry(models.Model):
    """One answer to one question; the newest entry of a purpose is the one that stands."""

    class Answer(models.TextChoices):
        GIVEN = "given", gettext_lazy("given")
        REFUSED = "refused", gettext_lazy("not given")
        WITHDRAWN = "withdrawn", gettext_lazy("withdrawn")

    class Actor(models.TextChoices):
        SENDER = "sender", gettext_lazy("the sender")
        TEACHER = "teacher", gettext_lazy("the teacher, on the sender's behalf")

    class Way(models.TextChoices):
        FORM = "form", gettext_lazy("the sending form")
        PRIVATE_PAGE = "private_page", gettext_lazy("the private page")
        LETTER = "letter", gettext_lazy("a letter")
        DESK = "desk", gettext_lazy("the teacher's desk")

    uuid = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    seq = models.PositiveBigIntegerField(unique=True)
    agreement = models.ForeignKey(Agreement, models.PROTECT, related_name="entries")
    purpose = models.CharField(max_length=20, choices=PURPOSE_CHOICES)
    answer = models.CharField(max_length=10, choices=Answer)
    at = models.DateTimeField()
    actor = models.CharField(max_length=10, choices=Actor)
    way = models.CharField(max_length=20, choices=Way)
    text = models.ForeignKey(ConsentText, models.PROTECT, related_name="entries")
    text_sha256 = models.CharField(max_length=64)
    form_version = models.CharField(max_length=20)
    prev_hash = models.CharField(max_length=64)
    hash = models.CharField(max_length=64)

    class Meta:
        ordering = ["seq"]
        verbose_name_plural = "entries"
        indexes = [models.Index(fields=["purpose", "agreement", "-seq"], name="entry_standing")]

    def __str__(self) -> str:
        return f"{self.seq}: {self.purpose} {self.answer}"


class Check(models.Model):
    """One look over the whole ledger: when, over how many entries, and what was found changed."""

    at = models.DateTimeField(auto_now_add=True)
    entries = models.PositiveBigIntegerField()
    faults = models.TextField(blank=True, help_text="a line each; empty where all is well")

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return f"{self.entries} entries looked at: {'changed' if self.faults else 'well'}"
