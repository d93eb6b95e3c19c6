"""Rows of the desk: verdicts, added, never changed; the newest one stands."""

from django.conf import settings
from django.db import models


class Verdict(models.Model):
    """What the teacher decided about one photo, or (photo empty) about the words and numbers."""

    class Decision(models.TextChoices):
        APPROVE = "approve", "approved"
        ASK = "ask", "asked back"
        DECLINE = "decline", "declined"

    contribution = models.ForeignKey(
        "contributions.Contribution", models.CASCADE, related_name="verdicts"
    )
    photo = models.ForeignKey(
        "contributions.Photo", models.CASCADE, null=True, blank=True, related_name="verdicts"
    )
    decision = models.CharField(max_length=8, choices=Decision)
    note = models.TextField(blank=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="verdicts")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return f"{self.decision} on {self.contribution_id}"
