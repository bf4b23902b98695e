"""Due windows become the fewest measuring days."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

from starting.schedule.days import say_day

WEEK_DAYS: Final = frozenset(range(7))


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """One measure of one horse: useful from, due by (both days inside)."""

    measure: str
    useful_from: date
    due_by: date
    because: str
    horse: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuringDay:
    """One day, and what to measure on it."""

    on: date
    due: tuple[Due, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Window:
    """The free days that serve one measure: any from first to last."""

    first: date
    last: date  # itself a free day
    due: Due


def measuring_days(
    due: Sequence[Due], free: frozenset[int], today: date
) -> tuple[MeasuringDay, ...]:
    """Return the fewest free days that serve all windows; overdue ones come first.

    The window that ends first takes its last free day, and every window that holds
    the day is served; then the next. No choice of days is smaller (the usual proof
    by exchange for stabbing intervals). Windows of several horses share their days.

    A window that is overdue, or holds no free day, takes the first free day on
    which measuring is useful and says so in ``because`` (ours). A yard that names
    no free day is measured on any day (ours).
    """
    days = free or WEEK_DAYS
    windows = sorted(
        (_window(one, days, today) for one in due), key=lambda one: one.last
    )
    chosen: list[MeasuringDay] = []
    while windows:
        on = windows[0].last
        served = [one for one in windows if one.first <= on]
        windows = [one for one in windows if one.first > on]
        chosen.append(MeasuringDay(on=on, due=_in_order(served)))
    return tuple(chosen)


def _window(due: Due, free: frozenset[int], today: date) -> _Window:
    first = max(due.useful_from, today)
    last = _last_free(due.due_by, free)
    if last >= first:
        return _Window(first=first, last=last, due=due)
    late = _first_free(first, free)
    return _Window(first=late, last=late, due=replace(due, because=_late(due, today)))


def _late(due: Due, today: date) -> str:
    if due.due_by == today:
        return due.because
    when = say_day(due.due_by)
    said = f"overdue since {when}" if due.due_by < today else f"no free day by {when}"
    return f"{said}; {due.because}"


def _first_free(day: date, free: frozenset[int]) -> date:
    while day.weekday() not in free:
        day += timedelta(days=1)
    return day


def _last_free(day: date, free: frozenset[int]) -> date:
    while day.weekday() not in free:
        day -= timedelta(days=1)
    return day


def _in_order(served: Sequence[_Window]) -> tuple[Due, ...]:
    """Return what a day serves, most pressing first."""
    by_need = sorted((one.due for one in served), key=_need)
    return tuple(by_need)


def _need(due: Due) -> tuple[date, str, str, date, str]:
    return due.due_by, due.horse, due.measure, due.useful_from, due.because
