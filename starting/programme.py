"""Programme files become steps in order, with what each needs and what is checked."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

StageKind = Literal["sessions", "check", "event", "rest"]
StopLevel = Literal["end_today", "go_back", "ring_vet"]


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Programme:
    """Steps in an order that their prerequisites allow."""

    key: str
    name: str
    for_whom: str
    digest: str  # SHA-256 of the file, in hex
    stages: tuple[Stage, ...]

    def stage(self, key: str) -> Stage:
        """Return the step called ``key``."""
        raise NotImplementedError


class ProgrammeError(ValueError):
    """A programme file that cannot be used; says where and why."""


def read_programme(text: str, *, key: str) -> Programme:
    """Return the programme that a TOML text describes."""
    raise NotImplementedError


def shipped(key: str = "default") -> Programme:
    """Return a programme that is shipped with the site."""
    raise NotImplementedError
