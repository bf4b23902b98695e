"""What is still to do, made ready for the day by day run; day 0 is today."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, timedelta
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from starting.programme import needs_second_person
from starting.schedule.bounds import Bound, cannot_say, lower_bounds
from starting.schedule.days import WEEK, reaches
from starting.schedule.pace import LONG_AGO, SOME_WEEKS, Pace, days_taken
from starting.schedule.values import (
    HORIZON_MONTHS,
    Closed,
    HorseAhead,
    StageAhead,
    YardDays,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from starting.programme import Stage

RESTING: Final = 1
OFF_WORK: Final = 2
CARE: Final = 4
VACCINATED: Final = 8
GELDED: Final = 16
NO_SESSION: Final = RESTING | OFF_WORK | CARE
NOTHING_NEW: Final = VACCINATED | GELDED
QUIET_DAYS_AFTER_VACCINATION: Final = 2  # and the day itself; ours
HELPED_AT_FIRST: Final = 2  # good sessions until a helper need not come; ours
STARVES_DAYS: Final = 28  # an optional step then goes before longer paths; ours
PARTS_OF_A_WEEK: Final = 420  # all of 1 to 7 days a week share it out evenly
EVERY_DAY: Final = 10**6


@dataclass(slots=True, kw_only=True)
class Job:
    """One step of one horse, and how far the plan has got with it."""

    ahead: StageAhead
    place: int
    before: tuple[int, ...]  # places of the steps it waits for
    bounds: tuple[Bound, ...]
    shut: bool
    free: frozenset[int]  # weekdays for it, as far as nobody need help
    helped: frozenset[int]  # weekdays for it while somebody must
    with_helper: int  # how many of its days to come ask for a helper
    left: int
    each: int  # what a session, or a day of a rest, adds to a path
    pace: Pace
    begun: bool
    closed: bytes = b""  # 1 on each day that a gate will shut it again; empty: none
    after: list[int] = field(default_factory=list)
    below: int = 0  # longest path of what waits for it
    missing: int = 0
    ready: int = 0
    days: list[int] = field(default_factory=list)
    start: int | None = None
    finish: int | None = None

    @property
    def stage(self) -> Stage:
        """The step itself."""
        return self.ahead.stage

    @property
    def path(self) -> int:
        """The longest path from here on, in parts of a week."""
        return self.below + self.left * self.each

    @property
    def choice(self) -> int:
        """How many weekdays serve it: of equal paths, the fewest go first (ours)."""
        return len(self.helped if self.with_helper else self.free)

    def starves(self, day: int) -> bool:
        """Whether an optional step has waited too long for a day of its own."""
        since = max(self.ready, self.pace.last)
        return self.stage.optional and day - since >= STARVES_DAYS

    def is_closed(self, day: int) -> bool:
        """Whether a gate that opened will have shut the step again on a day."""
        return bool(self.closed) and self.closed[day] > 0

    @property
    def weekdays(self) -> frozenset[int]:
        """The weekdays for its next day."""
        return self.helped if len(self.days) < self.with_helper else self.free


@dataclass(slots=True, kw_only=True)
class HorseAtWork:
    """One horse's jobs; ``marks`` says of each day what keeps it from work."""

    ahead: HorseAhead
    jobs: list[Job]
    marks: bytearray
    rank: int = 0
    taken_today: int = 0
    sessions: dict[int, list[Job]] = field(default_factory=dict)
    waiting: list[Job] = field(default_factory=list)
    open: list[Job] = field(default_factory=list)  # steps of sessions
    visits: list[Job] = field(default_factory=list)  # checks and events, open too
    next_ready: int = LONG_AGO


@dataclass(slots=True, kw_only=True)
class YardAtWork:
    """The whole yard; ``horses`` in the order that decides, older first."""

    today: date
    begins_on: int  # today's weekday, 0 for Monday
    last: int
    days: YardDays
    as_given: tuple[HorseAtWork, ...]
    horses: tuple[HorseAtWork, ...]
    taken: dict[int, int]

    def on(self, day: int) -> date:
        """Return the date of a day of the plan."""
        return self.today + timedelta(days=day)

    def weekday(self, day: int) -> int:
        """Return the weekday, 0 for Monday."""
        return (self.begins_on + day) % WEEK

    def week(self, day: int) -> int:
        """Return a number that all days of a week share, Monday to Sunday."""
        return (self.begins_on + day) // WEEK

    def span(self, job: Job) -> tuple[date | None, date | None]:
        """Return the first and the last day of a job, where they are known."""
        return (
            None if job.start is None else self.on(job.start),
            None if job.finish is None else self.on(job.finish),
        )


def yard_at_work(
    horses: Sequence[HorseAhead], days: YardDays, today: date
) -> YardAtWork:
    """Return the yard with nothing planned yet."""
    last = _last(today)
    as_given = tuple(_horse_at_work(horse, days, today, last) for horse in horses)
    ranked = sorted(as_given, key=lambda one: (one.ahead.born, one.ahead.horse))
    for rank, horse in enumerate(ranked):
        horse.rank = rank
    return YardAtWork(
        today=today,
        begins_on=today.weekday(),
        last=last,
        days=days,
        as_given=as_given,
        horses=tuple(ranked),
        taken={0: sum(horse.taken_today for horse in ranked)},
    )


