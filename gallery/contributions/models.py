"""Rows of the front door: a sent garment, its photos and the private link to it."""

import secrets
from typing import Any

from django.conf import settings
from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy

from gallery.consent.purposes import PURPOSE_CHOICES


def opaque_id() -> str:
    """A public id that tells nothing and cannot be guessed from another (96 bits)."""
    while True:
        made = secrets.token_urlsafe(12)
        if made[0].isalnum():  # one that begins with a hyphen would look like an option
            return made


class Contribution(models.Model):
    """One garment: a draft until it is sent. It points only downward."""

    class Stage(models.TextChoices):
        FINISHED = "finished", gettext_lazy("finished")
        IN_PROGRESS = "in_progress", gettext_lazy("still in progress")

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
    # Under the series' minimum age: nothing is used before the guardian's own yes.
    is_younger = models.BooleanField(default=False)
    guardian_email = models.EmailField(blank=True)
    guardian_name = models.CharField(max_length=400, blank=True)
    # The language of the pages it was sent from; letters about it are written in it.
    language = models.CharField(max_length=10, blank=True)
    notes = models.TextField(blank=True)
    # What was typed so far, by field name, so that a closed browser can go on; never an answer to
    # a permission. Empty once sent.
    typed = models.JSONField(default=dict, blank=True)
    started_at = models.DateTimeField(auto_now_add=True)
    sent_at = models.DateTimeField(null=True, blank=True)
    # A draft nobody touches is thrown away in the end, after a letter where an address was given.
    touched_at = models.DateTimeField(default=timezone.now)
    warned_at = models.DateTimeField(null=True, blank=True)
    # What looked like a machine's sending is kept apart until the teacher has looked, never lost.
    held_because = models.CharField(max_length=20, blank=True)
    released_at = models.DateTimeField(null=True, blank=True)
    # Counts every change after sending, so that nobody overwrites or approves what was not seen;
    # the other two: in which edition the numbers and notes, and the name, became what they are.
    edition = models.PositiveIntegerField(default=1)
    words_edition = models.PositiveIntegerField(default=1)
    name_edition = models.PositiveIntegerField(default=1)
    # A young sender's guardian agreed to what she saw: since this edition there is more to it.
    guardian_edition = models.PositiveIntegerField(default=1)

    class Meta:
        ordering = ["sent_at", "pk"]
        indexes = [models.Index(fields=["series", "sent_at"], name="sent_in_series")]

    def __str__(self) -> str:
        return f"garment {self.public_id}"


class Photo(models.Model):
    """One picture as it was sent; the original stays private, what is shown is made anew."""

    class Stage(models.TextChoices):
        FINISHED = "finished", gettext_lazy("finished garment")
        IN_PROGRESS = "in_progress", gettext_lazy("in progress")
        DETAIL = "detail", gettext_lazy("a detail")

    class People(models.TextChoices):
        """Who can be recognised in it; of a child no name is ever asked."""

        UNSAID = "", gettext_lazy("not answered")
        NOBODY = "nobody", gettext_lazy("nobody who can be recognised")
        ME = "me", gettext_lazy("me")
        OTHERS = "others", gettext_lazy("other grown-ups")
        CHILD = "child", gettext_lazy("a child")

    public_id = models.CharField(max_length=24, unique=True, default=opaque_id, editable=False)
    contribution = models.ForeignKey(Contribution, models.CASCADE, related_name="photos")
    position = models.PositiveIntegerField()
    stage = models.CharField(max_length=12, choices=Stage, default=Stage.FINISHED)
    description = models.CharField(max_length=500, blank=True)
    is_decorative = models.BooleanField(default=False, help_text="needs no description")
    # How the sender turned (degrees clockwise) and cut it, applied to the pixels of every size:
    # left, top, right, bottom in ten-thousandths of the turned picture; empty is the whole.
    turn = models.PositiveSmallIntegerField(default=0)
    crop = models.JSONField(default=list, blank=True)
    # What deserves a second look ("small", "dark", "blurred", "alike"), and a perceptual hash.
    doubts = models.JSONField(default=list, blank=True)
    fingerprint = models.CharField(max_length=16, blank=True)
    people = models.CharField(
        max_length=8, choices=People.choices, default=People.UNSAID, blank=True
    )
    others_agree = models.BooleanField(default=False, help_text="the sender says so")
    people_seen_at = models.DateTimeField(null=True, blank=True)
    people_seen_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="people_seen"
    )
    sender_is_guardian = models.BooleanField(default=False)
    guardian_email = models.EmailField(blank=True)
    original_sha256 = models.CharField(max_length=64)
    original_name = models.CharField(max_length=255, blank=True)
    kind = models.CharField(max_length=8)
    bytes = models.PositiveBigIntegerField()
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()
    received_at = models.DateTimeField(auto_now_add=True)
    safe_at = models.DateTimeField(null=True, blank=True, help_text="all sizes are made")
    trouble = models.TextField(blank=True, help_text="why the sizes could not be made")
    # In which edition of the garment her answer about the people in it, and her words about it,
    # became what they are; the picture itself never changes.
    edition = models.PositiveIntegerField(default=1)
    words_edition = models.PositiveIntegerField(default=1)

    class Meta:
        ordering = ["contribution", "position", "pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["contribution", "original_sha256"], name="a_picture_is_sent_once"
            ),
        ]

    def __str__(self) -> str:
        return f"photo {self.public_id}"


