"""What keeps a step from a day, asked of a finished plan."""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from starting.schedule.jobs import (
    CARE,
    GELDED,
    OFF_WORK,
    RESTING,
    VACCINATED,
    is_new,
    paced,
)
from starting.schedule.pace import Pace

if TYPE_CHECKING:
    from collections.abc import Iterator

    from starting.schedule.jobs import HorseAtWork, Job, YardAtWork
    from starting.schedule.values import Binding

MARKED: Final[tuple[tuple[int, Binding], ...]] = (
    (RESTING, "rest"),
    (OFF_WORK, "off_work"),
    (CARE, "care"),
)


NOT_NEW: Final[tuple[tuple[int, Binding], ...]] = (
    (VACCINATED, "vaccination"),
    (GELDED, "gelding"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Chief:
    """The cause that keeps most days from a step; ``alone``: it does so alone."""

    kind: Binding
    day: int
    alone: bool


def of_the_day(
    yard: YardAtWork, horse: HorseAtWork, job: Job, day: int, *, new: bool
) -> list[Binding]:
    """Return what the calendar holds against a day, and against something new."""
    found: list[Binding] = []
    if yard.weekday(day) not in yard.days.free:
        found.append("free_day")
    if (
        bisect_left(job.days, day) < job.with_helper
        and yard.weekday(day) not in yard.days.helper
    ):
        found.append("second_person")
    if job.is_closed(day):
        found.append("gate")
    marks = horse.marks[day]
    found += [kind for what, kind in MARKED if marks & what]
    found += [kind for what, kind in NOT_NEW if new and marks & what]
    return found


def in_the_way(
    yard: YardAtWork, horse: HorseAtWork, job: Job, first: int, last: int
) -> Iterator[tuple[int, list[Binding]]]:
    """Yield each day from first to last that the step has not got, and all causes."""
    pace = paced(job.ahead, yard.today)
    own = set(job.days)
    new = is_new(job.ahead)
    for day in range(first, last + 1):
        if day in own:
            pace.note(day, yard.week(day))
            new = False
            continue
        causes = of_the_day(yard, horse, job, day, new=new)
        if job.stage.kind == "sessions":
            causes += _of_pace(yard, pace, day)
            causes += _of_sessions(yard, horse, day)
        yield day, causes


def _of_pace(yard: YardAtWork, pace: Pace, day: int) -> list[Binding]:
    found: list[Binding] = []
    if pace.week_is_full(yard.week(day)):
        found.append("days_a_week")
    if pace.row_is_full(day):
        found.append("days_in_a_row")
    return found


def _of_sessions(yard: YardAtWork, horse: HorseAtWork, day: int) -> list[Binding]:
    of_horse = day in horse.sessions or (day == 0 and horse.taken_today)
    of_yard = yard.taken.get(day, 0) >= yard.days.sessions_a_day
    return ["capacity"] if of_horse or of_yard else []


def chief(
    yard: YardAtWork, horse: HorseAtWork, job: Job, first: int, last: int
) -> Chief | None:
    """Return the one cause that keeps most days from a step, and its last such day.

    Only days that a single cause blocks count: lift that cause and the day is won.
    The week's free days come after every other cause, for they are always there.
    Where causes only ever come together, each day counts for all of its causes.
    None: no day was kept from the step.
    """
    alone: dict[Binding, list[int]] = {}
    together: dict[Binding, list[int]] = {}
    for day, causes in in_the_way(yard, horse, job, first, last):
        for cause in causes:
            together.setdefault(cause, []).append(day)
            if len(causes) == 1:
                alone.setdefault(cause, []).append(day)
    days = alone or together
    if not days:
        return None
    kind = max(days, key=lambda one: (one != "free_day", len(days[one])))
    return Chief(kind=kind, day=days[kind][-1], alone=bool(alone))
