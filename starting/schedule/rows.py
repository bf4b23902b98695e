"""A step in many plans at once: an array each fact, a column a plan."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

import numpy as np
from numpy.typing import NDArray

from starting.schedule.jobs import (
    EVERY_DAY,
    STARVES_DAYS,
    HorseAtWork,
    Job,
    YardAtWork,
)

Numbers = NDArray[np.int64]
Flags = NDArray[np.bool_]
NEVER: Final = 10**6
TAKEN: Final = -1  # below every score


@dataclass(slots=True, kw_only=True, eq=False)
class Row:
    """One step of one horse in every column."""

    job: Job
    bound: int
    order: int  # among equals the smallest goes first
    left: Numbers
    helped: Numbers  # sessions that still ask for the helper
    ready: Numbers
    missing: Numbers
    opens: Numbers  # the first possible day, NEVER while it waits or once it is done
    finish: Numbers
    score: Numbers
    week: int
    in_week: Numbers
    last: Numbers
    in_a_row: Numbers
    begun: Flags
    listed: bool = False

    def may_take(self, yard: YardAtWork, day: int) -> Flags:
        """Return where the step may have a session, as far as its pace goes."""
        week = yard.week(day)
        if self.week != week:
            self.week = week
            self.in_week = np.zeros_like(self.in_week)
        in_a_row = (self.last == day - 1) & (
            self.in_a_row >= self.job.pace.days_in_a_row
        )
        full = self.in_week >= self.job.pace.days_a_week
        may: Flags = (self.opens <= day) & ~(in_a_row | full)
        if yard.weekday(day) not in self.job.helped:
            may &= self.helped <= 0
        return may

    def score_on(self, day: int, extra: int) -> Numbers:
        """Return what the step counts on a day: more by ``extra`` where it starves."""
        if not self.job.stage.optional:
            return self.score
        waited = day - np.maximum(self.ready, self.last)
        return self.score + extra * (waited >= STARVES_DAYS)

    def serves(self, weekday: int) -> bool:
        """Whether a weekday serves the step in any column."""
        job = self.job
        free = weekday in job.free and job.with_helper < EVERY_DAY
        return free or weekday in job.helped

    def note(self, day: int, where: Flags) -> None:
        """Count a session of a day, once where the day has two."""
        first = where & (self.last != day)
        self.in_week += first
        longer = np.where(self.last == day - 1, self.in_a_row + 1, 1)
        self.in_a_row = np.where(first, longer, self.in_a_row)
        self.last = np.where(where, day, self.last)
        self.begun = self.begun | where
        self.left = self.left - where
        self.helped = self.helped - where


@dataclass(slots=True, kw_only=True, eq=False)
class HorseRows:
    """One horse's rows; ``had``: in which columns it has had a session today."""

    at_work: HorseAtWork
    rows: list[Row]
    had: Flags
    open: list[Row] = field(default_factory=list)
    away: list[tuple[Numbers, Numbers]] = field(default_factory=list)

    def turned_away(self, day: int) -> Flags:
        """Return where the horse is turned away on a day."""
        spans = [(first <= day) & (day <= last) for first, last in self.away]
        away: Flags = np.logical_or.reduce(spans)
        return away


@dataclass(slots=True, kw_only=True, eq=False)
class Turn:
    """A step that may have a session of a day, in some columns."""

    horse: HorseRows
    row: Row
    may: Flags
    span: slice  # the horse's turns among the day's

    @property
    def pairs(self) -> bool:
        """Whether the step allows a second session a day."""
        return self.row.job.stage.two_a_day
