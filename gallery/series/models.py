"""Rows of the series: what is being made, by whom, until when; patterns still being written."""

import datetime
import secrets

from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models


class Series(models.Model):
    """One video series with its base pattern and its call for garments."""

    slug = models.SlugField(unique=True)
    short_code = models.SlugField(max_length=12, unique=True, help_text="the short address")
    title = models.CharField(max_length=200)
    teacher = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="series")
    teacher_name = models.CharField(max_length=200)
    pattern_version = models.ForeignKey(
        "alterations.PatternVersion", models.PROTECT, related_name="series"
    )
    introduction = models.TextField(blank=True)
    opens_on = models.DateField()
    closes_on = models.DateField()
    # The age below which local law may ask for a guardian's consent (13 to 16; GDPR Article 8).
    minimum_age = models.PositiveSmallIntegerField(
        default=16, validators=[MinValueValidator(13), MaxValueValidator(16)]
    )
    # Where it is not empty, only those who were told the word may send; capitals do not count.
    invitation_code = models.CharField(max_length=40, blank=True)
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["-opens_on", "slug"]
        verbose_name_plural = "series"
        constraints = [
            models.CheckConstraint(
                condition=models.Q(closes_on__gte=models.F("opens_on")),
                name="a_series_closes_after_it_opens",
            ),
        ]

    def __str__(self) -> str:
        return self.title

    def is_open(self, today: datetime.date) -> bool:
        """Whether garments may be sent on that day; both named days count."""
        return self.opens_on <= today <= self.closes_on


def _fresh_id() -> str:
    return secrets.token_urlsafe(9)


class PatternDraft(models.Model):
    """A pattern as its teacher types it in the browser, right or wrong, until it is used."""

    public_id = models.CharField(max_length=20, unique=True, default=_fresh_id)
    owner = models.ForeignKey(settings.AUTH_USER_MODEL, models.CASCADE, related_name="drafts")
    series = models.ForeignKey(Series, models.CASCADE, null=True, blank=True)
    typed = models.JSONField(default=dict)
    # Raised each time the draft is kept, so that an outdated page is noticed.
    times_kept = models.PositiveIntegerField(default=0)
    # Which page kept it last and its how-manyth sending that was: a page is never outdated by
    # itself, and a sending that was overtaken by a later one changes nothing.
    page = models.CharField(max_length=20, blank=True)
    turn = models.PositiveIntegerField(default=0)
    kept_as = models.ForeignKey(
        "alterations.PatternVersion", models.SET_NULL, null=True, blank=True, related_name="drafts"
    )
    begun_at = models.DateTimeField(auto_now_add=True)
    kept_at = models.DateTimeField(auto_now=True)

    class Meta:
        ordering = ["-kept_at", "-pk"]

    def __str__(self) -> str:
        return str(self.typed.get("pattern", {}).get("name") or "a pattern without a name")
