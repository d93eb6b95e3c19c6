"""Rows of the annex: base patterns in their versions, and what a knitter made from one."""

from django.db import models
from django.utils.translation import gettext, gettext_lazy


class BasePattern(models.Model):
    """A pattern under one name; its numbers live in its versions."""

    slug = models.SlugField(unique=True)
    name = models.CharField(max_length=200)

    def __str__(self) -> str:
        return self.name


class PatternVersion(models.Model):
    """The text of a pattern file as it was loaded; never changed, so old garments keep theirs."""

    pattern = models.ForeignKey(BasePattern, models.PROTECT, related_name="versions")
    number = models.PositiveIntegerField()
    text = models.TextField()
    sha256 = models.CharField(max_length=64)
    loaded_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["pattern", "number"]
        constraints = [
            models.UniqueConstraint(fields=["pattern", "number"], name="one_number_a_version"),
            models.UniqueConstraint(fields=["pattern", "sha256"], name="one_version_a_text"),
        ]

    def __str__(self) -> str:
        told = {"pattern": self.pattern, "number": self.number}
        return gettext("%(pattern)s (version %(number)s)") % told


def _counted() -> models.DecimalField:
    return models.DecimalField(max_digits=6, decimal_places=1, null=True, blank=True)


def _length() -> models.CharField:
    return models.CharField(max_length=48, default="", blank=True)


class Sheet(models.Model):
    """What one knitter made: the size, the tools, her own swatch, how it behaved afterwards."""

    class Tool(models.TextChoices):
        UNSAID = "", gettext_lazy("not said")
        MACHINE = "machine", gettext_lazy("knitting machine")
        NEEDLES = "needles", gettext_lazy("hand needles")

    class Bed(models.TextChoices):
        """How the needles of her machine are used."""

        EVERY = "", gettext_lazy("every needle")
        SECOND = "second", gettext_lazy("every second needle")
        DOUBLE = "double", gettext_lazy("two beds for ribs")

    class Keeps(models.TextChoices):
        """What she kept of the pattern at her own gauge, in the pattern's yarn."""

        COUNTS = "counts", gettext_lazy("stitches and rows")
        MEASUREMENTS = "measurements", gettext_lazy("measurements")

    class Pilled(models.TextChoices):
        """Whether little balls of fluff came up on it in wear."""

        UNSAID = "", gettext_lazy("not said")
        NOT = "not", gettext_lazy("no")
        LITTLE = "little", gettext_lazy("a little")
        LOT = "lot", gettext_lazy("a lot")

    class Split(models.TextChoices):
        """Whether the yarn came apart into its plies while it was knitted."""

        UNSAID = "", gettext_lazy("not said")
        NO = "no", gettext_lazy("no")
        SOMETIMES = "sometimes", gettext_lazy("sometimes")
        OFTEN = "often", gettext_lazy("often")

    version = models.ForeignKey(PatternVersion, models.PROTECT, related_name="sheets")
    size_name = models.CharField(max_length=40)
    tool = models.CharField(max_length=10, choices=Tool, default=Tool.UNSAID, blank=True)
    machine_pitch_mm = models.DecimalField(max_digits=3, decimal_places=1, null=True, blank=True)
    machine_needles = models.PositiveIntegerField(null=True, blank=True)
    bed = models.CharField(max_length=10, choices=Bed.choices, default=Bed.EVERY, blank=True)
    needle_mm = models.DecimalField(max_digits=4, decimal_places=2, null=True, blank=True)
    # Her own swatch, washed, per 10 cm; empty where she knitted to the pattern's gauge.
    swatch_stitches = models.DecimalField(max_digits=7, decimal_places=3, null=True, blank=True)
    swatch_rows = models.DecimalField(max_digits=7, decimal_places=3, null=True, blank=True)
    # What she counted, from which the two above were worked out; the lengths as typed, with a unit.
    swatch_counted_stitches = _counted()
    swatch_counted_over = _length()
    swatch_counted_rows = _counted()
    swatch_counted_high = _length()
    keeps = models.CharField(max_length=12, choices=Keeps, default=Keeps.COUNTS)
    # How it behaved; the lengths as typed, with a unit, all of them or none of a pair.
    chest_before = _length()
    chest_after = _length()
    length_before = _length()
    length_after = _length()
    pilled = models.CharField(max_length=10, choices=Pilled, default=Pilled.UNSAID, blank=True)
    split = models.CharField(max_length=10, choices=Split, default=Split.UNSAID, blank=True)
    behaved_words = models.TextField(default="", blank=True)

    def __str__(self) -> str:
        told = {"size": self.size_name, "pattern": self.version}
        return gettext("size %(size)s of %(pattern)s") % told


class SheetLine(models.Model):
    """One alteration as it was entered; base and made numbers are worked out from it when asked."""

    sheet = models.ForeignKey(Sheet, models.CASCADE, related_name="lines")
    position = models.PositiveIntegerField()
    kind = models.CharField(max_length=40)
    entered = models.JSONField(default=dict)

    class Meta:
        ordering = ["sheet", "position"]
        constraints = [
            models.UniqueConstraint(fields=["sheet", "position"], name="one_line_a_position"),
        ]

    def __str__(self) -> str:
        return f"{self.kind} on sheet {self.sheet_id}"
