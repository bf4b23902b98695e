"""The day it is at a yard."""

from __future__ import annotations

from datetime import date
from zoneinfo import ZoneInfo

from django.utils import timezone

from fitting.models import Yard


def today_in(yard: Yard) -> date:
    """Return the day it is at the yard."""
    return day_at(yard.timezone)


def day_at(zone: str) -> date:
    """Return the day it is in a time zone."""
    return timezone.now().astimezone(ZoneInfo(zone)).date()
