"""The horses of a yard."""

from __future__ import annotations

from django.db import models
from django.urls import reverse
from simple_history.models import HistoricalRecords

from fitting.age import Foaled, read_foaled
from fitting.models.kept import KeptRow
from fitting.models.yard import Yard

# In clearances, beside room by kind of tack: what was changed of the figures that the
# horse's tack is judged by, in order.
OWN_EDGES = "edges"


class Horse(KeptRow):
    """A youngster, or a grown horse kept for comparison that lends tack."""

    class Sex(models.TextChoices):
        FILLY = "filly", "filly"
        MARE = "mare", "mare"
        COLT = "colt", "colt"
        STALLION = "stallion", "stallion"
        GELDING = "gelding", "gelding"

    class Type(models.TextChoices):
        SMALL_PONY = "small_pony", "small pony"
        PONY = "pony", "pony"
        LIGHT = "light", "light horse"
        WARMBLOOD = "warmblood", "warmblood"
        HEAVY = "heavy", "heavy horse"

    yard = models.ForeignKey(Yard, models.CASCADE, related_name="horses")
    key = models.SlugField(max_length=60, editable=False)
    name = models.CharField(max_length=60)
    sex = models.CharField(max_length=8, choices=Sex)
    foaled = models.CharField(max_length=10)
    horse_type = models.CharField("type", max_length=10, choices=Type)
    grown = models.BooleanField(default=False)
    lives_out = models.BooleanField(default=False)
    dam_height_mm = models.FloatField(null=True, blank=True)
    dam_height_written = models.CharField(max_length=40, blank=True)
    sire_height_mm = models.FloatField(null=True, blank=True)
    sire_height_written = models.CharField(max_length=40, blank=True)
    clearances = models.JSONField(default=dict, blank=True)
    history = HistoricalRecords()

    class Meta:
        ordering = ["name"]
        constraints = [
            models.UniqueConstraint(
                fields=["yard", "name"],
                name="horse_name_once",
                violation_error_message="A horse of that name stands here already.",
            ),
            models.UniqueConstraint(fields=["yard", "key"], name="horse_key_once"),
            models.CheckConstraint(
                condition=models.Q(dam_height_mm__isnull=True)
                | models.Q(dam_height_mm__gt=0),
                name="horse_dam_height",
                violation_error_message="A height is more than nothing.",
            ),
            models.CheckConstraint(
                condition=models.Q(sire_height_mm__isnull=True)
                | models.Q(sire_height_mm__gt=0),
                name="horse_sire_height",
                violation_error_message="A height is more than nothing.",
            ),
        ]

    def __str__(self) -> str:
        return self.name

    def get_absolute_url(self) -> str:
        return reverse("fitting:horse", args=[self.yard.slug, self.key])

    @property
    def foaled_days(self) -> Foaled:
        """The days the horse may have been foaled on."""
        return read_foaled(self.foaled)

    @property
    def she(self) -> str:
        """The pronoun for sentences."""
        return "she" if self.sex in {self.Sex.FILLY, self.Sex.MARE} else "he"
