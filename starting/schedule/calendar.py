"""The next day that a step's own calendar allows, looked up by the day asked for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product
from typing import Final

import numpy as np
from numpy.typing import NDArray

from starting.schedule.days import WEEK
from starting.schedule.jobs import (
    EVERY_DAY,
    NO_SESSION,
    NOTHING_NEW,
    HorseAtWork,
    Job,
    YardAtWork,
)

BEYOND: Final = 32_000  # no day of the plan is left
# What a calendar leaves out: marks, days a gate shuts, the weekdays it keeps to.
Kept = tuple[bytes, int, bytes, frozenset[int]]
ALL_WEEK: Final = frozenset(range(WEEK))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Calendars:
    """Tables of the next allowed day, and which of them a row goes by.

    A table has an entry a day of the plan and one beyond. ``of`` has a line a row:
    on any free day and on the helper's, each once begun and as something new.
    """

    tables: NDArray[np.int16]
    of: NDArray[np.intp]  # shape (rows, 2, 2): helper asked for, something new

    def next_from(
        self,
        rows: NDArray[np.intp],
        days: NDArray[np.int16],
        *,
        helped: NDArray[np.bool_],
        new: NDArray[np.bool_],
    ) -> NDArray[np.int16]:
        """Return the first allowed day of each row from a day on."""
        last = self.tables.shape[1] - 1
        which = self.of[rows, helped.astype(np.intp), new.astype(np.intp)]
        found: NDArray[np.int16] = self.tables[which, np.minimum(days, last)]
        return found

    def allowed_on(self, rows: NDArray[np.intp], day: int) -> NDArray[np.bool_]:
        """Return whether a day is allowed, shape (rows, 2, 2) as ``of``."""
        allowed: NDArray[np.bool_] = self.tables[self.of[rows], day] == day
        return allowed


def calendars(yard: YardAtWork, pairs: Sequence[tuple[HorseAtWork, Job]]) -> Calendars:
    """Return the tables of a yard's steps; a rest's leaves out no weekday."""
    places: dict[Kept, int] = {}
    of = np.zeros((len(pairs), 2, 2), dtype=np.intp)
    for row, (horse, job) in enumerate(pairs):
        for helped, new in product((False, True), repeat=2):
            kept = _kept(horse, job, helped=helped, new=new)
            of[row, int(helped), int(new)] = places.setdefault(kept, len(places))
    tables = [_table(yard, *kept) for kept in places]
    return Calendars(tables=np.array(tables, dtype=np.int16), of=of)


def _kept(horse: HorseAtWork, job: Job, *, helped: bool, new: bool) -> Kept:
    if job.stage.kind == "rest":
        closed = b"" if job.ahead.under_way else job.closed
        return b"", 0, closed, ALL_WEEK
    single = job.stage.kind != "sessions"
    if single or job.with_helper in {0, EVERY_DAY}:  # the other cannot be
        helped = job.with_helper > 0
    new = single or (new and not job.begun)
    marks = NO_SESSION | NOTHING_NEW if new else NO_SESSION
    weekdays = job.helped if helped else job.free
    return bytes(horse.marks), marks, job.closed, weekdays


def _table(
    yard: YardAtWork, marks: bytes, against: int, closed: bytes, week: frozenset[int]
) -> NDArray[np.int16]:
    days = np.arange(yard.last + 1)
    free = np.isin((yard.today.weekday() + days) % WEEK, sorted(week))
    for what, mask in ((marks, against), (closed, 1)):
        if what:
            free &= np.frombuffer(what, dtype=np.uint8) & mask == 0
    table = np.append(np.where(free, days, BEYOND), BEYOND)
    return np.minimum.accumulate(table[::-1])[::-1].astype(np.int16)
