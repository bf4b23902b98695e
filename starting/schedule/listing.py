"""Day by day, the day's sessions go to the steps with the longest path ahead."""

from __future__ import annotations

from heapq import heapify, heappop, heappush
from typing import TYPE_CHECKING

from starting.schedule.days import reaches
from starting.schedule.jobs import NO_SESSION, NOTHING_NEW, RESTING, mark

if TYPE_CHECKING:
    from starting.schedule.jobs import HorseAtWork, Job, YardAtWork

# Whether it starves, path ahead (most first), weekdays that serve it (fewest first),
# the horse's rank, its place.
Turn = tuple[bool, int, int, int, int]


def list_days(
    yard: YardAtWork, *, until: Job | None = None, last: int | None = None
) -> None:
    """Fill in the days of every job: to the horizon, a day, or until one is done."""
    last = yard.last if last is None else last
    for horse in yard.horses:
        for job in horse.jobs:
            if not job.before:
                _let_in(yard, horse, job, 0)
    day = _next_day(yard, 0)
    while day is not None and day <= last and (until is None or until.finish is None):
        for horse in yard.horses:
            if horse.waiting and horse.next_ready <= day:
                _open_up(horse, day)
            if horse.visits:
                _take_single_days(yard, horse, day)
        _take_sessions(yard, day)
        day = _next_day(yard, day + 1)


def _next_day(yard: YardAtWork, day: int) -> int | None:
    """Return the next free day on which any horse has something open."""
    if not yard.days.free:
        return None
    if not any(horse.open or horse.visits for horse in yard.horses):
        wakes = [horse.next_ready for horse in yard.horses if horse.waiting]
        if not wakes:
            return None
        day = max(day, min(wakes))
    while yard.weekday(day) not in yard.days.free:
        day += 1
    return day if day <= yard.last else None


def _let_in(yard: YardAtWork, horse: HorseAtWork, job: Job, ready: int) -> None:
    """Give a job its first possible day, now that nothing before it is missing."""
    job.ready = max(0, ready, *(bound.day for bound in job.bounds))
    if job.shut or job.ready > yard.last:
        return
    if job.stage.kind == "rest":
        _take_rest(yard, horse, job)
        return
    if not job.weekdays:
        return
    horse.waiting.append(job)
    horse.next_ready = min(one.ready for one in horse.waiting)


def _take_rest(yard: YardAtWork, horse: HorseAtWork, job: Job) -> None:
    """Rest by the calendar; growing at grass lets sessions go on."""
    begins = _rest_begins(yard, job)
    if begins > yard.last:
        return
    begun = [(on - yard.today).days for on in job.ahead.recent_days]
    start = min(begun, default=begins) if job.ahead.under_way else begins
    if job.stage.ends_at_months is not None:
        ends = reaches(horse.ahead.born, job.stage.ends_at_months)
        finish = (ends - yard.today).days
    else:
        finish = start + (job.stage.rest_days or 1) - 1
        mark(horse.marks, RESTING, begins, finish)
    job.start = begins
    _end(yard, horse, job, max(begins, finish))


def _rest_begins(yard: YardAtWork, job: Job) -> int:
    """Return a rest's first day: no gate shuts it; one under way goes on."""
    day = job.ready
    while not job.ahead.under_way and day <= yard.last and job.is_closed(day):
        day += 1
    return day


def _end(yard: YardAtWork, horse: HorseAtWork, job: Job, day: int) -> None:
    """Finish a job; what waited for it alone may start on the day after."""
    if day > yard.last:
        return
    job.finish = day
    for place in job.after:
        other = horse.jobs[place]
        other.missing -= 1
        other.ready = max(other.ready, day + 1)
        if not other.missing:
            _let_in(yard, horse, other, other.ready)


def _open_up(horse: HorseAtWork, day: int) -> None:
    for job in horse.waiting:
        if job.ready <= day:
            sessions = job.stage.kind == "sessions"
            (horse.open if sessions else horse.visits).append(job)
    horse.waiting = [job for job in horse.waiting if job.ready > day]
    horse.next_ready = min((job.ready for job in horse.waiting), default=day)


def _take_single_days(yard: YardAtWork, horse: HorseAtWork, day: int) -> None:
    """Give each open check and event its day; they use up no session."""
    if horse.marks[day] & (NO_SESSION | NOTHING_NEW):
        return
    weekday = yard.weekday(day)
    for job in tuple(horse.visits):
        if weekday in job.weekdays and not job.is_closed(day):
            horse.visits.remove(job)
            job.start = day
            job.days.append(day)
            _end(yard, horse, job, day)


def _take_sessions(yard: YardAtWork, day: int) -> None:
    room = yard.days.sessions_a_day - yard.taken.get(day, 0)
    if room <= 0:
        return
    turns = [
        (_turn(horse, job, day), horse, job)
        for horse in yard.horses
        if horse.open and not horse.marks[day] & NO_SESSION
        for job in horse.open
        if _may_take(yard, horse, job, day)
    ]
    if len(turns) > 1:
        heapify(turns)
    while turns and room > 0:
        _, horse, job = heappop(turns)
        if not _horse_has_room(horse, job, day):
            continue
        room -= 1
        _take(yard, horse, job, day)
        if job.stage.two_a_day and job.left:
            heappush(turns, (_turn(horse, job, day), horse, job))


def _turn(horse: HorseAtWork, job: Job, day: int) -> Turn:
    return (not job.starves(day), -job.path, job.choice, horse.rank, job.place)


def _may_take(yard: YardAtWork, horse: HorseAtWork, job: Job, day: int) -> bool:
    """Whether a step may have a session on a day, as far as it alone goes."""
    if yard.weekday(day) not in job.weekdays or job.is_closed(day):
        return False
    if horse.marks[day] & NOTHING_NEW and not job.begun:
        return False
    return not (job.pace.row_is_full(day) or job.pace.week_is_full(yard.week(day)))


def _horse_has_room(horse: HorseAtWork, job: Job, day: int) -> bool:
    """Whether the horse has a session left: one a day, two of steps that allow it."""
    if day == 0 and horse.taken_today:
        return False
    taken = horse.sessions.get(day, ())
    two = job.stage.two_a_day and all(one.stage.two_a_day for one in taken)
    return len(taken) < (2 if two else 1)


def _take(yard: YardAtWork, horse: HorseAtWork, job: Job, day: int) -> None:
    yard.taken[day] = yard.taken.get(day, 0) + 1
    horse.sessions.setdefault(day, []).append(job)
    job.pace.note(day, yard.week(day))
    job.start = day if job.start is None else job.start
    job.begun = True
    job.left -= 1
    job.days.append(day)
    if not job.left:
        horse.open.remove(job)
        _end(yard, horse, job, day)
