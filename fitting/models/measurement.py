"""What was measured, when and how; photos of the day."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from simple_history.models import HistoricalRecords

from fitting.body import measure_by_key
from fitting.models.bringing_in import BroughtIn
from fitting.models.horse import Horse
from fitting.models.kept import KeptRow
from fitting.models.yard import Yard

METHODS = (
    ("stick", "stick"),
    ("laser", "laser"),
    ("tape", "tape"),
    ("string", "string"),
    ("dowel", "dowel"),
    ("calliper", "calliper"),
    ("trial_bit", "trial bit"),
    ("gauge", "gauge"),
    ("weighbridge", "weighbridge"),
    ("weigh_tape", "weigh tape"),
    ("formula", "formula"),
    ("eye", "eye"),
)


class MeasurementQuerySet(models.QuerySet["Measurement"]):
    """Measurements, and which of them count."""

    def of(self, yard: Yard) -> MeasurementQuerySet:
        """Return those of one yard."""
        return self.filter(horse__yard=yard)

    def standing(self) -> MeasurementQuerySet:
        """Return those not struck out."""
        return self.filter(struck="")


class Measurement(KeptRow):
    """One measure on one day by one method: readings as typed and in mm, kg, score."""

    horse = models.ForeignKey(Horse, models.CASCADE, related_name="measurements")
    measure = models.CharField(max_length=20)
    on = models.DateField("day")
    method = models.CharField(max_length=12, choices=METHODS)
    same_person = models.BooleanField(default=False)
    who = models.CharField("measured by", max_length=60, blank=True)
    shod = models.BooleanField(default=False)
    readings = models.JSONField()  # [{"written": "13.0", "value": 1320.8}, ...]
    struck = models.CharField("struck out because", max_length=200, blank=True)
    note = models.CharField(max_length=300, blank=True)
    written_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.SET_NULL, null=True, blank=True
    )
    brought_in = models.ForeignKey(
        BroughtIn, models.SET_NULL, null=True, blank=True, related_name="measurements"
    )
    history = HistoricalRecords()

    objects = MeasurementQuerySet.as_manager()

    class Meta:
        ordering = ["-on", "measure", "pk"]
        indexes = [models.Index(fields=["horse", "measure", "on"])]

    def __str__(self) -> str:
        return f"{self.name} of {self.horse}, {self.on}"

    @property
    def name(self) -> str:
        """The measure's name."""
        return measure_by_key(self.measure).name

    @property
    def values(self) -> tuple[float, ...]:
        """The readings in mm, kg or score."""
        return tuple(reading["value"] for reading in self.readings)

    @property
    def written(self) -> str:
        """The readings as they were typed."""
        return ", ".join(reading["written"] for reading in self.readings)


class Photo(KeptRow):
    """One photo of one horse on one day: whole and small, as they were drawn again."""

    horse = models.ForeignKey(Horse, models.CASCADE, related_name="photos")
    on = models.DateField("day")
    image = models.ImageField(upload_to="horses/%Y")
    small = models.ImageField(upload_to="horses/%Y", blank=True)
    width = models.PositiveIntegerField(default=0, editable=False)  # pixels, whole
    height = models.PositiveIntegerField(default=0, editable=False)
    note = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ["-on", "pk"]

    def __str__(self) -> str:
        return f"{self.horse}, {self.on}"
