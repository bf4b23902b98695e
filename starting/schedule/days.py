"""Months of age as days, and days in words."""

from __future__ import annotations

from datetime import date
from typing import Final

from fitting.age import Foaled, reaches_months

WEEK: Final = 7
WEEKDAYS: Final = (
    "Monday",
    "Tuesday",
    "Wednesday",
    "Thursday",
    "Friday",
    "Saturday",
    "Sunday",
)
MONTHS: Final = (
    *("Jan", "Feb", "Mar", "Apr", "May", "Jun"),
    *("Jul", "Aug", "Sep", "Oct", "Nov", "Dec"),
)


def reaches(born: date, months: float) -> date:
    """Return the first day on which a horse born on ``born`` completed ``months``."""
    return reaches_months(Foaled(first=born, last=born), months)


def say_day(on: date) -> str:
    """Return a day in words: ``12 Mar 2027``."""
    return f"{on.day} {MONTHS[on.month - 1]} {on.year}"


def say_weekday(on: date) -> str:
    """Return a day in words: ``Saturday 13 Mar 2027``."""
    return f"{WEEKDAYS[on.weekday()]} {say_day(on)}"
