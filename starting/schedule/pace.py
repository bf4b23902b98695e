"""How a step's days are spaced: so many a week, so many in a row."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from starting.schedule.days import WEEK

SOME_WEEKS: Final = 4
LONG_AGO: Final = -(10**6)


@dataclass(slots=True, kw_only=True)
class Pace:
    """A step's days of this week and its days in a row, so far."""

    days_a_week: int
    days_in_a_row: int
    week: int = LONG_AGO
    in_week: int = 0
    last: int = LONG_AGO
    in_a_row: int = 0

    def week_is_full(self, week: int) -> bool:
        """Whether the week has no day left for the step."""
        return self.week == week and self.in_week >= self.days_a_week

    def row_is_full(self, day: int) -> bool:
        """Whether ``day`` would be one in a row too many."""
        return self.last == day - 1 and self.in_a_row >= self.days_in_a_row

    def note(self, day: int, week: int) -> None:
        """Count a day, later than or the same as the last one counted."""
        if day == self.last:
            return
        self.in_a_row = self.in_a_row + 1 if self.last == day - 1 else 1
        self.in_week = self.in_week + 1 if self.week == week else 1
        self.last, self.week = day, week


@lru_cache(maxsize=256)
def days_taken(weekdays: frozenset[int], days_a_week: int, days_in_a_row: int) -> int:
    """Return how many days a step has in some weeks that nothing else fills."""
    pace, taken = Pace(days_a_week=days_a_week, days_in_a_row=days_in_a_row), 0
    for day in range(SOME_WEEKS * WEEK):
        full = pace.week_is_full(day // WEEK) or pace.row_is_full(day)
        if day % WEEK in weekdays and not full:
            pace.note(day, day // WEEK)
            taken += 1
    return taken
