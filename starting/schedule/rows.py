"""A yard's steps in many plans at once: arrays, a row a step, a column a plan.

Older horses have the first rows, each in its programme's order. Days are counted from
today, as everywhere in the schedule.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from starting.schedule.calendar import Calendars, calendars
from starting.schedule.days import reaches
from starting.schedule.jobs import HorseAtWork, Job, YardAtWork

Days = NDArray[np.int16]
Numbers = NDArray[np.int64]
Places = NDArray[np.intp]
Flags = NDArray[np.bool_]
NEVER: Final = 32_000  # beyond every plan, and still a day in two bytes
LONG_AGO: Final = -32_000
MOST_IN_FOUR_BYTES: Final = 2**31 - 1


@dataclass(slots=True, kw_only=True, eq=False)
class Fixed:
    """What is so of a step in every column: one entry a row."""

    horse: Places
    bound: Days
    after: Places  # a line a row: the rows that wait for it, filled up with no row's
    a_week: Days
    in_a_row: Days
    two_a_day: Flags
    optional: Flags
    of_sessions: Flags
    rests: Flags
    dated: Flags  # somebody can say when it starts
    from_day: Days  # 1 where the horse had today's session, for steps of sessions
    rest_counts_from: Days  # NEVER: from its own first day
    rest_ends: Days  # NEVER: by its length
    rest_days: Days


@dataclass(slots=True, kw_only=True, eq=False)
class Rows:
    """How far each step has got in each column, shape (rows, columns)."""

    yard: YardAtWork
    jobs: tuple[Job, ...]
    fixed: Fixed
    calendars: Calendars
    left: Days
    helped: Days  # sessions that still ask for the helper
    begun: Flags
    missing: Days  # steps that it waits for
    ready: Days  # its first possible day
    next: Days  # the first day its own rules allow; NEVER while it waits or is done
    since: Days  # the day an optional step has waited from
    last: Days
    in_week: Days  # days taken in the week of the last one
    in_a_row: Days
    finish: Days
    score: NDArray[Any]  # the longest path first, then whose turn comes first
    base: int  # more than any turn
    in_turn: Places  # the rows in the order that equal paths have
    cost: Numbers  # a row: what a session takes off its score
    starved: int  # added where a step starves: more than any path
    away_from: Days
    away_to: Days
    away_last: int  # no horse is turned away after it
    open: Flags  # which rows are open in some column
    unfinished: Places  # in how many columns

    @property
    def columns(self) -> int:
        """How many times the yard is planned."""
        return int(self.left.shape[1])


def rows_of(
    yard: YardAtWork, left: Mapping[tuple[str, str], Numbers], columns: int
) -> Rows:
    """Return a yard's steps with nothing planned yet; ``left`` by horse and step."""
    pairs = [(horse, job) for horse in yard.horses for job in horse.jobs]
    count = len(pairs)

    def filled(value: int) -> Days:
        return np.full((count, columns), value, dtype=np.int16)

    def each(values: list[int]) -> Days:
        column = np.array(values, dtype=np.int16)[:, np.newaxis]
        return np.repeat(column, columns, axis=1)

    jobs = tuple(job for _, job in pairs)
    needed = _needed(pairs, left, columns)
    paths = _paths(yard, needed)
    base, longest = count + 1, int(paths.max(initial=0)) + 1
    four = 2 * base * longest < MOST_IN_FOUR_BYTES
    in_turn = np.argsort([job.choice for job in jobs], kind="stable")
    order = np.argsort(in_turn)[:, np.newaxis]
    return Rows(
        yard=yard,
        jobs=jobs,
        fixed=_fixed(yard, pairs),
        calendars=calendars(yard, pairs),
        left=needed,
        helped=each([min(job.with_helper, NEVER) for job in jobs]),
        begun=np.repeat(np.array([[job.begun] for job in jobs]), columns, axis=1),
        missing=each([job.missing for job in jobs]),
        ready=filled(0),
        next=filled(NEVER),
        since=filled(0),
        last=each([max(job.pace.last, LONG_AGO) for job in jobs]),
        in_week=each([job.pace.in_week for job in jobs]),
        in_a_row=each([job.pace.in_a_row for job in jobs]),
        finish=filled(NEVER),
        score=(paths * base - order).astype(np.int32 if four else np.int64),
        base=base,
        in_turn=in_turn,
        cost=base * np.array([job.each for job in jobs], dtype=np.int64),
        starved=base * longest,
        away_from=filled(NEVER),
        away_to=filled(-1),
        away_last=-1,
        open=np.zeros(count, dtype=bool),
        unfinished=np.full(count, columns, dtype=np.intp),
    )


