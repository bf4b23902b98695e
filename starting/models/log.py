"""The log: sessions with their ticks, steps set by hand, cautions passed."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import Q
from simple_history.models import HistoricalRecords

from fitting.models import Horse, Part, Tack, TackSet, TryOnPart
from fitting.models.kept import KeptRow

STOP_LEVELS = (
    ("end_today", "end for today"),
    ("go_back", "go back a step"),
    ("ring_vet", "ring the vet"),
)


class StageRecord(KeptRow):
    """A step set by hand: established by its record, or left out."""

    class State(models.TextChoices):
        ESTABLISHED = "established", "established"
        LEFT_OUT = "left_out", "left out"

    horse = models.ForeignKey(Horse, models.CASCADE, related_name="stage_records")
    stage = models.CharField(max_length=40)
    state = models.CharField(max_length=11, choices=State)
    on = models.DateField("day")
    note = models.CharField(max_length=300, blank=True)

    class Meta:
        ordering = ["on", "pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["horse", "stage"],
                name="stage_record_once",
                violation_error_message="This step is recorded already.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.stage} of {self.horse}: {self.get_state_display()}"


class Session(KeptRow):
    """One session: a step, its ticks, what was worn, a stop sign, who was there."""

    horse = models.ForeignKey(Horse, models.CASCADE, related_name="sessions")
    on = models.DateField("day")
    stage = models.CharField(max_length=40)
    minutes = models.PositiveSmallIntegerField(null=True, blank=True)
    checks = models.JSONField(default=dict, blank=True)
    stop_sign = models.CharField(max_length=200, blank=True)
    stop_level = models.CharField(max_length=9, choices=STOP_LEVELS, blank=True)
    on_the_day = models.JSONField(default=dict, blank=True)
    mood = models.CharField(max_length=30, blank=True)
    who = models.CharField(max_length=60, blank=True)
    note = models.CharField(max_length=500, blank=True)
    written_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.SET_NULL, null=True, blank=True
    )
    history = HistoricalRecords()

    class Meta:
        ordering = ["-on", "-pk"]
        indexes = [models.Index(fields=["horse", "on"])]
        constraints = [
            models.CheckConstraint(
                condition=Q(minutes__isnull=True) | Q(minutes__lte=240),
                name="session_minutes",
                violation_error_message="A session is no longer than four hours.",
            ),
            models.CheckConstraint(
                condition=Q(stop_sign="", stop_level="")
                | (~Q(stop_sign="") & ~Q(stop_level="")),
                name="session_stop_has_level",
                violation_error_message="Say what the stop sign means for the next.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.stage} with {self.horse}, {self.on}"


class SessionWorn(models.Model):
    """What was worn in a session, and how it sat."""

    session = models.ForeignKey(Session, models.CASCADE, related_name="worn")
    tack = models.ForeignKey(Tack, models.CASCADE, null=True, blank=True)
    made_up = models.ForeignKey(TackSet, models.CASCADE, null=True, blank=True)
    part = models.CharField(max_length=11, choices=Part.Name, blank=True)
    seen = models.CharField(max_length=11, choices=TryOnPart.Seen, blank=True)
    hole = models.PositiveSmallIntegerField(null=True, blank=True)

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.CheckConstraint(
                condition=Q(tack__isnull=False, made_up__isnull=True)
                | Q(tack__isnull=True, made_up__isnull=False),
                name="worn_one_thing",
                violation_error_message="Say which item, or which set, was worn.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.tack or self.made_up} in {self.session}"


class WentAhead(KeptRow):
    """A caution passed, with a written reason and its author."""

    horse = models.ForeignKey(Horse, models.CASCADE, related_name="went_ahead")
    stage = models.CharField(max_length=40)
    gate = models.CharField(max_length=40)
    reason = models.CharField("went ahead because", max_length=300)
    who = models.CharField(max_length=60)
    on = models.DateField("day")
    history = HistoricalRecords()

    class Meta:
        ordering = ["on", "pk"]
        verbose_name_plural = "went ahead"
        constraints = [
            models.UniqueConstraint(
                fields=["horse", "stage", "gate"],
                name="went_ahead_once",
                violation_error_message="A reason is written down already.",
            ),
            models.CheckConstraint(
                condition=~Q(reason=""),
                name="went_ahead_reason",
                violation_error_message="Write the reason down.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.horse}: {self.gate} of {self.stage}"