class Change(models.Model):
    """One thing its sender changed after sending; the lines are the garment's history.

    What stood there before is kept only until the teacher has looked (`seen_at`), so that she can
    see the difference; afterwards the line alone stays.
    """

    class What(models.TextChoices):
        NUMBERS = "numbers", gettext_lazy("Size, tools and changes")
        NOTES = "notes", gettext_lazy("Words")
        STAGE = "stage", gettext_lazy("How far the garment is")
        NAME = "name", gettext_lazy("Name")
        DESCRIPTION = "description", gettext_lazy("What the picture shows")
        PHOTO_STAGE = "photo_stage", gettext_lazy("Which kind of picture it is")
        PEOPLE = "people", gettext_lazy("Who can be recognised in the picture")
        ADDED = "added", gettext_lazy("A picture added")
        REMOVED = "removed", gettext_lazy("A picture taken out")
        ORDER = "order", gettext_lazy("The order of the pictures")
        FRAMED = "framed", gettext_lazy("A picture turned or cut")

    contribution = models.ForeignKey(Contribution, models.CASCADE, related_name="history")
    edition = models.PositiveIntegerField(help_text="of the garment, with this change in it")
    what = models.CharField(max_length=12, choices=What)
    photo_id_then = models.CharField(max_length=24, blank=True, help_text="the photo's public id")
    photo_number = models.PositiveIntegerField(default=0, help_text="its place at that moment")
    before = models.TextField(blank=True)
    # The sheet that stood before; the one it became is the garment's own, or the next line's.
    sheet_before = models.OneToOneField(
        "alterations.Sheet", models.SET_NULL, null=True, blank=True, related_name="+"
    )
    at = models.DateTimeField(auto_now_add=True)
    seen_at = models.DateTimeField(null=True, blank=True, help_text="the teacher has looked at it")

    class Meta:
        ordering = ["pk"]
        indexes = [models.Index(fields=["contribution", "seen_at"], name="changes_to_look_at")]

    def __str__(self) -> str:
        return f"{self.what} of {self.contribution_id} in edition {self.edition}"


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
    """A way in for one purpose; only the hash of its token is kept."""

    class Purpose(models.TextChoices):
        OWN = "own", gettext_lazy("the sender's way back")
        GUARDIAN = "guardian", gettext_lazy("a parent or guardian confirms")
        DRAFT = "draft", gettext_lazy("going on with a draft")

    contribution = models.ForeignKey(Contribution, models.CASCADE, related_name="links")
    purpose = models.CharField(max_length=8, choices=Purpose, default=Purpose.OWN)
    # A guardian's link is about the pictures, or the garment, for which this address was given.
    for_address = models.EmailField(blank=True)
    token_sha256 = models.CharField(max_length=64, unique=True)
    created_at = models.DateTimeField(auto_now_add=True)
    expires_at = models.DateTimeField()
    revoked_at = models.DateTimeField(null=True, blank=True)

    def __str__(self) -> str:
        return f"link {self.pk} to {self.contribution_id}"


