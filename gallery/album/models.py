"""Rows of the film end: an album, its slides, the renders asked for and the films made."""

from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy

from gallery.contributions.models import opaque_id

# Two cross-fades of 0.8 s and a moment to look; above 30 s nobody watches one picture.
SHORTEST_SECONDS, LONGEST_SECONDS = 2, 30


class Album(models.Model):
    """One closing film in the making."""

    class Look(models.TextChoices):
        EVENING = "evening", gettext_lazy("evening: light letters on dark")
        MORNING = "morning", gettext_lazy("morning: dark letters on light")

    public_id = models.CharField(max_length=24, unique=True, default=opaque_id, editable=False)
    series = models.ForeignKey("series.Series", models.PROTECT, related_name="albums")
    title = models.CharField(max_length=200)
    seconds_per_slide = models.DecimalField(
        max_digits=4,
        decimal_places=1,
        default=5,
        validators=[MinValueValidator(SHORTEST_SECONDS), MaxValueValidator(LONGEST_SECONDS)],
    )
    look = models.CharField(max_length=10, choices=Look, default=Look.EVENING)
    music_sha256 = models.CharField(max_length=64, blank=True)
    music_name = models.CharField(max_length=255, blank=True)
    music_licence = models.CharField(max_length=400, blank=True)
    # Counts every change, so that two people at it do not overwrite one another unseen.
    version = models.PositiveIntegerField(default=1)
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["-created_at"]

    def __str__(self) -> str:
        return self.title


class Slide(models.Model):
    """One picture of the film: a garment's photo or a card with words."""

    class Kind(models.TextChoices):
        TITLE = "title", gettext_lazy("title card")
        GARMENT = "garment", gettext_lazy("garment")
        THANKS = "thanks", gettext_lazy("thanks card")

    public_id = models.CharField(max_length=24, unique=True, default=opaque_id, editable=False)
    album = models.ForeignKey(Album, models.CASCADE, related_name="slides")
    position = models.PositiveIntegerField()
    kind = models.CharField(max_length=10, choices=Kind)
    photo = models.ForeignKey(
        "contributions.Photo", models.CASCADE, null=True, blank=True, related_name="slides"
    )
    title = models.CharField(max_length=200, blank=True)
    # Words on a card; on a garment the teacher's own caption, empty where the generated one stands.
    words = models.TextField(blank=True)
    # Whether the garment's numbers might be told when she wrote them.
    words_may_tell_numbers = models.BooleanField(default=False)
    # The teacher's choice where a name cannot be drawn, or should not be: neutral words instead.
    names_nobody = models.BooleanField(default=False)
    # Which edition of the garment's numbers they could tell; changed numbers set them aside.
    words_edition = models.PositiveIntegerField(default=1)
    taken_out_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["album", "position", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["album", "photo"], name="a_photo_once_an_album"),
        ]

    def __str__(self) -> str:
        return f"{self.kind} {self.position} of {self.album_id}"


class Render(models.Model):
    """One wish for a film; its state is read from its dates."""

    public_id = models.CharField(max_length=24, unique=True, default=opaque_id, editable=False)
    album = models.ForeignKey(Album, models.CASCADE, related_name="renders")
    requested_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="renders"
    )
    requested_at = models.DateTimeField(auto_now_add=True)
    plan = models.TextField(help_text="what the film shows, as decided when it was last planned")
    album_version = models.PositiveIntegerField(default=0, help_text="of the album it was made of")
    replanned_at = models.DateTimeField(
        null=True, blank=True, help_text="a permission was taken back while the film was made"
    )
    parts_found = models.PositiveIntegerField(default=0, help_text="made already when it began")
    parts_done = models.PositiveIntegerField(default=0)
    parts_total = models.PositiveIntegerField(default=0)
    # Steps begun since the last one that came to its end.
    tries = models.PositiveIntegerField(default=0)
    started_at = models.DateTimeField(null=True, blank=True)
    touched_at = models.DateTimeField(null=True, blank=True)
    cancelled_at = models.DateTimeField(null=True, blank=True)
    failed_at = models.DateTimeField(null=True, blank=True)
    trouble = models.TextField(blank=True)

    class Meta:
        ordering = ["-requested_at", "-pk"]

    def __str__(self) -> str:
        return f"render {self.public_id}"


class Film(models.Model):
    """A finished, verified and published film file."""

    render = models.OneToOneField(Render, models.CASCADE, related_name="film")
    sha256 = models.CharField(max_length=64)
    poster_sha256 = models.CharField(max_length=64)
    pack_sha256 = models.CharField(
        max_length=64, blank=True, help_text="of the pack as last written; empty until then"
    )
    bytes = models.PositiveBigIntegerField()
    frames = models.PositiveIntegerField()
    seconds = models.DecimalField(max_digits=8, decimal_places=3)
    published_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["-published_at"]

    def __str__(self) -> str:
        return f"film of {self.render_id}"


class FilmItem(models.Model):
    """What one slide of a film rests on: the photo and the ledger entries that allowed it."""

    film = models.ForeignKey(Film, models.CASCADE, related_name="items")
    photo = models.ForeignKey(
        "contributions.Photo", models.SET_NULL, null=True, related_name="film_items"
    )
    photo_public_id = models.CharField(max_length=24)
    agreement_uuid = models.UUIDField()
    entry_seqs = models.JSONField(default=list, help_text="the ledger entries it was shown by")
    position = models.PositiveIntegerField(default=0, help_text="among the slides of the film")
    caption = models.TextField(blank=True)
    credit = models.CharField(max_length=400, blank=True)
    people = models.CharField(max_length=8, blank=True, help_text="who was in the picture then")
    people_seen_at = models.DateTimeField(null=True, blank=True)
    guardian_seqs = models.JSONField(default=list, help_text="guardians' answers it was shown by")
    verdicts = models.JSONField(default=list, help_text="the teacher's approvals it was shown by")
    names_nobody = models.BooleanField(
        default=False, help_text="neutral words stood there because the teacher chose them"
    )

    class Meta:
        ordering = ["film", "position"]

    def __str__(self) -> str:
        return f"{self.photo_public_id} in film {self.film_id}"


class CopyGiven(models.Model):
    """One copy of a film that was handed on; struck out where it was written down by mistake."""

    class What(models.TextChoices):
        FILM = "film", gettext_lazy("the film alone")
        PACK = "pack", gettext_lazy("the pack")

    film = models.ForeignKey(Film, models.CASCADE, related_name="copies")
    to = models.CharField(max_length=200)
    email = models.EmailField(blank=True)
    what = models.CharField(max_length=4, choices=What)
    sha256 = models.CharField(max_length=64)
    given_on = models.DateField()
    note = models.CharField(max_length=400, blank=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="copies_given")
    at = models.DateTimeField(auto_now_add=True)
    told_at = models.DateTimeField(
        null=True, blank=True, help_text="when they were told that the film is closed"
    )
    struck_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["given_on", "pk"]

    def __str__(self) -> str:
        return f"{self.what} of film {self.film_id} to {self.to}"
