"""The one reason for each date of a finished plan."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from starting.schedule.blockers import chief, of_the_day
from starting.schedule.bounds import Bound, cannot_say
from starting.schedule.days import say_day
from starting.schedule.jobs import GELDED, OFF_WORK, RESTING, is_new
from starting.schedule.values import (
    HORIZON_MONTHS,
    Because,
    HorsePlan,
    PlannedStage,
)
from starting.schedule.wording import first_such_day, put_off, too_few_such_days

if TYPE_CHECKING:
    from starting.schedule.jobs import HorseAtWork, Job, YardAtWork
    from starting.schedule.values import Binding

BEYOND: Final = Because(
    kind="beyond_horizon", text=f"More than {HORIZON_MONTHS} months ahead"
)
OF_THE_WEEK: Final = frozenset({"free_day", "second_person"})
# Where two bounds fall on one day, the one told first.
TELLING: Final = ("now", "typical_age", "stage_before", "age", "off_work", "rest")


def explained(yard: YardAtWork, horse: HorseAtWork) -> HorsePlan:
    """Return one horse's plan with its reasons, from the finished run."""
    whys: dict[int, Because] = {}
    for job in horse.jobs:
        undated = job.start is None
        why = _no_date(yard, horse, job, whys) if undated else _start(yard, horse, job)
        whys[job.place] = why
    stages = tuple(_planned(yard, horse, job, whys[job.place]) for job in horse.jobs)
    return HorsePlan(horse=horse.ahead.horse, stages=stages)


def _planned(
    yard: YardAtWork, horse: HorseAtWork, job: Job, because: Because
) -> PlannedStage:
    start, finish = yard.span(job)
    return PlannedStage(
        stage=job.stage.key,
        start=start,
        finish=finish,
        days=tuple(yard.on(day) for day in job.days),
        because=because,
        finish_because=_finish(yard, horse, job),
    )


def _start(yard: YardAtWork, horse: HorseAtWork, job: Job) -> Because:
    """Return what holds the first day: a bound, or what came after the bounds."""
    bounds = _bounds(yard, horse, job)
    bound = max(bounds, key=lambda one: (one.day, _told(one.kind)))
    start = job.ready if job.start is None else job.start
    found = chief(yard, horse, job, job.ready, start - 1)
    if found is None:
        return bound.because(yard.today)
    of_the_week_only = found.kind == "free_day" or not found.alone
    held_alone = sum(one.day == job.ready for one in bounds) == 1
    if of_the_week_only and held_alone and _open_a_day_sooner(yard, horse, job):
        return bound.because(yard.today)
    if found.kind in OF_THE_WEEK:
        return first_such_day(yard, job, found.kind, start)
    return put_off(yard, horse, job, found.kind, found.day)


def _open_a_day_sooner(yard: YardAtWork, horse: HorseAtWork, job: Job) -> bool:
    """Whether a bound one day earlier would have let the step start that day."""
    day = job.ready - 1
    new = is_new(job.ahead)
    return day >= 0 and not of_the_day(yard, horse, job, day, new=new)


def _bounds(yard: YardAtWork, horse: HorseAtWork, job: Job) -> list[Bound]:
    goes_on = "Goes on today" if job.ahead.under_way else "Can start today"
    today = Bound(day=0, kind="now", words=goes_on, dated=False)
    before = (horse.jobs[place] for place in job.before)
    waits = [
        _wait(yard, other, other.finish) for other in before if other.finish is not None
    ]
    return [today, *waits, *job.bounds]


def _wait(yard: YardAtWork, other: Job, finish: int) -> Bound:
    when = say_day(yard.on(finish))
    return Bound(
        day=finish + 1,
        kind="stage_before",
        words=f"Waits for {other.stage.name}, likely done on {when}",
        subject=other.stage.key,
        dated=False,
    )


def _told(kind: Binding) -> int:
    return TELLING.index(kind) if kind in TELLING else len(TELLING)


def _finish(yard: YardAtWork, horse: HorseAtWork, job: Job) -> Because | None:
    """Return what keeps a step's days apart."""
    if job.start is None:
        return None
    if job.finish is None:
        return BEYOND
    if job.stage.kind != "sessions":
        return None
    found = chief(yard, horse, job, job.start, job.finish)
    if found is None:
        return None
    if found.kind in OF_THE_WEEK:
        return too_few_such_days(found.kind)
    return put_off(yard, horse, job, found.kind, found.day)


def _no_date(
    yard: YardAtWork, horse: HorseAtWork, job: Job, whys: dict[int, Because]
) -> Because:
    held = cannot_say(job.ahead)
    if held is not None:
        return held
    missing = [place for place in job.before if horse.jobs[place].finish is None]
    for place in missing:
        if not _is_beyond(horse.jobs[place], whys.get(place)):
            return _waits_undated(horse.jobs[place])
    if missing or job.ready > yard.last:
        return BEYOND
    return _never(yard, horse, job)


def _is_beyond(job: Job, why: Because | None) -> bool:
    """Whether a job is dated, but ends or starts beyond the horizon."""
    return job.start is not None or (why is not None and why.kind == BEYOND.kind)


def _waits_undated(job: Job) -> Because:
    text = f"Waits for {job.stage.name}, which has no date yet"
    return Because(kind="stage_before", text=text, subject=job.stage.key)


def _never(yard: YardAtWork, horse: HorseAtWork, job: Job) -> Because:
    """Return why a step that may start finds no day up to the horizon."""
    if not yard.days.free:
        return Because(kind="free_day", text="The yard has named no free day")
    if not job.weekdays:
        text = "None of the helper's days is a free day"
        return Because(kind="second_person", text=text)
    if job.stage.kind == "sessions" and yard.days.sessions_a_day < 1:
        return Because(kind="capacity", text="The people have no session on any day")
    new = is_new(job.ahead)
    return _without_end(horse.marks[yard.last], new=new)


def _without_end(marks: int, *, new: bool) -> Because:
    """Return what lasts to the horizon without an end anybody named."""
    if marks & OFF_WORK:
        text = "Off work, and nobody can say until when"
        return Because(kind="cannot_say", text=text, subject="off_work")
    if marks & RESTING:
        text = "Resting, and no last day is written down"
        return Because(kind="cannot_say", text=text, subject="rest")
    if new and marks & GELDED:
        text = "Gelded, and your vet has not cleared anything new yet"
        return Because(kind="cannot_say", text=text, subject="gelding")
    return BEYOND