class GuardianAnswer(models.Model):
    """A parent's or guardian's yes or no to one use of a child's picture, or a young sender's
    garment; added to, never changed, and the newest one stands.

    It points at the ledger's page and names the thing by its opaque id, so that this proof names
    nobody and outlives the picture.
    """

    class Scope(models.TextChoices):
        PHOTO = "photo", gettext_lazy("a photo")
        GARMENT = "garment", gettext_lazy("the whole garment")

    class Way(models.TextChoices):
        LINK = "link", gettext_lazy("the guardian's own link")
        SENDER = "sender", gettext_lazy("the sender, who is the parent or guardian")

    agreement = models.ForeignKey(
        "consent.Agreement", models.PROTECT, related_name="guardian_answers"
    )
    scope = models.CharField(max_length=8, choices=Scope)
    about = models.CharField(max_length=24, help_text="public id of the photo or garment")
    purpose = models.CharField(max_length=20, choices=PURPOSE_CHOICES)
    is_yes = models.BooleanField()
    at = models.DateTimeField()
    way = models.CharField(max_length=8, choices=Way)
    edition = models.PositiveIntegerField(
        null=True, help_text="of the garment she saw; empty: as it was sent"
    )
    text = models.ForeignKey("consent.ConsentText", models.PROTECT, related_name="guardian_answers")
    text_sha256 = models.CharField(max_length=64)
    seq = models.PositiveBigIntegerField(unique=True)
    prev_hash = models.CharField(max_length=64)
    hash = models.CharField(max_length=64)

    class Meta:
        ordering = ["pk"]
        indexes = [models.Index(fields=["about", "purpose", "-id"], name="guardian_standing")]

    def __str__(self) -> str:
        return f"{self.purpose} of {self.scope} {self.about}: {'yes' if self.is_yes else 'no'}"


def keep_dates_alone(collector: Any, field: Any, rows: Any, using: str) -> None:
    """When a photo is erased, its objections keep their dates and lose their words."""
    collector.add_field_update(field, None, rows)
    collector.add_field_update(Objection._meta.get_field("words"), "", rows)


class Objection(models.Model):
    """Somebody says a public picture shows them; it is hidden until the teacher has looked."""

    photo = models.ForeignKey(
        Photo, on_delete=keep_dates_alone, null=True, related_name="objections"
    )
    words = models.TextField(blank=True)
    at = models.DateTimeField(auto_now_add=True)
    resolved_at = models.DateTimeField(null=True, blank=True)
    resolved_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="resolved"
    )
    upheld = models.BooleanField(null=True, help_text="yes: hidden for good; no: shown again")

    class Meta:
        ordering = ["pk"]
        indexes = [models.Index(fields=["photo", "upheld"], name="objections_to_a_photo")]

    def __str__(self) -> str:
        return f"objection {self.pk} to {self.photo_id}"


class Arrival(models.Model):
    """One thing that arrived, counted against its connection's hourly share; names nobody."""

    class What(models.TextChoices):
        PICTURE = "picture", gettext_lazy("a picture")
        OBJECTION = "objection", gettext_lazy("an objection to a picture")
        SENDING = "sending", gettext_lazy("a garment sent")
        LETTER = "letter", gettext_lazy("a link asked for by letter")

    what = models.CharField(max_length=10, choices=What, default=What.PICTURE)
    came_from = models.CharField(
        max_length=64, help_text="keyed hash of the address, not the address"
    )
    at = models.DateTimeField()

    class Meta:
        indexes = [models.Index(fields=["came_from", "at"], name="arrivals_of_one")]

    def __str__(self) -> str:
        return f"arrival {self.pk}"
