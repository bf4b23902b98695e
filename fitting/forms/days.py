"""Days that nothing can have been written of: still to come, or before the horse."""

from __future__ import annotations

from datetime import date
from typing import Final

from django.core.exceptions import ValidationError

from fitting.models import Horse
from fitting.reads.units import day_words

EARLIEST_YEAR: Final = 1900  # ours: before it, a year was cut short in typing


def not_to_come(day: date | None, today: date) -> date | None:
    """Return a day that has come, or none.

    Raises:
        ValidationError: it is still to come, or in a year cut short.
    """
    if day is not None and day > today:
        raise ValidationError("That day is still to come.", code="to_come")
    if day is not None and day.year < EARLIEST_YEAR:
        raise ValidationError(f"The year reads {day.year}: write it in four figures.")
    return day


def gone_on(day: date | None, bought: date | None, today: date) -> date | None:
    """Return the day an item was taken down, or none.

    Raises:
        ValidationError: it is still to come, or before the item was bought.
    """
    not_to_come(day, today)
    if day is not None and bought is not None and day < bought:
        raise ValidationError(f"It was bought on {day_words(bought)}: not before.")
    return day


def day_with(horse: Horse, day: date, today: date) -> date:
    """Return a day on which something may have been done with a horse.

    Raises:
        ValidationError: it is still to come, or the horse was not foaled yet.
    """
    not_to_come(day, today)
    if day < horse.foaled_days.first:
        raise ValidationError(f"On that day {horse.she} was not foaled yet.")
    return day
