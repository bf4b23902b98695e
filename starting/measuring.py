"""Due windows become the fewest measuring days."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """One measure of one horse: useful from, due by (both days inside)."""

    measure: str
    useful_from: date
    due_by: date
    because: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuringDay:
    """One day, and what to measure on it."""

    on: date
    due: tuple[Due, ...]


def measuring_days(
    due: Sequence[Due], free: frozenset[int], today: date
) -> tuple[MeasuringDay, ...]:
    """Return the fewest free days that serve all windows; overdue ones come first."""
    raise NotImplementedError
