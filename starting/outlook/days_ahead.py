"""The yard's plan, a horse at a time: its days, early and late ends, the aim's work."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from starting.outlook.aiming import WorkAhead
from starting.schedule import (
    HorseAhead,
    HorsePlan,
    PlannedStage,
    Spread,
    YardDays,
    plan_yard,
    spreads,
)
from starting.schedule.wins import sessions_taken


@dataclass(frozen=True, slots=True, kw_only=True)
class DaysAhead:
    """One horse's plan by step, and how early and late each step may end."""

    planned: Mapping[str, PlannedStage]
    spreads: Mapping[str, Spread]
    work: WorkAhead | None = None


# Ours: with more youngsters no early and late ends are drawn; a write would wait for
# many seconds. Their ends are then not said.
MOST_DRAWN: Final = 12
NO_DAYS: Final = DaysAhead(planned={}, spreads={})


def days_of_all(
    ahead: Sequence[HorseAhead], days: YardDays, on: date
) -> dict[str, DaysAhead]:
    """Return each horse's days by its key, the yard planned as one."""
    plans = plan_yard(ahead, days, on)
    by_lot = _drawn(ahead, days, on, plans)
    taken = sessions_taken(plans, ahead)
    return {
        plan.horse: DaysAhead(
            planned={p.stage: p for p in plan.stages},
            spreads=spread,
            work=WorkAhead(ahead=horse, days=days, taken=taken, today=on),
        )
        for horse, plan, spread in zip(ahead, plans, by_lot, strict=True)
    }


def _drawn(
    ahead: Sequence[HorseAhead],
    days: YardDays,
    on: date,
    plans: Sequence[HorsePlan],
) -> tuple[Mapping[str, Spread], ...]:
    if len(ahead) > MOST_DRAWN:
        return ({},) * len(plans)
    return spreads(ahead, days, on, plans)
