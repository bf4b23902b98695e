"""The planned days of a horse's steps, for those who come to help."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta
from typing import Final

from fitting.fit import Finding
from starting.gates import GateAnswer, holding
from starting.kit import kit_of
from starting.minutes import counting, last_of, minutes_for
from starting.outlook.again import again_key
from starting.outlook.facts import HorseFacts
from starting.outlook.values import DayAhead, StageLook
from starting.people import people_asked
from starting.programme import Stage, mounted, needs_second_person
from starting.schedule import PlannedStage
from starting.schedule.jobs import HELPED_AT_FIRST

NEAR_DAYS: Final = 14  # ours: today and the thirteen days after
FIRST: Final = "second_person_first"


def days_of_steps(
    horse: HorseFacts,
    findings: Sequence[Finding],
    stages: Sequence[StageLook],
    planned: Mapping[str, PlannedStage],
    on: date,
) -> tuple[DayAhead, ...]:
    """Return the planned days of the next fortnight, by day and in the way's order."""
    if horse.programme is None:
        return ()
    steps = {stage.key: stage for stage in horse.programme.stages}
    found = (
        day
        for look in stages
        if (days := near_days(look, planned, on))
        for day in _of_step(horse, findings, steps[look.stage], look, days)
    )
    return tuple(sorted(found, key=lambda day: day.on))


def near_days(
    look: StageLook, planned: Mapping[str, PlannedStage], on: date
) -> tuple[date, ...]:
    """Return a step's planned days of the fortnight; today's as its turn has it."""
    plan = planned.get(again_key(look.stage)) or planned.get(look.stage)
    last = on + timedelta(days=NEAR_DAYS - 1)
    days = {day for day in plan.days if on < day <= last} if plan else set()
    if look.next_on == on:
        days.add(on)
    return tuple(sorted(days))


def _of_step(
    horse: HorseFacts,
    findings: Sequence[Finding],
    stage: Stage,
    look: StageLook,
    days: Sequence[date],
) -> Iterator[DayAhead]:
    asked = [g for g in look.gates if g.kind == "on_the_day"]
    asked = [g for g in asked if g.answer is not GateAnswer.MET]
    held = [g for g in holding(look.gates) if g.gate != "stages_before"]
    for place, day in enumerate(days):
        second = _second(stage, look, place)
        names = [g.gate for g in asked if g.gate != FIRST or second]
        yield DayAhead(
            on=day,
            stage=look.stage,
            name=look.name,
            people=people_asked(stage, names),
            second=second,
            mounted=mounted(stage),
            minutes=minutes_of(horse, stage, look),
            wear=worn_for(look, findings),
            asks=tuple(g.why for g in asked if g.gate in names),
            first=held[0].would_meet or held[0].why if held else "",
        )


def worn_for(look: StageLook, findings: Sequence[Finding]) -> tuple[str, ...]:
    """Return what fits of a step's tack, each once: a set serves several gates."""
    fitting = (kit.words for kit in kit_of(look.gates, findings) if kit.fits)
    return tuple(dict.fromkeys(fitting))


def _second(stage: Stage, look: StageLook, place: int) -> bool:
    first = FIRST in stage.gates_on_the_day
    so_far = look.good_sessions + place
    return needs_second_person(stage) or (first and so_far < HELPED_AT_FIRST)


def minutes_of(horse: HorseFacts, stage: Stage, look: StageLook) -> int:
    """Return how many minutes the next session of a step may be."""
    last = last_of(stage, horse.sessions)
    return minutes_for(stage, counting(look.state, look.good_sessions), last).minutes
