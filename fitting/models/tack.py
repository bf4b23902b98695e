"""Tack on its pegs: items, their parts, made-up sets, loans."""

from __future__ import annotations

from django.db import models
from django.urls import reverse
from simple_history.models import HistoricalRecords

from fitting.models.horse import Horse
from fitting.models.kept import KeptRow
from fitting.models.yard import Yard


class Tack(KeptRow):
    """One item of tack."""

    class Kind(models.TextChoices):
        BIT = "bit", "bit"
        BRIDLE = "bridle", "bridle"
        HEADCOLLAR = "headcollar", "headcollar"
        CAVESSON = "cavesson", "lungeing cavesson"
        ROLLER = "roller", "roller"
        GIRTH = "girth", "girth"
        SADDLE = "saddle", "saddle"
        RUG = "rug", "rug"
        OTHER = "other", "something else"

    yard = models.ForeignKey(Yard, models.CASCADE, related_name="tack")
    key = models.SlugField(max_length=60, editable=False)
    name = models.CharField(max_length=80)
    kind = models.CharField(max_length=10, choices=Kind)
    label_size = models.CharField("size on the label", max_length=30, blank=True)
    belongs_to = models.CharField(max_length=60, blank=True)
    bought = models.DateField(null=True, blank=True)
    gone = models.DateField("taken down on", null=True, blank=True)
    note = models.CharField(max_length=300, blank=True)
    history = HistoricalRecords()

    class Meta:
        ordering = ["kind", "name"]
        constraints = [
            models.UniqueConstraint(
                fields=["yard", "name"],
                name="tack_name_once",
                violation_error_message="An item of that name hangs here already.",
            ),
            models.UniqueConstraint(fields=["yard", "key"], name="tack_key_once"),
        ]

    def __str__(self) -> str:
        return self.name

    def get_absolute_url(self) -> str:
        return reverse("fitting:tack", args=[self.yard.slug, self.key])


