"""Whose turn it is today, where more horses are ready than the people have sessions."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from starting.schedule.jobs import EVERY_DAY, YardAtWork, yard_at_work
from starting.schedule.listing import list_days
from starting.schedule.values import HorseAhead, YardDays

Steps = tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DayTurns:
    """One day's sessions by horse: had, to come, and those that wait for room.

    ``goes``: the steps that get a session; ``waits``: those that would with room.
    """

    had: tuple[str, ...]
    goes: Mapping[str, Steps]
    waits: Mapping[str, Steps]


def turns_today(horses: Sequence[HorseAhead], days: YardDays, today: date) -> DayTurns:
    """Return who goes today by the plan's own order, and who waits for room.

    As ``plan_yard`` has it, but that a step for which something is still to be done
    takes no session: today it cannot have one.
    """
    goes = _sessions(horses, days, today)
    able = _sessions(horses, replace(days, sessions_a_day=EVERY_DAY), today)
    return DayTurns(
        had=tuple(one.horse for one in horses if today in one.recent_days),
        goes=goes,
        waits={horse: steps for horse, steps in able.items() if horse not in goes},
    )


def _sessions(
    horses: Sequence[HorseAhead], days: YardDays, today: date
) -> dict[str, Steps]:
    yard = yard_at_work(horses, days, today)
    yard.last = 0
    _leave_out_what_waits(yard)
    list_days(yard)
    return {
        horse.ahead.horse: tuple(dict.fromkeys(job.stage.key for job in taken))
        for horse in yard.as_given
        if (taken := horse.sessions.get(0))
    }


def _leave_out_what_waits(yard: YardAtWork) -> None:
    for horse in yard.horses:
        for job in horse.jobs:
            job.shut = job.shut or bool(job.ahead.to_dos)
