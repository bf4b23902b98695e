"""A programme as plain values: steps, ticks, signs to stop."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from starting.programme_fields import StageKind, StopLevel

# Source: ours; it rests on the federation's usual age and the hire rule.
MOUNTED_FLOOR_MONTHS: Final = 36


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One tick, answered yes, nearly, no or not tried."""

    key: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StopSign:
    """A sign to stop at, with the level it is prefilled with."""

    key: str
    text: str
    level: StopLevel


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """One step of the way up; ages in months from the foaling date."""

    key: str
    name: str
    phase: str
    kind: StageKind
    aim: str
    optional: bool = False
    earliest_months: float = 0
    earliest_days: int | None = None
    floor_months: float | None = None
    typical_months: tuple[float, float] = (0, 0)
    prerequisites: tuple[str, ...] = ()
    prerequisites_once: tuple[str, ...] = ()
    gates_dated: tuple[str, ...] = ()
    gates_to_do: tuple[str, ...] = ()
    gates_on_the_day: tuple[str, ...] = ()
    tack_first_met: tuple[str, ...] = ()
    min_good_sessions: int = 0
    typical_sessions: tuple[int, int] = (0, 0)
    minutes: tuple[int, int] = (0, 0)
    days_a_week: tuple[int, int] = (0, 0)
    days_in_a_row: int = 0
    refresh_after_days: int = 0
    people: int = 1
    people_better: int = 1
    checks: tuple[Check, ...] = ()
    stop_signs: tuple[StopSign, ...] = ()
    cautions: tuple[str, ...] = ()
    evidence: str = ""
    falls_back_to: str | None = None
    ends_at_months: float | None = None
    rest_days: int | None = None
    recent_good: tuple[int, int] | None = None  # sessions, days
    two_a_day: bool = False
    clean_days: int = 0  # its first days, so many of them clean, establish it; 0: not
    first_minutes: tuple[int, int] | None = None  # sessions, minutes at most


@dataclass(frozen=True, slots=True, kw_only=True)
class Programme:
    """Steps in an order that their prerequisites allow."""

    key: str
    name: str
    for_whom: str
    digest: str  # SHA-256 of the file, in hex
    stages: tuple[Stage, ...]
    may_end_at: str | None = None  # the step it may finish at, without a rider
    settle_days: int = 0  # to settle in before the first step
    more_sessions: float = 1.0  # good ones needed for each, from 48 months on

    def stage(self, key: str) -> Stage:
        """Return the step called ``key``.

        Raises:
            KeyError: the programme has no such step.
        """
        for stage in self.stages:
            if stage.key == key:
                return stage
        raise KeyError(key)

    def falls_back_to(self, key: str) -> str | None:
        """Return the step a go-back sign leads to; None for a first step.

        Raises:
            KeyError: the programme has no such step.
        """
        stage = self.stage(key)
        last = stage.prerequisites[-1] if stage.prerequisites else None
        return stage.falls_back_to or last


def needs_second_person(stage: Stage) -> bool:
    """Whether a second person must be there on each day of the step."""
    return stage.people > 1 or "second_person" in stage.gates_on_the_day


def mounted(stage: Stage) -> bool:
    """Whether a step has a rider's floor under it."""
    return (stage.floor_months or 0) >= MOUNTED_FLOOR_MONTHS


def on_lines(stage: Stage) -> bool:
    """Whether a step is work in roller, saddle or on lines: safety gear, no rider."""
    return "safety_gear" in stage.gates_on_the_day and not mounted(stage)
