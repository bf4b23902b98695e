"""How long a measurement stands, and when the next one is due."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final

from fitting.age import months_old
from fitting.body.kinds import Standing, Taken
from fitting.body.measures import measure_by_key

# Days a measurement stands: under 6 months, 6 to 24, 24 to 48, over 48. All ours. None:
# not asked. A foal's headcollar is looked at daily instead of taping its head.
_STANDS: Final[dict[str, tuple[int | None, int | None, int, int]]] = {
    "head": (None, 56, 84, 182),
    "girth": (28, 56, 42, 90),
    "back": (None, None, 56, 90),
    "height": (30, 60, 60, 182),
}
_ROW_STARTS_MONTHS: Final = (6.0, 24.0)
_LAST_ROW_AFTER_MONTHS: Final = 48.0
_RIDDEN_DAYS: Final = 30  # ours: girth and weight with a rider planned or riding
# Taken although not asked for (ours): a foal's head can outgrow a fit within a week.
_UNASKED_DAYS: Final = {"head": 7, "back": 28}


def _row(age_months: float) -> int:
    reached = sum(age_months >= start for start in _ROW_STARTS_MONTHS)
    return reached + (age_months > _LAST_ROW_AFTER_MONTHS)


def stands_days(measure: str, age_months: float, *, ridden: bool) -> int | None:
    """Return for how many days a measurement stands at this age; None: not asked.

    ``ridden``: a rider is planned or riding, or the horse is being backed.

    Raises:
        UnknownMeasureError: There is no such measure.

    Source: ours.
    """
    group = measure_by_key(measure).group
    if ridden and group == "girth" and age_months >= _ROW_STARTS_MONTHS[-1]:
        return _RIDDEN_DAYS
    return _STANDS[group][_row(age_months)]


def stands_until(
    taken: Taken, born: date, *, ridden: bool = False, tooth_change: date | None = None
) -> date:
    """Return the last day on which a measurement stands.

    The age on the day it was taken decides. A tooth change noted after that day ends
    measures of head and mouth the day before it is noted.

    Raises:
        UnknownMeasureError: There is no such measure.

    Source: ours.
    """
    group = measure_by_key(taken.measure).group
    days = stands_days(taken.measure, months_old(born, taken.on), ridden=ridden)
    until = taken.on + timedelta(days=_UNASKED_DAYS[group] if days is None else days)
    if group == "head" and tooth_change is not None and tooth_change > taken.on:
        return min(until, tooth_change - timedelta(days=1))
    return until


def standing_on(until: date | None, on: date) -> Standing:
    """Return whether a measurement stands; ``until`` None: never taken."""
    if until is None:
        return "never"
    return "stands" if on <= until else "stale"


def due_window(
    taken: Taken, born: date, *, ridden: bool = False, tooth_change: date | None = None
) -> tuple[date, date]:
    """Return when to take a measure again: useful from, due by (both days inside).

    Useful from half of its standing, due by its end.

    Raises:
        UnknownMeasureError: There is no such measure.

    Source: ours.
    """
    until = stands_until(taken, born, ridden=ridden, tooth_change=tooth_change)
    return taken.on + (until - taken.on) / 2, until
