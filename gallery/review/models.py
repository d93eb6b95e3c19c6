"""Rows of the desk: verdicts, added, never changed; the newest one stands."""

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy


class Verdict(models.Model):
    """What the teacher decided about one photo, or (photo empty) about the words and numbers, or
    (of_name) about a name that was changed after she had looked.

    It is about the garment as she saw it: what changed in a later edition it does not cover.
    """

    class Decision(models.TextChoices):
        APPROVE = "approve", gettext_lazy("approved")
        ASK = "ask", gettext_lazy("asked back")
        DECLINE = "decline", gettext_lazy("declined")

    contribution = models.ForeignKey(
        "contributions.Contribution", models.CASCADE, related_name="verdicts"
    )
    photo = models.ForeignKey(
        "contributions.Photo", models.CASCADE, null=True, blank=True, related_name="verdicts"
    )
    of_name = models.BooleanField(default=False)
    edition = models.PositiveIntegerField(default=1, help_text="of the garment, as it was judged")
    decision = models.CharField(max_length=8, choices=Decision)
    note = models.TextField(blank=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="verdicts")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return f"{self.decision} on {self.contribution_id}"


class AskedAgain(models.Model):
    """One sender is asked about new words of a question, by one letter for each wording: noted when
    the teacher presses the button, so that no second press asks twice."""

    contribution = models.ForeignKey(
        "contributions.Contribution", models.CASCADE, related_name="asked_again"
    )
    text = models.ForeignKey("consent.ConsentText", models.PROTECT, related_name="asked_again")
    at = models.DateTimeField(auto_now_add=True)
    written_at = models.DateTimeField(null=True, help_text="when the letter was written")

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["contribution", "text"], name="asked_once_a_wording"),
        ]

    def __str__(self) -> str:
        return f"{self.contribution_id} asked about {self.text_id}"


class ToldAnswer(models.Model):
    """Why the teacher wrote an answer into the ledger: how and when it was told, in what words.

    It goes with the garment when that is erased; the entry of the ledger stays.
    """

    contribution = models.ForeignKey(
        "contributions.Contribution", models.CASCADE, related_name="told_answers"
    )
    entry = models.ForeignKey("consent.Entry", models.PROTECT, related_name="told_as")
    told_on = models.DateField()
    words = models.TextField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="told_answers")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return f"entry {self.entry_id} as told on {self.told_on}"
