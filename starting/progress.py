"""The log becomes each step's state."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

from starting.programme import Programme, StopLevel

CheckAnswer = Literal["yes", "nearly", "no", "not_tried"]
State = Literal["waiting", "open", "under_way", "established", "left_out"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionDone:
    """One session in the log."""

    on: date
    stage: str
    minutes: int | None = None
    checks: tuple[tuple[str, CheckAnswer], ...] = ()
    stop: StopLevel | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Recorded:
    """A step set by hand: established by its record, or left out."""

    stage: str
    state: Literal["established", "left_out"]
    on: date


@dataclass(frozen=True, slots=True, kw_only=True)
class StageProgress:
    """How far one step has got."""

    stage: str
    state: State
    go_over_again: bool = False
    good_sessions: int = 0
    sessions: int = 0
    sessions_left: int = 0
    established_on: date | None = None
    last_on: date | None = None
    last_checks: tuple[tuple[str, CheckAnswer], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """Every step's state, in the programme's order, and the last true level."""

    stages: tuple[StageProgress, ...]
    last_true_level: str | None

    def of(self, stage: str) -> StageProgress:
        """Return how far ``stage`` has got."""
        raise NotImplementedError


def progress(
    programme: Programme,
    sessions: Sequence[SessionDone],
    records: Sequence[Recorded],
    today: date,
) -> Progress:
    """Return every step's state from the log on a day.

    ``waiting`` and ``open`` are told apart here by ``stages_before`` alone; the
    outlook turns ``open`` into ``waiting`` where another gate is shut.
    """
    raise NotImplementedError
