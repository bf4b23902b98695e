"""Steps, gates and days become a dated plan, each date with its one reason."""

from __future__ import annotations

from typing import TYPE_CHECKING

from starting.schedule.draws import spreads
from starting.schedule.jobs import yard_at_work
from starting.schedule.listing import list_days
from starting.schedule.reasons import explained
from starting.schedule.values import (
    HORIZON_MONTHS,
    Because,
    Binding,
    Closed,
    Hold,
    HorseAhead,
    HorsePlan,
    PlannedStage,
    Spread,
    StageAhead,
    YardDays,
)

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

__all__ = [
    "HORIZON_MONTHS",
    "Because",
    "Binding",
    "Closed",
    "Hold",
    "HorseAhead",
    "HorsePlan",
    "PlannedStage",
    "Spread",
    "StageAhead",
    "YardDays",
    "plan_yard",
    "planned_spans",
    "spreads",
]

Span = tuple["date | None", "date | None"]


def plan_yard(
    horses: Sequence[HorseAhead], days: YardDays, today: date
) -> tuple[HorsePlan, ...]:
    """Return the yard's plan from ``today`` on: same facts, same plan.

    List scheduling, day by day: where a day's sessions run short, the step with the
    longest path ahead goes first, then the older horse, then the name. A path is as
    long as its days take where nothing else wants them. A step of sessions, a check
    and an event stand on free days only; checks and events take none of the day's
    sessions. A rest runs by the calendar.
    """
    yard = yard_at_work(horses, days, today)
    list_days(yard)
    return tuple(explained(yard, horse) for horse in yard.as_given)


def planned_spans(
    horses: Sequence[HorseAhead], days: YardDays, today: date
) -> tuple[dict[str, Span], ...]:
    """Return each horse's first and last day by step, as ``plan_yard`` has them.

    Leaves the reasons out, for plans that are made by the hundred.
    """
    yard = yard_at_work(horses, days, today)
    list_days(yard)
    return tuple(
        {job.stage.key: yard.span(job) for job in horse.jobs} for horse in yard.as_given
    )
