"""Care visits, incidents, off work, rests."""

from __future__ import annotations

from django.db import models
from django.db.models import F, Q
from simple_history.models import HistoricalRecords

from fitting.models import Horse
from fitting.models.kept import KeptRow


class CareVisit(KeptRow):
    """One visit, and what it cleared."""

    class Kind(models.TextChoices):
        VET = "vet", "vet"
        TEETH = "teeth", "teeth"
        FARRIER = "farrier", "farrier"
        SADDLE_FITTER = "saddle_fitter", "saddle fitter"
        VACCINATION = "vaccination", "vaccination"
        WORMING = "worming", "worming"
        BACK = "back", "back"
        GELDING = "gelding", "gelding"
        TOOTH_CHANGE = "tooth_change", "tooth change seen"
        OTHER = "other", "something else"

    class WolfTeeth(models.TextChoices):
        NONE = "none", "none there"
        LEFT = "left", "left in, on advice"
        OUT = "out", "taken out"

    horse = models.ForeignKey(Horse, models.CASCADE, related_name="care")
    kind = models.CharField(max_length=13, choices=Kind)
    on = models.DateField("day")
    clear = models.BooleanField("nothing left open", default=True)
    wolf_teeth = models.CharField(max_length=4, choices=WolfTeeth, blank=True)
    healing_until = models.DateField(null=True, blank=True)
    next_due = models.DateField("next", null=True, blank=True)
    who = models.CharField(max_length=60, blank=True)
    note = models.CharField(max_length=300, blank=True)
    history = HistoricalRecords()

    class Meta:
        ordering = ["-on", "pk"]
        constraints = [
            models.CheckConstraint(
                condition=Q(next_due__isnull=True) | Q(next_due__gt=F("on")),
                name="care_next_later",
                violation_error_message="The next visit comes after this one.",
            ),
            models.CheckConstraint(
                condition=Q(healing_until__isnull=True) | Q(healing_until__gte=F("on")),
                name="care_healing_later",
                violation_error_message="Healing ends after the visit.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.get_kind_display()}: {self.horse}, {self.on}"


class Incident(KeptRow):
    """A fall, a bolt, and the like."""

    class What(models.TextChoices):
        FALL = "fall", "fall"
        BOLT = "bolt", "bolted"
        BUCKED_OFF = "bucked_off", "bucked somebody off"
        HORSE_DOWN = "horse_down", "horse down"
        LINE_DRAGGED = "line_dragged", "dragged a line"
        KICK = "kick", "kick"
        OTHER = "other", "something else"

    horse = models.ForeignKey(Horse, models.CASCADE, related_name="incidents")
    on = models.DateField("day")
    what = models.CharField(max_length=12, choices=What)
    note = models.CharField(max_length=300, blank=True)
    history = HistoricalRecords()

    class Meta:
        ordering = ["-on", "pk"]

    def __str__(self) -> str:
        return f"{self.get_what_display()}: {self.horse}, {self.on}"


class OffWork(KeptRow):
    """Lame or ill: until a day, or until cleared by somebody."""

    horse = models.ForeignKey(Horse, models.CASCADE, related_name="off_work")
    start = models.DateField("from")
    why = models.CharField(max_length=200)
    until = models.DateField("until (first day back)", null=True, blank=True)
    cleared_by = models.CharField("to be cleared by", max_length=60, blank=True)
    cleared_on = models.DateField(null=True, blank=True)
    history = HistoricalRecords()

    class Meta:
        ordering = ["-start", "pk"]
        verbose_name_plural = "off work"
        constraints = [
            models.CheckConstraint(
                condition=Q(until__isnull=True) | Q(until__gt=F("start")),
                name="off_work_until_later",
                violation_error_message="The first day back comes after the first off.",
            ),
            models.CheckConstraint(
                condition=Q(cleared_on__isnull=True) | Q(cleared_on__gte=F("start")),
                name="off_work_cleared_later",
                violation_error_message="Cleared on or after the first day off.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.horse} off work from {self.start}"


class Rest(KeptRow):
    """Turned away, both days inside."""

    horse = models.ForeignKey(Horse, models.CASCADE, related_name="rests")
    start = models.DateField("from")
    end = models.DateField("to (last day)", null=True, blank=True)
    why = models.CharField(max_length=200, blank=True)
    history = HistoricalRecords()

    class Meta:
        ordering = ["-start", "pk"]
        constraints = [
            models.CheckConstraint(
                condition=Q(end__isnull=True) | Q(end__gte=F("start")),
                name="rest_end_later",
                violation_error_message="A rest ends on or after its first day.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.horse} resting from {self.start}"


CareRow = CareVisit | Incident | OffWork | Rest
