"""A list of readings that was brought in: what came with it can be taken back."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.urls import reverse

from fitting.models.kept import KeptRow
from fitting.models.yard import Yard


class BroughtIn(KeptRow):
    """One list brought in: its name, the day, by whom, and what was left of it."""

    yard = models.ForeignKey(Yard, models.CASCADE, related_name="brought_in")
    name = models.CharField("called", max_length=80)
    on = models.DateField("day")
    by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.SET_NULL, null=True, blank=True
    )
    came = models.PositiveIntegerField(default=0)  # measurements, on that day
    left = models.JSONField(default=list, blank=True)  # ["Line 3: ...", ...]

    class Meta:
        ordering = ["-on", "-pk"]
        verbose_name = "list brought in"
        verbose_name_plural = "lists brought in"

    def __str__(self) -> str:
        return f"{self.name}, {self.on}"

    def get_absolute_url(self) -> str:
        return reverse("fitting:see-brought", args=[self.yard.slug, self.pk])
