"""What was seen when tack was held against a horse, or put on."""

from __future__ import annotations

from django.db import models
from django.db.models import Q
from simple_history.models import HistoricalRecords

from fitting.models.horse import Horse
from fitting.models.kept import KeptRow
from fitting.models.tack import Part, Tack, TackSet


class TryOn(KeptRow):
    """One try-on of an item, or of a made-up set."""

    class How(models.TextChoices):
        HELD = "held", "held against"
        WORN = "worn", "put on"

    class Answer(models.TextChoices):
        GOOD = "good", "good"
        WATCH = "watch", "only just"
        NO = "no", "no"

    class Stop(models.TextChoices):
        END_TODAY = "end_today", "end for today"
        RING_VET = "ring_vet", "ring the vet"

    horse = models.ForeignKey(Horse, models.CASCADE, related_name="tryons")
    on = models.DateField("day")
    tack = models.ForeignKey(
        Tack, models.CASCADE, null=True, blank=True, related_name="tryons"
    )
    made_up = models.ForeignKey(
        TackSet, models.CASCADE, null=True, blank=True, related_name="tryons"
    )
    how = models.CharField(max_length=4, choices=How)
    answer = models.CharField(max_length=5, choices=Answer, blank=True)
    who = models.CharField("who was there", max_length=60, blank=True)
    stop = models.CharField("stop sign", max_length=9, choices=Stop, blank=True)
    stop_sign = models.CharField("what it was", max_length=200, blank=True)
    struck = models.CharField("struck out because", max_length=200, blank=True)
    note = models.CharField(max_length=300, blank=True)
    history = HistoricalRecords()

    class Meta:
        ordering = ["-on", "pk"]
        constraints = [
            models.CheckConstraint(
                condition=Q(stop_sign="") | ~Q(stop=""),
                name="tryon_stop_has_level",
                violation_error_message="Say what the stop sign means.",
            ),
            models.CheckConstraint(
                condition=Q(tack__isnull=False, made_up__isnull=True)
                | Q(tack__isnull=True, made_up__isnull=False),
                name="tryon_of_one_thing",
                violation_error_message="Say which item, or which set, was tried on.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.item_name} on {self.horse}, {self.on}"

    @property
    def item_name(self) -> str:
        """The name of the item or the set."""
        thing = self.tack or self.made_up
        return thing.name if thing else ""


class TryOnPart(models.Model):
    """What was seen of one part."""

    class Seen(models.TextChoices):
        SITS_RIGHT = "sits_right", "sits right"
        TOO_SHORT = "too_short", "too short"
        TOO_LONG = "too_long", "too long"
        WRONG_PLACE = "wrong_place", "wrong place"
        RUBS = "rubs", "rubs"

    tryon = models.ForeignKey(TryOn, models.CASCADE, related_name="parts")
    part = models.CharField(max_length=11, choices=Part.Name)
    seen = models.CharField(max_length=11, choices=Seen)
    hole = models.PositiveSmallIntegerField(null=True, blank=True)
    gap_mm = models.FloatField("gap at the front", null=True, blank=True)
    gap_written = models.CharField(max_length=40, blank=True)

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["tryon", "part"], name="tried_part_once")
        ]

    def __str__(self) -> str:
        return f"{self.get_part_display()}: {self.get_seen_display()}"


class FirstWorn(models.Model):
    """The first day of a kind of tack, and which item."""

    horse = models.ForeignKey(Horse, models.CASCADE, related_name="first_worn")
    kind = models.CharField(max_length=10, choices=Tack.Kind)
    tack = models.ForeignKey(Tack, models.SET_NULL, null=True, blank=True)
    on = models.DateField("day")
    who = models.CharField(max_length=60, blank=True)
    how_it_went = models.CharField(max_length=300, blank=True)

    class Meta:
        ordering = ["on", "pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["horse", "kind", "tack"],
                name="first_worn_once",
                violation_error_message="There is only one first time.",
            ),
            models.UniqueConstraint(
                fields=["horse", "kind"],
                condition=Q(tack__isnull=True),
                name="first_worn_once_unnamed",
                violation_error_message="There is only one first time.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.get_kind_display()} on {self.horse}, {self.on}"