def _needed(
    pairs: list[tuple[HorseAtWork, Job]],
    left: Mapping[tuple[str, str], Numbers],
    columns: int,
) -> Days:
    """Return the sessions each step needs, in each column."""
    needed = np.zeros((len(pairs), columns), dtype=np.int16)
    for row, (horse, job) in enumerate(pairs):
        needed[row] = left.get((horse.ahead.horse, job.stage.key), job.left)
    return needed


def _paths(yard: YardAtWork, left: Days) -> Numbers:
    """Return the longest path from each step on, its own days among them."""
    each = [job.each for horse in yard.horses for job in horse.jobs]
    paths = left.astype(np.int64) * np.array(each, dtype=np.int64)[:, np.newaxis]
    first = 0
    for horse in yard.horses:
        for job in reversed(horse.jobs):
            below = [paths[first + place] for place in job.after]
            if below:
                paths[first + job.place] += np.maximum.reduce(below)
        first += len(horse.jobs)
    return paths


def _fixed(yard: YardAtWork, pairs: list[tuple[HorseAtWork, Job]]) -> Fixed:
    jobs = [job for _, job in pairs]

    def days(values: list[int]) -> Days:
        return np.array(values, dtype=np.int64).clip(LONG_AGO, NEVER).astype(np.int16)

    def flags(values: list[bool]) -> Flags:
        return np.array(values, dtype=bool)

    return Fixed(
        horse=np.array([horse.rank for horse, _ in pairs], dtype=np.intp),
        bound=days([max([0, *(bound.day for bound in job.bounds)]) for job in jobs]),
        after=_after(yard),
        a_week=days([_paced(job, job.pace.days_a_week) for job in jobs]),
        in_a_row=days([_paced(job, job.pace.days_in_a_row) for job in jobs]),
        two_a_day=flags([job.stage.two_a_day for job in jobs]),
        optional=flags([job.stage.optional for job in jobs]),
        of_sessions=flags([job.stage.kind == "sessions" for job in jobs]),
        rests=flags([job.stage.kind == "rest" for job in jobs]),
        dated=flags([not job.shut for job in jobs]),
        from_day=days(
            [
                int(job.stage.kind == "sessions" and horse.taken_today > 0)
                for horse, job in pairs
            ]
        ),
        rest_counts_from=days([_counts_from(yard, job) for job in jobs]),
        rest_ends=days([_rest_ends(yard, horse, job) for horse, job in pairs]),
        rest_days=days([job.stage.rest_days or 1 for job in jobs]),
    )


def _paced(job: Job, most: int) -> int:
    """Return a limit of the pace; a check or an event has none."""
    return most if job.stage.kind == "sessions" else NEVER


def _after(yard: YardAtWork) -> Places:
    """Return the rows that wait for each row; beside the last, the row count."""
    count = sum(len(horse.jobs) for horse in yard.horses)
    most = max([1, *(len(j.after) for horse in yard.horses for j in horse.jobs)])
    after = np.full((count, most), count, dtype=np.intp)
    first = 0
    for horse in yard.horses:
        for job in horse.jobs:
            after[first + job.place, : len(job.after)] = [first + n for n in job.after]
        first += len(horse.jobs)
    return after


def _counts_from(yard: YardAtWork, job: Job) -> int:
    """Return the day a rest under way counts from; NEVER: its own first day."""
    begun = [(on - yard.today).days for on in job.ahead.recent_days]
    return min(begun, default=NEVER) if job.ahead.under_way else NEVER


def _rest_ends(yard: YardAtWork, horse: HorseAtWork, job: Job) -> int:
    """Return the day a rest ends on by the horse's age; NEVER: by its length."""
    if job.stage.ends_at_months is None:
        return NEVER
    return (reaches(horse.ahead.born, job.stage.ends_at_months) - yard.today).days
