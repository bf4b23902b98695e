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
    """One measure of one horse: useful from, due by (both days inside).

    ``at_once``: it should have been done before, and so is due today each day anew.
    """

    measure: str
    useful_from: date
    due_by: date
    because: str
    horse: str = ""
    at_once: bool = False


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
    horse: str = ""
    at_once: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedDays:
    """Each horse's measuring days, and the day of each errand by its key."""

    measuring: Mapping[str, tuple[MeasuringDay, ...]]
    errands: Mapping[str, date]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Span:
    """The free days that serve something: any from first to last."""

    first: date
    last: date  # itself a free day
    horse: str
    late: bool  # past its end: there is but one day for it, another one tomorrow

    def holds(self, day: date) -> bool:
        return self.first <= day <= self.last


@dataclass(frozen=True, slots=True, kw_only=True)
class _Window:
    """One measure, and the days that serve it."""

    span: _Span
    due: Due


def shared_days(
    due: Sequence[Due],
    errands: Sequence[Errand],
    free: frozenset[int],
    today: date,
    booked: Iterable[date] = (),
) -> SharedDays:
    """Return the fewest free days that serve all horses' measures and errands.

    The window that ends first takes its last free day, and every window that holds
    the day is served; then the next. No choice of days is smaller (the usual proof
    by exchange for stabbing intervals). Days somebody has booked cost nothing, if
    they are free: what can be done on one needs no other. Of the days so found the
    measures of a horse take the fewest, and an errand the last that serves it.

    A window that is overdue, or holds no free day, takes the first free day on
    which it is useful; a measure says so in ``because``. It draws what else its own
    horse needs to that day, but no other horse: its day is another one each morning
    until it is done. A yard that names no free day has any day. All this is ours.
    """
    days = free or WEEK_DAYS
    windows = [_window(one, days, today) for one in due]
    spans = {one.key: _span(one, days, today) for one in errands}
    every = [*(window.span for window in windows), *spans.values()]
    given = {day for day in booked if day >= today and day.weekday() in days}
    taken = _taken(every, given)
    horses = dict.fromkeys(window.span.horse for window in windows)
    return SharedDays(
        measuring={
            horse: _measured([w for w in windows if w.span.horse == horse], taken)
            for horse in horses
        },
        errands={key: _latest(span, taken) for key, span in spans.items()},
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Taken:
    """The days taken for all, and those on which one horse is late with something."""

    shared: frozenset[date]
    late: Mapping[str, frozenset[date]]

    def days_for(self, horse: str) -> frozenset[date]:
        return self.shared | self.late.get(horse, frozenset())


def _taken(spans: Sequence[_Span], given: Iterable[date]) -> _Taken:
    late: dict[str, set[date]] = {}
    for span in spans:
        if span.late:
            late.setdefault(span.horse, set()).add(span.last)
    in_time = (
        span for span in spans if not any(map(span.holds, late.get(span.horse, ())))
    )
    return _Taken(
        shared=_fewest(in_time, given),
        late={horse: frozenset(days) for horse, days in late.items()},
    )


def _fewest(spans: Iterable[_Span], given: Iterable[date]) -> frozenset[date]:
    """Return the given days, and the fewest more that serve every span."""
    taken = set(given)
    for span in sorted(spans, key=lambda span: (span.last, span.first)):
        if not any(map(span.holds, taken)):
            taken.add(span.last)
    return frozenset(taken)


def _latest(span: _Span, taken: _Taken) -> date:
    return max(filter(span.holds, taken.days_for(span.horse)))


def _measured(windows: Sequence[_Window], taken: _Taken) -> tuple[MeasuringDay, ...]:
    """Return the fewest of the days taken that serve one horse's measures."""
    left = sorted(windows, key=lambda one: (one.span.last, one.span.first))
    chosen: list[MeasuringDay] = []
    while left:
        on = _latest(left[0].span, taken)
        served = [one for one in left if one.span.holds(on)]
        left = [one for one in left if not one.span.holds(on)]
        chosen.append(MeasuringDay(on=on, due=_in_order(served)))
    return tuple(chosen)


def _window(due: Due, free: frozenset[int], today: date) -> _Window:
    span = _span(due, free, today)
    if span.last > due.due_by:
        due = replace(due, because=_late(due, today))
    return _Window(span=span, due=due)


def _span(asked: Due | Errand, free: frozenset[int], today: date) -> _Span:
    """Return the first day and the last free day; past its end, one free day."""
    first = max(asked.useful_from, today)
    last = _last_free(asked.due_by, free)
    late = asked.at_once or last < first
    if late:
        first = last = _first_free(first, free)
    return _Span(first=first, last=last, horse=asked.horse, late=late)


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
