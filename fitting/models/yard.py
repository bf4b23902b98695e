"""The yard, who belongs to it, and what was written in just now."""

from __future__ import annotations

from zlib import crc32

from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.urls import reverse

WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
OF_THE_SITE = ("admin", "calendar", "new-yard", "password", "sign-in", "sign-out")
RESERVED_SLUGS = frozenset({*OF_THE_SITE, "static", "new", "sets"})

# In settings: what was changed of the figures that tack is judged by, in order.
YARD_EDGES = "clearances"

SETTLED = (
    "name", "timezone", "hemisphere", "height_unit", "length_unit", "weight_unit",
    "free_days", "helper_days", "sessions_a_day", "covered_area",
)  # fmt: skip


def every_day() -> list[str]:
    """Return all seven days: what a new yard has free."""
    return list(WEEKDAYS)


class Yard(models.Model):
    """One place and its people; everything belongs to one yard."""

    class Hemisphere(models.TextChoices):
        NORTH = "north", "northern"
        SOUTH = "south", "southern"

    class HeightUnit(models.TextChoices):
        HANDS = "hands", "hands"
        CM = "cm", "centimetres"

    class LengthUnit(models.TextChoices):
        INCH = "in", "inches"
        CM = "cm", "centimetres"
        MM = "mm", "millimetres"

    class WeightUnit(models.TextChoices):
        KG = "kg", "kilograms"
        LB = "lb", "pounds"

    name = models.CharField(max_length=80, unique=True)
    slug = models.SlugField(max_length=60, unique=True)
    timezone = models.CharField("time zone", max_length=60, default="Europe/London")
    hemisphere = models.CharField(
        max_length=5, choices=Hemisphere, default=Hemisphere.NORTH
    )
    height_unit = models.CharField(
        "heights in", max_length=5, choices=HeightUnit, default=HeightUnit.HANDS
    )
    length_unit = models.CharField(
        "other lengths in", max_length=2, choices=LengthUnit, default=LengthUnit.INCH
    )
    weight_unit = models.CharField(
        "weights in", max_length=2, choices=WeightUnit, default=WeightUnit.KG
    )
    free_days = models.JSONField(default=every_day)
    helper_days = models.JSONField(default=list, blank=True)
    sessions_a_day = models.PositiveSmallIntegerField(
        default=2, validators=[MinValueValidator(1), MaxValueValidator(12)]
    )
    covered_area = models.BooleanField("a covered place to work", default=False)
    settings = models.JSONField(default=dict, blank=True)
    version = models.PositiveBigIntegerField(default=1, editable=False)
    planned_version = models.PositiveBigIntegerField(default=0, editable=False)
    planned_on = models.DateField(null=True, blank=True, editable=False)
    # the edition of the program: another may say otherwise what the diary says
    planned_by = models.CharField(max_length=32, blank=True, editable=False)
    planning_since = models.DateTimeField(null=True, blank=True, editable=False)

    class Meta:
        ordering = ["name"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(sessions_a_day__gte=1, sessions_a_day__lte=12),
                name="yard_sessions_a_day",
                violation_error_message="One to twelve sessions a day.",
            )
        ]

    def __str__(self) -> str:
        return self.name

    def get_absolute_url(self) -> str:
        return reverse("starting:today", args=[self.slug])

    @property
    def revision(self) -> int:
        """A number that changes with anything the keeper settles."""
        settled = [getattr(self, name) for name in SETTLED]
        return crc32(repr(settled).encode())


class Membership(models.Model):
    """One person of one yard, and what they may do there."""

    class Role(models.TextChoices):
        KEEPER = "keeper", "keeper"
        HELPER = "helper", "helper"
        VIEWER = "viewer", "viewer"

    yard = models.ForeignKey(Yard, models.CASCADE, related_name="memberships")
    user = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.CASCADE, related_name="memberships"
    )
    role = models.CharField(max_length=6, choices=Role, default=Role.VIEWER)

    class Meta:
        ordering = ["yard", "user"]
        constraints = [
            models.UniqueConstraint(
                fields=["yard", "user"],
                name="membership_once",
                violation_error_message="This person belongs to the yard already.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.user}, {self.get_role_display()} at {self.yard}"


class WrittenOnce(models.Model):
    """The token of a form that was saved: a retry on poor signal saves once."""

    yard = models.ForeignKey(Yard, models.CASCADE, related_name="written")
    token = models.CharField(max_length=40)
    led_to = models.CharField(max_length=300, blank=True)
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["yard", "token"], name="written_once")
        ]

    def __str__(self) -> str:
        return self.token
