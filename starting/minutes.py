"""How long the next session of a step may be. The rules are ours."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from starting.programme import Stage
from starting.progress import SessionDone, is_good

LEAST_MINUTES: Final = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Minutes:
    """How long a session may be, and why so long; 0: the step names no minutes."""

    minutes: int
    why: str


NO_MINUTES: Final = Minutes(minutes=0, why="")


def minutes_for(stage: Stage, good: int, last: SessionDone | None) -> Minutes:
    """Return how long the next session of a step may be.

    It begins with the step's fewest minutes and grows to its most over the good
    sessions the step needs; after one that was not good it is a third shorter.
    """
    low, high = stage.minutes
    if not high:
        return NO_MINUTES
    if last is not None and not is_good(stage, last):
        shorter = (last.minutes or low) * 2 // 3
        minutes = min(max(shorter, LEAST_MINUTES), high)
        return Minutes(minutes=minutes, why="shorter: the last one was not good")
    more = max(stage.min_good_sessions - 1, 1)
    minutes = low + round((high - low) * min(good, more) / more)
    sessions, most = stage.first_minutes or (0, high)
    if good < sessions and minutes > most:
        return Minutes(minutes=most, why=f"its first {sessions} at most {most}")
    why = f"the step begins with {low} and grows to {high}" if high > low else ""
    return Minutes(minutes=minutes, why=why)


def counting(state: str, good: int) -> int:
    """Return the good sessions that count for minutes: gone over again, it is short."""
    return 0 if state == "established" else good


def last_of(stage: Stage, sessions: Sequence[SessionDone]) -> SessionDone | None:
    """Return the newest session of a step; None: there was none."""
    mine = [one for one in sessions if one.stage == stage.key]
    return max(mine, key=lambda one: one.on, default=None)
