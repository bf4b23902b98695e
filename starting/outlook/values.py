"""What is computed for one horse on one day; lengths in mm, weights in kg."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Final, Literal

from fitting.contradictions import Contradiction
from fitting.fit import Finding
from fitting.looks import AgeMark, MeasureLook, MeasuringLook
from fitting.wanted import Wants
from starting.diary import Entry
from starting.gates import Gate
from starting.progress import CheckAnswer, Held, State
from starting.proposing import Proposal

NOTHING: Final = Wants()


@dataclass(frozen=True, slots=True, kw_only=True)
class StageLook:
    """One step: its state, what it needs first, and its days."""

    stage: str
    name: str
    phase: str
    kind: str
    state: State
    go_over_again: bool
    last_true_level: bool
    may_start: bool
    gates: tuple[Gate, ...]
    start: date | None
    finish: date | None
    finish_early: date | None
    finish_late: date | None
    because: str
    sessions_left: int
    good_sessions: int
    sessions_needed: int
    minutes: tuple[int, int]
    next_on: date | None = None  # the next day the plan has for it
    next_because: str = ""  # what puts that day where it is
    established_on: date | None = None
    last_on: date | None = None
    last_checks: tuple[tuple[str, CheckAnswer], ...] = ()
    held: tuple[Held, ...] = ()  # the rules that hold it, by what the log says
    again_because: str = ""  # why it is to be gone over again
    because_kind: str = ""  # what kind of constraint ``because`` is
    held_by: str = ""  # the step it waits for, where that is the reason


@dataclass(frozen=True, slots=True, kw_only=True)
class Suggestion:
    """Something the horse can do now: a step, why it, and what it asks for."""

    stage: str
    name: str
    state: str  # open, under_way, or go_over_again
    why: str
    asks: tuple[str, ...]  # what is asked on the day
    wear: tuple[str, ...]  # what to wear, with its hole
    next_on: date | None = None  # a later day than today, where the plan says so
    later_because: str = ""  # why later
    minutes: int = 0  # how long it may be; 0: the step names no minutes
    people: str = ""  # who must be there


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """Whether a horse has its session of today, gets one, or waits; the steps."""

    turn: Literal["had", "goes", "waits"]
    steps: tuple[str, ...] = ()
    until: date | None = None  # of one that waits: its next planned day


@dataclass(frozen=True, slots=True, kw_only=True)
class DayAhead:
    """One planned day of a step; ``first``: what has to be done before it."""

    on: date
    stage: str
    name: str
    people: str
    second: bool  # whether somebody must be at its head, or more than one be there
    mounted: bool
    minutes: int = 0
    wear: tuple[str, ...] = ()
    asks: tuple[str, ...] = ()
    first: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class AimLook:
    """How the plan stands to the step hoped for; ``wins``: what would win most."""

    stage: str
    by: date | None
    slack_days: int | None  # under 0: too late
    text: str
    wins: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlook:
    """Everything computed for one horse on one day."""

    horse: str
    key: str
    yard: str
    on: date
    age_months: int
    season_age: int
    measures: tuple[MeasureLook, ...]
    fits: tuple[Finding, ...]
    stages: tuple[StageLook, ...]
    measuring_days: tuple[MeasuringLook, ...]
    entries: tuple[Entry, ...]
    can_do_now: tuple[Suggestion, ...]
    why_not_more: str
    why_not_more_stage: str
    off_work: str
    resting: str
    age_marks: tuple[AgeMark, ...] = ()
    tooth_change: date | None = None
    wants: Wants = NOTHING
    contradictions: tuple[Contradiction, ...] = ()
    aim: AimLook | None = None
    pace: float = 1.0  # sessions taken for each usual one
    turn: Turn | None = None  # today's; None: it has no session today for itself
    days_ahead: tuple[DayAhead, ...] = ()  # of the next fortnight
    asked: Proposal | None = None  # another programme that may suit better
    complete: str = ""  # that the way up is done, as far as it goes without a rider

    def measure(self, key: str) -> MeasureLook | None:
        """Return what is known of one measure."""
        return next((m for m in self.measures if m.measure == key), None)

    @property
    def grown_kg(self) -> float | None:
        """The most it may weigh grown, nine times in ten (kg)."""
        look = self.measure("weight")
        return look.grown.p95 if look and look.grown else None

    def stage(self, key: str) -> StageLook | None:
        """Return one step."""
        return next((s for s in self.stages if s.stage == key), None)
