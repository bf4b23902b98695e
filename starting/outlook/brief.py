"""The part of an outlook that the yard's first pages show, kept apart: it is small."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from fitting.contradictions import Contradiction
from fitting.looks import MeasureLook
from fitting.wanted import things_of
from starting.kit import WITHOUT_BIT
from starting.outlook.values import (
    AimLook,
    DayAhead,
    Outlook,
    StageLook,
    Suggestion,
    Turn,
)
from starting.pace import pace_words

NEXT_STEPS: Final = 6
SOON_OUTGROWN_DAYS: Final = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class NextStep:
    """One step ahead, with its days and what holds it."""

    stage: str
    name: str
    state: str
    start: date | None
    finish: date | None
    because: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Brief:
    """What the first page, the plan and the list of horses show of one horse."""

    key: str
    on: date
    height: MeasureLook | None
    phases: tuple[tuple[str, str], ...]  # each phase with the state of the whole of it
    can_do_now: tuple[Suggestion, ...]
    why_not_more: str
    why_not_more_stage: str
    off_work: str
    resting: str
    soon_outgrown: tuple[str, ...]
    next_steps: tuple[NextStep, ...]
    undated: tuple[NextStep, ...]
    contradictions: tuple[Contradiction, ...] = ()
    aim: AimLook | None = None
    pace: str = ""  # how it differs from the usual
    asked: str = ""  # why another programme may suit better
    complete: str = ""  # that the way up is done
    to_get: int = 0  # things to buy or borrow within a year
    grown_kg: float | None = None  # the most it may weigh grown, nine times in ten
    turn: Turn | None = None
    days_ahead: tuple[DayAhead, ...] = ()


def brief_of(outlook: Outlook) -> Brief:
    """Return the brief of an outlook."""
    ahead = [s for s in outlook.stages if s.state not in {"established", "left_out"}]
    dated = sorted(
        (s for s in ahead if s.start), key=lambda s: (s.start or date.max, s.stage)
    )
    return Brief(
        key=outlook.key,
        on=outlook.on,
        height=outlook.measure("withers_height"),
        phases=_phases(outlook.stages),
        can_do_now=outlook.can_do_now,
        why_not_more=outlook.why_not_more,
        why_not_more_stage=outlook.why_not_more_stage,
        off_work=outlook.off_work,
        resting=outlook.resting,
        soon_outgrown=_soon_outgrown(outlook),
        next_steps=tuple(_next(s) for s in dated[:NEXT_STEPS]),
        undated=tuple(_next(s) for s in ahead if s.start is None),
        contradictions=outlook.contradictions,
        aim=outlook.aim,
        asked=outlook.asked.why if outlook.asked else "",
        complete=outlook.complete,
        pace=pace_words(outlook.horse, outlook.pace),
        to_get=sum(t.got_on is None for t in things_of(outlook.wants.wanted)),
        grown_kg=outlook.grown_kg,
        turn=outlook.turn,
        days_ahead=outlook.days_ahead,
    )


def _next(stage: StageLook) -> NextStep:
    return NextStep(
        stage=stage.stage,
        name=stage.name,
        state=stage.state,
        start=stage.start,
        finish=stage.finish,
        because=stage.because,
    )


def _phases(stages: Sequence[StageLook]) -> tuple[tuple[str, str], ...]:
    names = dict.fromkeys(stage.phase for stage in stages)
    return tuple(
        (name, _phase_state([s.state for s in stages if s.phase == name]))
        for name in names
    )


def _phase_state(states: Iterable[str]) -> str:
    kinds = set(states)
    if kinds == {"left_out"}:
        return "left_out"
    if kinds <= {"established", "left_out"}:
        return "established"
    if kinds & {"under_way", "established"}:
        return "under_way"
    return "open" if "open" in kinds else "waiting"


def _soon_outgrown(outlook: Outlook) -> tuple[str, ...]:
    """Return what is worn now and will not be good for another two months."""
    worn = {item for one in outlook.can_do_now for item in one.wear}
    near = outlook.on + timedelta(days=SOON_OUTGROWN_DAYS)
    first: dict[str, date] = {}  # an item with its first part that ends
    for fit in outlook.fits:
        if fit.good_until and fit.good_until <= near and _is_worn(fit.item, worn):
            first[fit.item] = min(fit.good_until, first.get(fit.item, near))
    return tuple(
        f"{item} is good until about {day.day} {day:%b %Y}."
        for item, day in first.items()
    )


def _is_worn(item: str, worn: Iterable[str]) -> bool:
    """Return whether an item is among those named, with their hole or without."""
    with_its_hole = (f"{item} on hole ", f"{item}{WITHOUT_BIT}")
    return any(one == item or one.startswith(with_its_hole) for one in worn)
