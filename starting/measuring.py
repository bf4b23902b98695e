"""Windows for measuring, trying on, care and getting become the fewest days."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
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
class Errand:
    """What else is to be done: useful from, due by; ``key`` names it."""

    key: str
    useful_from: date
    due_by: date


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedDays:
    """The measuring days, and the day of each errand by its key."""

    measuring: tuple[MeasuringDay, ...]
    errands: Mapping[str, date]


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

    Windows of several horses share their days. As ``shared_days`` without errands.
    """
    return shared_days(due, (), free, today).measuring


def shared_days(
    due: Sequence[Due],
    errands: Sequence[Errand],
    free: frozenset[int],
    today: date,
    booked: Iterable[date] = (),
) -> SharedDays:
    """Return the fewest free days that serve all measures and errands together.

    The window that ends first takes its last free day, and every window that holds
    the day is served; then the next. No choice of days is smaller (the usual proof
    by exchange for stabbing intervals). Days somebody has booked cost nothing, if
    they are free: what can be done on one needs no other. Of the days so found the
    measures take the fewest, and an errand the last that serves it.

    A window that is overdue, or holds no free day, takes the first free day on
    which it is useful; a measure says so in ``because`` (ours). A yard that names
    no free day has any day (ours).
    """
    days = free or WEEK_DAYS
    windows = [_window(one, days, today) for one in due]
    spans = {
        one.key: _span(one.useful_from, one.due_by, days, today) for one in errands
    }
    given = [day for day in booked if day >= today and day.weekday() in days]
    every = [*((one.first, one.last) for one in windows), *spans.values()]
    taken = _fewest(every, given)
    return SharedDays(
        measuring=_measured(windows, taken),
        errands={key: _latest(span, taken) for key, span in spans.items()},
    )


def _fewest(
    spans: Iterable[tuple[date, date]], given: Iterable[date]
) -> tuple[date, ...]:
    """Return the given days, and the fewest more that serve every span."""
    taken = set(given)
    for first, last in sorted(spans, key=lambda span: (span[1], span[0])):
        if not any(first <= day <= last for day in taken):
            taken.add(last)
    return tuple(sorted(taken))


def _latest(span: tuple[date, date], taken: Sequence[date]) -> date:
    return max(day for day in taken if span[0] <= day <= span[1])


def _measured(
    windows: Sequence[_Window], taken: Sequence[date]
) -> tuple[MeasuringDay, ...]:
    """Return the fewest of the days taken that serve the measures."""
    left = sorted(windows, key=lambda one: (one.last, one.first))
    chosen: list[MeasuringDay] = []
    while left:
        on = _latest((left[0].first, left[0].last), taken)
        served = [one for one in left if one.first <= on <= one.last]
        left = [one for one in left if not one.first <= on <= one.last]
        chosen.append(MeasuringDay(on=on, due=_in_order(served)))
    return tuple(chosen)


def _window(due: Due, free: frozenset[int], today: date) -> _Window:
    first, last = _span(due.useful_from, due.due_by, free, today)
    if last > due.due_by:
        due = replace(due, because=_late(due, today))
    return _Window(first=first, last=last, due=due)


def _span(
    useful_from: date, due_by: date, free: frozenset[int], today: date
) -> tuple[date, date]:
    """Return the first day and the last free day; past its end, one free day."""
    first = max(useful_from, today)
    last = _last_free(due_by, free)
    if last >= first:
        return first, last
    late = _first_free(first, free)
    return late, late


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