def _horse_at_work(
    horse: HorseAhead, days: YardDays, today: date, last: int
) -> HorseAtWork:
    places = {ahead.stage.key: n for n, ahead in enumerate(horse.stages)}
    jobs = [
        _job(horse, place, places, days, today) for place in range(len(horse.stages))
    ]
    for job in jobs:
        for place in job.before:
            jobs[place].after.append(job.place)
    for job in reversed(jobs):
        paths = (jobs[place].path for place in job.after)
        job.below = max(paths, default=0)
    by_step = sum(ahead.recent_days.count(today) for ahead in horse.stages)
    return HorseAtWork(
        ahead=horse,
        jobs=jobs,
        marks=_marks(horse, today, last),
        taken_today=max(horse.recent_days.count(today), by_step),
    )


def _job(
    horse: HorseAhead, place: int, places: dict[str, int], days: YardDays, today: date
) -> Job:
    ahead = horse.stages[place]
    stage = ahead.stage
    asked = dict.fromkeys(stage.prerequisites + stage.prerequisites_once)
    before = tuple(
        places[key]
        for key in asked
        if key in places and key not in horse.done and key != stage.key
    )
    return Job(
        ahead=ahead,
        place=place,
        before=before,
        bounds=lower_bounds(horse, ahead, today),
        shut=cannot_say(ahead) is not None,
        free=days.free,
        helped=days.free & days.helper,
        with_helper=_with_helper(ahead, days),
        left=_left(ahead),
        each=_each(ahead, days),
        pace=paced(ahead, today),
        begun=not is_new(ahead),
        closed=_closed(ahead.closed, today),
        missing=len(before),
    )


@lru_cache(maxsize=64)
def _closed(spans: tuple[Closed, ...], today: date) -> bytes:
    """Return a byte a day of the plan, 1 where a gate shuts; nothing for no span."""
    if not spans:
        return b""
    marks = bytearray(_last(today) + 1)
    for span in spans:
        mark(marks, 1, (span.first - today).days, (span.last - today).days)
    return bytes(marks)


def _last(today: date) -> int:
    """Return the last day of the plan."""
    return (reaches(today, HORIZON_MONTHS) - today).days


def _with_helper(ahead: StageAhead, days: YardDays) -> int:
    """Return how many days keep to the helper's; none if the yard named no such day."""
    if not days.helper:
        return 0
    if needs_second_person(ahead.stage):
        return EVERY_DAY
    first = "second_person_first" in ahead.stage.gates_on_the_day
    return max(0, HELPED_AT_FIRST - ahead.good_sessions) if first else 0


def is_new(ahead: StageAhead) -> bool:
    """Whether a step's next day is its first; a check's or an event's always is."""
    return not (ahead.under_way and ahead.stage.kind == "sessions")


def _left(ahead: StageAhead) -> int:
    """Return how much the step adds to a path: sessions, or days of a rest."""
    if ahead.stage.kind == "sessions":
        return max(1, ahead.sessions_left)
    return ahead.stage.rest_days or 1


def _each(ahead: StageAhead, days: YardDays) -> int:
    """Return how long one session takes at most, or one day of a rest.

    In parts of a week: by the days a week and in a row, and by the days that serve.
    """
    if ahead.stage.kind == "rest":
        return PARTS_OF_A_WEEK // WEEK
    weekdays = days.free & days.helper if _with_helper(ahead, days) else days.free
    stage = ahead.stage
    taken = days_taken(
        weekdays, stage.days_a_week[1] or WEEK, stage.days_in_a_row or WEEK
    )
    return PARTS_OF_A_WEEK * SOME_WEEKS // max(1, taken)


def paced(ahead: StageAhead, today: date) -> Pace:
    """Return a step's pace after its recent days, before any planned one."""
    stage = ahead.stage
    pace = Pace(
        days_a_week=stage.days_a_week[1] or WEEK,  # 0: no limit named
        days_in_a_row=stage.days_in_a_row or 10**6,
    )
    for on in sorted(set(ahead.recent_days)):
        day = (on - today).days
        if day <= 0:
            pace.note(day, (today.weekday() + day) // WEEK)
    return pace


def _marks(horse: HorseAhead, today: date, last: int) -> bytearray:
    marks = bytearray(last + 1)
    quiet = timedelta(days=QUIET_DAYS_AFTER_VACCINATION)
    spans = [(RESTING, first, end or date.max) for first, end in horse.rests]
    spans += [(OFF_WORK, first, end or date.max) for first, end in horse.off_work]
    spans += [(CARE, on, on) for on in horse.care_days]
    spans += [(GELDED, first, end or date.max) for first, end in horse.gelded]
    spans += [(VACCINATED, on, on + quiet) for on in horse.vaccinated]
    for what, first, end in spans:
        mark(marks, what, (first - today).days, (end - today).days)
    return marks


def mark(marks: bytearray, what: int, first: int, last: int) -> None:
    """Note on each day, both ends inside, what keeps the horse from work."""
    for day in range(max(0, first), min(last, len(marks) - 1) + 1):
        marks[day] |= what
