"""Days that nothing can have been written of: still to come, or before the horse."""

from __future__ import annotations

from datetime import date

from django.core.exceptions import ValidationError

from fitting.models import Horse


def not_to_come(day: date | None, today: date) -> date | None:
    """Return a day that has come, or none.

    Raises:
        ValidationError: it is still to come.
    """
    if day is not None and day > today:
        raise ValidationError("That day is still to come.", code="to_come")
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
