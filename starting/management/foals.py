"""Foals with the whole of the shipped programme ahead, for the benchmark."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final

from fitting.age import Foaled
from starting.gates import GateFacts, gates_of
from starting.programme import shipped
from starting.progress import progress
from starting.schedule import (
    HorseAhead,
    HorsePlan,
    StageAhead,
    YardDays,
    plan_yard,
    spreads,
)

DAYS: Final = YardDays(
    free=frozenset({1, 5, 6}), helper=frozenset({5}), sessions_a_day=2
)


def foals(on: date, horses: int) -> list[HorseAhead]:
    """Return foals with the whole of the shipped programme ahead."""
    stages = tuple(
        StageAhead(
            stage=stage,
            sessions_left=(sum(stage.typical_sessions) + 1) // 2,
            fewest_left=stage.typical_sessions[0],
            most_left=stage.typical_sessions[1],
        )
        for stage in shipped().stages
    )
    born = on - timedelta(days=10)
    names = (f"Foal {number}" for number in range(horses))
    return [HorseAhead(horse=name, born=born, stages=stages) for name in names]


def way_up(on: date) -> None:
    """Ask every gate of every step of a foal, and plan its days with their reasons."""
    born, programme = on - timedelta(days=10), shipped()
    facts = GateFacts(
        name="Foal",
        she="she",
        foaled=Foaled(first=born, last=born),
        programme=programme,
        progress=progress(programme, (), (), on),
    )
    for stage in programme.stages:
        gates_of(stage, facts, on)
    plan_yard(foals(on, 1), DAYS, on)


def by_lot(on: date, horses: int) -> None:
    """Draw how early and how late each step of foals that share days may end."""
    young = foals(on, horses)
    spreads(young, DAYS, on, [HorsePlan(horse=f.horse, stages=()) for f in young])


def planned(on: date, horses: int) -> None:
    """Plan foals that share the yard's days, with the reason of each date."""
    plan_yard(foals(on, horses), DAYS, on)


def shared(on: date, horses: int) -> None:
    """Plan foals that share the yard's days, and draw how early and late they end."""
    planned(on, horses)
    by_lot(on, horses)
