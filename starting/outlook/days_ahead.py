"""The yard's plan, a horse at a time: its days, early and late ends, the aim's work."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from starting.outlook.aiming import WorkAhead
from starting.outlook.values import Turn
from starting.schedule import (
    HorseAhead,
    HorsePlan,
    PlannedStage,
    Spread,
    YardDays,
    plan_yard,
    spreads,
)
from starting.schedule.turns import DayTurns, turns_today
from starting.schedule.wins import sessions_taken


@dataclass(frozen=True, slots=True, kw_only=True)
class DaysAhead:
    """One horse's plan by step, and how early and late each step may end."""

    planned: Mapping[str, PlannedStage]
    spreads: Mapping[str, Spread]
    work: WorkAhead | None = None
    turn: Turn | None = None


# Ours: with more youngsters no early and late ends are drawn; they take 1 MB each, and
# for so many about a second. Their ends are then not said.
MOST_DRAWN: Final = 100
NO_DAYS: Final = DaysAhead(planned={}, spreads={})


def days_of_all(
    ahead: Sequence[HorseAhead], days: YardDays, on: date
) -> dict[str, DaysAhead]:
    """Return each horse's days by its key, the yard planned as one."""
    plans = plan_yard(ahead, days, on)
    by_lot = _drawn(ahead, days, on, plans)
    taken = sessions_taken(plans, ahead)
    turns = turns_today(ahead, days, on)
    return {
        plan.horse: DaysAhead(
            planned={p.stage: p for p in plan.stages},
            spreads=spread,
            work=WorkAhead(ahead=horse, days=days, taken=taken, today=on),
            turn=_turn(plan, turns, on),
        )
        for horse, plan, spread in zip(ahead, plans, by_lot, strict=True)
    }


def _turn(plan: HorsePlan, turns: DayTurns, on: date) -> Turn | None:
    if plan.horse in turns.had:
        return Turn(turn="had")
    if plan.horse in turns.goes:
        return Turn(turn="goes", steps=turns.goes[plan.horse])
    if plan.horse in turns.waits:
        steps = turns.waits[plan.horse]
        days = (day for one in plan.stages if one.stage in steps for day in one.days)
        until = min((day for day in days if day > on), default=None)
        return Turn(turn="waits", steps=steps, until=until)
    return None


def _drawn(
    ahead: Sequence[HorseAhead],
    days: YardDays,
    on: date,
    plans: Sequence[HorsePlan],
) -> tuple[Mapping[str, Spread], ...]:
    if len(ahead) > MOST_DRAWN:
        return ({},) * len(plans)
    return spreads(ahead, days, on, plans)
