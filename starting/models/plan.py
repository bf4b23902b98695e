"""Who brings a horse on, by which programme, and its stored outlook."""

from __future__ import annotations

from django.db import models
from django.urls import reverse
from django.utils import timezone
from simple_history.models import HistoricalRecords

from fitting.models import Horse, Yard
from fitting.models.kept import KeptRow


class Person(KeptRow):
    """Somebody of the yard: what they can do, and what they weigh dressed."""

    yard = models.ForeignKey(Yard, models.CASCADE, related_name="people")
    name = models.CharField(max_length=60)
    can = models.JSONField(default=list, blank=True)  # handle, help, ride, train
    weight_kg = models.FloatField("weight, dressed", null=True, blank=True)
    weight_written = models.CharField(max_length=40, blank=True)
    has_backed_horses = models.BooleanField(default=False)
    child = models.BooleanField(default=False)

    class Meta:
        ordering = ["name"]
        constraints = [
            models.UniqueConstraint(
                fields=["yard", "name"],
                name="person_name_once",
                violation_error_message="Somebody of that name is listed already.",
            ),
            models.CheckConstraint(
                condition=models.Q(weight_kg__isnull=True) | models.Q(weight_kg__gt=0),
                name="person_weight",
                violation_error_message="A weight is more than nothing.",
            ),
        ]

    def __str__(self) -> str:
        return self.name


class ProgrammeVersion(models.Model):
    """One programme as it was, never changed: a shipped one, found by its hash.

    A yard's own is changed by a new version of the same name.
    """

    yard = models.ForeignKey(
        Yard, models.CASCADE, null=True, blank=True, related_name="programmes"
    )
    key = models.CharField(max_length=40)
    name = models.CharField(max_length=80)
    digest = models.CharField(max_length=64)
    text = models.TextField()
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    made_by = models.CharField(max_length=60, blank=True)
    what_changed = models.TextField(blank=True)  # and why, in the keeper's words

    class Meta:
        ordering = ["key", "pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["digest"],
                condition=models.Q(yard__isnull=True),
                name="shipped_programme_digest_once",
            ),
        ]

    def __str__(self) -> str:
        return self.name

    def get_absolute_url(self) -> str:
        """Return the page of a yard's own version."""
        slug = self.yard.slug if self.yard else ""
        return reverse("starting:programme", args=[slug, self.pk])


class Plan(KeptRow):
    """How one youngster is brought on."""

    horse = models.OneToOneField(Horse, models.CASCADE, related_name="plan")
    programme = models.ForeignKey(
        ProgrammeVersion, models.RESTRICT, related_name="plans"
    )
    aim_stage = models.CharField(max_length=40, blank=True)
    aim_by = models.DateField(null=True, blank=True)
    programme_chosen = models.BooleanField(default=False)  # by a keeper, when asked
    as_early_as_allowed = models.BooleanField(default=False)
    rider = models.ForeignKey(
        Person, models.SET_NULL, null=True, blank=True, related_name="rides"
    )
    trainer = models.ForeignKey(
        Person, models.SET_NULL, null=True, blank=True, related_name="trains"
    )
    tack_weight_kg = models.FloatField(null=True, blank=True)
    tack_weight_written = models.CharField(max_length=40, blank=True)
    history = HistoricalRecords()

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=models.Q(tack_weight_kg__isnull=True)
                | models.Q(tack_weight_kg__gt=0),
                name="plan_tack_weight",
                violation_error_message="A weight is more than nothing.",
            )
        ]

    def __str__(self) -> str:
        return f"The plan for {self.horse}"


class StoredOutlook(models.Model):
    """Everything computed for one horse, with the version and day it stands for."""

    horse = models.OneToOneField(Horse, models.CASCADE, related_name="outlook")
    version = models.PositiveBigIntegerField()
    on = models.DateField()
    brief = models.BinaryField()  # JSON: what the first pages show
    fits = models.BinaryField(default=b"")  # JSON: what each item of tack is on it
    content = models.BinaryField()  # JSON, packed by zlib: the whole outlook

    def __str__(self) -> str:
        return f"Outlook of {self.horse} on {self.on}"


class Moved(models.Model):
    """One step, or one item of tack, that moved on a day: one row a subject a day."""

    horse = models.ForeignKey(Horse, models.CASCADE, related_name="moved")
    on = models.DateField()
    kind = models.CharField(max_length=4)  # step, item
    subject = models.CharField(max_length=80)
    content = models.BinaryField()  # JSON: the move, with both its marks

    class Meta:
        ordering = ["-on", "pk"]
        verbose_name_plural = "moved"
        constraints = [
            models.UniqueConstraint(
                fields=["horse", "on", "kind", "subject"], name="moved_once_a_day"
            )
        ]

    def __str__(self) -> str:
        return f"{self.subject} of {self.horse}, {self.on}"


class LastTold(models.Model):
    """What the moves of one horse are measured from; apart, as no page reads it."""

    horse = models.OneToOneField(Horse, models.CASCADE, related_name="last_told")
    content = models.BinaryField()  # JSON, packed by zlib

    def __str__(self) -> str:
        return f"Last told of {self.horse}"


class Bought(models.Model):
    """Something of the list to buy or borrow that has been got."""

    horse = models.ForeignKey(Horse, models.CASCADE, related_name="bought")
    kind = models.CharField(max_length=10)
    part = models.CharField(max_length=11, blank=True)
    on = models.DateField()

    class Meta:
        ordering = ["on", "pk"]
        verbose_name_plural = "bought"

    def __str__(self) -> str:
        return f"{self.kind} for {self.horse}, {self.on}"
