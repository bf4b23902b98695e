"""The causes that keep a step from its days, in a keeper's words."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

from starting.schedule.days import say_day, say_weekday
from starting.schedule.jobs import (
    OFF_WORK,
    QUIET_DAYS_AFTER_VACCINATION,
    RESTING,
)
from starting.schedule.values import Because

if TYPE_CHECKING:
    from starting.schedule.jobs import HorseAtWork, Job, YardAtWork
    from starting.schedule.values import Binding


def put_off(
    yard: YardAtWork, horse: HorseAtWork, job: Job, kind: Binding, day: int
) -> Because:
    """Return the reason that a cause, met on ``day``, gives for a step's days."""
    if kind in {"rest", "off_work"}:
        return _time_off(yard, horse, kind, day)
    if kind == "capacity":
        return _capacity(yard, horse, day)
    if kind in {"days_a_week", "days_in_a_row"}:
        return _pace(job, kind)
    if kind == "care":
        text = f"Keeps {say_weekday(yard.on(day))} for care"
        return Because(kind=kind, text=text, subject="care")
    if kind == "gate":
        return _closed(yard, job, day)
    return _not_new(yard, horse, kind, day)


def first_such_day(yard: YardAtWork, job: Job, kind: Binding, start: int) -> Because:
    """Return the reason for waiting for a free day, or for the helper's."""
    whose = "free day" if kind == "free_day" else "day with the helper"
    since = say_day(yard.on(job.ready))
    text = f"The first {whose} from {since} is {say_weekday(yard.on(start))}"
    return Because(kind=kind, text=text)


def too_few_such_days(kind: Binding) -> Because:
    """Return the reason for a slow pace: few free days, or few with a helper."""
    whose = "the yard's free days" if kind == "free_day" else "the helper's days"
    return Because(kind=kind, text=f"Keeps to {whose}")


def _time_off(yard: YardAtWork, horse: HorseAtWork, kind: Binding, day: int) -> Because:
    what = RESTING if kind == "rest" else OFF_WORK
    while day < yard.last and horse.marks[day + 1] & what:
        day += 1
    word = "Resting" if kind == "rest" else "Off work"
    text = f"{word} until {say_day(yard.on(day))}"
    if kind == "rest" and yard.on(day) in horse.ahead.reckoned_ends:
        text = f"{text} as reckoned (ours): no last day is written down"
    return Because(kind=kind, text=text, subject=_rest_step(horse, day) or kind)


def _rest_step(horse: HorseAtWork, day: int) -> str:
    """Return the rest step that ends on a day, if one does."""
    return next(
        (
            job.stage.key
            for job in horse.jobs
            if job.stage.kind == "rest" and job.finish == day
        ),
        "",
    )


def _capacity(yard: YardAtWork, horse: HorseAtWork, day: int) -> Because:
    when = say_day(yard.on(day))
    taken = horse.sessions.get(day)
    if taken:
        text = f"{taken[0].stage.name} has the session of {when}"
        return Because(kind="capacity", text=text, subject=taken[0].stage.key)
    if day == 0 and horse.taken_today:
        return Because(kind="capacity", text="Has had today's session")
    text = f"The people's sessions of {when} are taken"
    return Because(kind="capacity", text=text)


def _pace(job: Job, kind: Binding) -> Because:
    if kind == "days_a_week":
        most, of = job.pace.days_a_week, "a week"
    else:
        most, of = job.pace.days_in_a_row, "in a row"
    days = "day" if most == 1 else "days"
    text = f"At most {most} {days} {of}"
    return Because(kind=kind, text=text, subject=job.stage.key)


def _closed(yard: YardAtWork, job: Job, day: int) -> Because:
    """Return why a gate that opened, or never was asked, shuts the step again."""
    on = yard.on(day)
    span = max(
        (one for one in job.ahead.closed if one.first <= on <= one.last),
        key=lambda one: one.last,
    )
    opens = day
    while opens <= yard.last and job.is_closed(opens):
        opens += 1
    text = f"{span.why.rstrip('.')}: {say_day(yard.on(opens))}"
    return Because(kind="gate", text=text, subject=span.gate)


def _not_new(yard: YardAtWork, horse: HorseAtWork, kind: Binding, day: int) -> Because:
    if kind == "gelding":
        return _gelding(yard, horse, day)
    return _vaccination(yard, horse, day)


def _gelding(yard: YardAtWork, horse: HorseAtWork, day: int) -> Because:
    on, last = next(
        (first, last)
        for first, last in horse.ahead.gelded
        if first <= yard.on(day) <= (last or date.max)
    )
    until = f"before {say_day(last + timedelta(days=1))}" if last else "until cleared"
    text = f"Gelded {say_day(on)}: nothing new {until}"
    return Because(kind="gelding", text=text, subject="gelding")


def _vaccination(yard: YardAtWork, horse: HorseAtWork, day: int) -> Because:
    on = max(on for on in horse.ahead.vaccinated if on <= yard.on(day))
    again = on + timedelta(days=QUIET_DAYS_AFTER_VACCINATION + 1)
    text = f"Vaccinated {say_day(on)}: nothing new before {say_day(again)}"
    return Because(kind="vaccination", text=text, subject="vaccination")