class Part(KeptRow):
    """One part of an item; lengths in millimetres, ``written`` as they were typed."""

    class Name(models.TextChoices):
        MOUTHPIECE = "mouthpiece", "mouthpiece"
        HEADPIECE = "headpiece", "headpiece"
        CHEEKPIECES = "cheekpieces", "cheekpieces"
        BROWBAND = "browband", "browband"
        NOSEBAND = "noseband", "noseband"
        THROATLASH = "throatlash", "throatlash"
        WHOLE = "whole", "whole bridle"
        CROWN = "crown", "crown"
        NOSE = "nose", "nose"
        JOWL = "jowl", "jowl strap"
        STRAP = "strap", "strap"
        PANEL = "panel", "panel"
        BACK_SEAM = "back_seam", "back seam"

    class Cheek(models.TextChoices):
        EGGBUTT = "eggbutt", "eggbutt"
        DEE = "dee", "dee"
        FULL_CHEEK = "full_cheek", "full cheek"
        HANGING_CHEEK = "hanging_cheek", "hanging cheek"
        LOOSE_RING = "loose_ring", "loose ring"

    class Mouthpiece(models.TextChoices):
        SINGLE_JOINTED = "single_jointed", "single-jointed"
        DOUBLE_JOINTED = "double_jointed", "double-jointed"
        STRAIGHT_BAR = "straight_bar", "straight bar"
        MULLEN = "mullen", "mullen mouth"
        WITH_KEYS = "with_keys", "with keys"

    tack = models.ForeignKey(Tack, models.CASCADE, related_name="parts")
    part = models.CharField(max_length=11, choices=Name)
    length_mm = models.FloatField(null=True, blank=True)
    shortest_mm = models.FloatField(null=True, blank=True)
    longest_mm = models.FloatField(null=True, blank=True)
    thickness_mm = models.FloatField(null=True, blank=True)
    cheek = models.CharField(max_length=13, choices=Cheek, blank=True)
    mouthpiece = models.CharField(max_length=14, choices=Mouthpiece, blank=True)
    material = models.CharField(max_length=30, blank=True)
    ring_mm = models.FloatField("ring, inside", null=True, blank=True)
    holes = models.PositiveSmallIntegerField(null=True, blank=True)
    spacing_mm = models.FloatField(null=True, blank=True)
    strap_width_mm = models.FloatField(null=True, blank=True)
    hole = models.PositiveSmallIntegerField("present hole", null=True, blank=True)
    written = models.JSONField(default=dict, blank=True)
    history = HistoricalRecords()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["tack", "part"],
                name="part_once",
                violation_error_message="This item has that part already.",
            ),
            models.CheckConstraint(
                condition=models.Q(length_mm__isnull=True) | models.Q(length_mm__gt=0),
                name="part_length",
                violation_error_message="A length is more than nothing.",
            ),
            models.CheckConstraint(
                condition=models.Q(hole__isnull=True)
                | models.Q(holes__isnull=True)
                | models.Q(hole__gte=1, hole__lte=models.F("holes")),
                name="part_hole",
                violation_error_message="The present hole is one of the holes.",
            ),
            models.CheckConstraint(
                condition=models.Q(shortest_mm__isnull=True)
                | models.Q(longest_mm__isnull=True)
                | models.Q(shortest_mm__lte=models.F("longest_mm")),
                name="part_shortest_longest",
                violation_error_message="The shortest is no longer than the longest.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.get_part_display()} of {self.tack}"


class TackSet(KeptRow):
    """A bridle made up from parts, with its bit."""

    yard = models.ForeignKey(Yard, models.CASCADE, related_name="sets")
    key = models.SlugField(max_length=60, editable=False)
    name = models.CharField(max_length=80)
    gone = models.DateField("taken down on", null=True, blank=True)

    class Meta:
        ordering = ["name"]
        constraints = [
            models.UniqueConstraint(
                fields=["yard", "name"],
                name="set_name_once",
                violation_error_message="A set of that name is made up already.",
            ),
            models.UniqueConstraint(fields=["yard", "key"], name="set_key_once"),
        ]

    def __str__(self) -> str:
        return self.name

    def get_absolute_url(self) -> str:
        return reverse("fitting:set", args=[self.yard.slug, self.key])


class SetPart(models.Model):
    """One part of a made-up set: which item it is taken from."""

    class Slot(models.TextChoices):
        WHOLE = "whole", "whole bridle"
        HEADPIECE = "headpiece", "headpiece"
        CHEEKPIECES = "cheekpieces", "cheekpieces"
        BROWBAND = "browband", "browband"
        NOSEBAND = "noseband", "noseband"
        THROATLASH = "throatlash", "throatlash"
        BIT = "bit", "bit"

    made_up = models.ForeignKey(TackSet, models.CASCADE, related_name="parts")
    slot = models.CharField(max_length=11, choices=Slot)
    tack = models.ForeignKey(Tack, models.RESTRICT, related_name="in_sets")

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["made_up", "slot"], name="set_slot_once")
        ]

    def __str__(self) -> str:
        return f"{self.slot}: {self.tack}"


class Loan(KeptRow):
    """An item lent to a horse: the lender's own hole, and when it goes back."""

    tack = models.ForeignKey(Tack, models.CASCADE, related_name="loans")
    to = models.ForeignKey(Horse, models.CASCADE, related_name="borrowed")
    start = models.DateField("from", null=True, blank=True)
    own_hole = models.PositiveSmallIntegerField(null=True, blank=True)
    back_by = models.DateField(null=True, blank=True)
    returned = models.DateField(null=True, blank=True)

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(start__isnull=True)
                | models.Q(returned__isnull=True)
                | models.Q(returned__gte=models.F("start")),
                name="loan_returned_later",
                violation_error_message="It is back on or after the day it was lent.",
            ),
            models.CheckConstraint(
                condition=models.Q(start__isnull=True)
                | models.Q(back_by__isnull=True)
                | models.Q(back_by__gte=models.F("start")),
                name="loan_back_by_later",
                violation_error_message="It goes back on or after the day it was lent.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.tack} lent to {self.to}"
