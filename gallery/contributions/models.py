"""Rows of the front door: a sent garment, its photos and the private link to it."""

import secrets

from django.db import models


def opaque_id() -> str:
    """A public id that tells nothing and cannot be guessed from another (96 bits)."""
    while True:
        made = secrets.token_urlsafe(12)
        if made[0].isalnum():  # one that begins with a hyphen would look like an option
            return made


class Contribution(models.Model):
    """One garment: a draft until it is sent. It points only downward."""

    class Stage(models.TextChoices):
        FINISHED = "finished", "finished"
        IN_PROGRESS = "in_progress", "still in progress"

    public_id = models.CharField(max_length=24, unique=True, default=opaque_id, editable=False)
    series = models.ForeignKey("series.Series", models.PROTECT, related_name="contributions")
    agreement = models.OneToOneField(
        "consent.Agreement", models.PROTECT, null=True, related_name="contribution"
    )
    sheet = models.OneToOneField(
        "alterations.Sheet", models.PROTECT, null=True, related_name="contribution"
    )
    # Only the hash of the draft's token is kept: it makes sending twice the same as sending once.
    draft_sha256 = models.CharField(max_length=64, unique=True)
    stage = models.CharField(max_length=12, choices=Stage, default=Stage.FINISHED)
    credit_name = models.CharField(max_length=400, blank=True)
    email = models.EmailField(blank=True)
    notes = models.TextField(blank=True)
    # What was typed so far, by field name, so that a closed browser can go on; never an answer to
    # a permission. Empty once sent.
    typed = models.JSONField(default=dict, blank=True)
    started_at = models.DateTimeField(auto_now_add=True)
    sent_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["sent_at", "pk"]
        indexes = [models.Index(fields=["series", "sent_at"], name="sent_in_series")]

    def __str__(self) -> str:
        return f"garment {self.public_id}"


class Photo(models.Model):
    """One picture as it was sent; the original stays private, what is shown is made anew."""

    class Stage(models.TextChoices):
        FINISHED = "finished", "finished garment"
        IN_PROGRESS = "in_progress", "in progress"
        DETAIL = "detail", "a detail"

    public_id = models.CharField(max_length=24, unique=True, default=opaque_id, editable=False)
    contribution = models.ForeignKey(Contribution, models.CASCADE, related_name="photos")
    position = models.PositiveIntegerField()
    stage = models.CharField(max_length=12, choices=Stage, default=Stage.FINISHED)
    description = models.CharField(max_length=500, blank=True)
    original_sha256 = models.CharField(max_length=64)
    original_name = models.CharField(max_length=255, blank=True)
    kind = models.CharField(max_length=8)
    bytes = models.PositiveBigIntegerField()
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()
    received_at = models.DateTimeField(auto_now_add=True)
    safe_at = models.DateTimeField(null=True, blank=True, help_text="all sizes are made")
    trouble = models.TextField(blank=True, help_text="why the sizes could not be made")

    class Meta:
        ordering = ["contribution", "position", "pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["contribution", "original_sha256"], name="a_picture_is_sent_once"
            ),
        ]

    def __str__(self) -> str:
        return f"photo {self.public_id}"


class Rendition(models.Model):
    """One safe size of a photo, made anew from pixels, kept by its content."""

    photo = models.ForeignKey(Photo, models.CASCADE, related_name="renditions")
    size = models.CharField(max_length=10)
    sha256 = models.CharField(max_length=64, db_index=True)
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()
    bytes = models.PositiveBigIntegerField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["photo", "size"], name="one_rendition_a_size"),
        ]

    def __str__(self) -> str:
        return f"{self.size} of {self.photo_id}"


class PrivateLink(models.Model):
    """A way in for the sender; only the hash of its token is kept."""

    contribution = models.ForeignKey(Contribution, models.CASCADE, related_name="links")
    token_sha256 = models.CharField(max_length=64, unique=True)
    created_at = models.DateTimeField(auto_now_add=True)
    expires_at = models.DateTimeField()
    revoked_at = models.DateTimeField(null=True, blank=True)

    def __str__(self) -> str:
        return f"link {self.pk} to {self.contribution_id}"


class Arrival(models.Model):
    """One picture that arrived, counted against its connection's hourly share; names nobody."""

    came_from = models.CharField(
        max_length=64, help_text="keyed hash of the address, not the address"
    )
    at = models.DateTimeField()

    class Meta:
        indexes = [models.Index(fields=["came_from", "at"], name="arrivals_of_one")]

    def __str__(self) -> str:
        return f"arrival {self.pk}"
