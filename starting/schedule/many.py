"""One yard planned many times side by side: a column for each time, a row a step.

The rules are those of the day by day run in ``listing``; a test holds the two to
each other. Only what the draws need is kept: on which day each step ends.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from starting.schedule.days import reaches
from starting.schedule.jobs import NO_SESSION, NOTHING_NEW, Job, YardAtWork
from starting.schedule.rows import NEVER, TAKEN, Flags, HorseRows, Numbers, Row, Turn

LONGEST_PATH: Final = 10**5  # more sessions than any path has


@dataclass(slots=True, kw_only=True, eq=False)
class Many:
    """The whole yard, older horses first."""

    yard: YardAtWork
    horses: list[HorseRows]
    lost: Flags  # a row a day: where nobody gets to work
    base: int  # more than any order

    @property
    def columns(self) -> int:
        """How many times the yard is planned."""
        return int(self.lost.shape[1])


def finishes(
    yard: YardAtWork, left: Mapping[tuple[str, str], Numbers], lost: Flags
) -> dict[tuple[str, str], Numbers]:
    """Return the day each step ends in each column, by horse and step.

    Args:
        yard: the yard with nothing planned yet.
        left: sessions needed a column, by horse and step; else the step's own.
        lost: a row a day, a column a time: on which days nobody gets to work.
    """
    many = _many(yard, left, lost)
    for horse in many.horses:
        for row in horse.rows:
            if not row.job.before:
                _let_in(many, horse, row, np.ones(many.columns, dtype=bool))
    for day in range(yard.last + 1):
        if yard.weekday(day) in yard.days.free and any(h.open for h in many.horses):
            _work(many, day)
    return {
        (horse.at_work.ahead.horse, row.job.stage.key): row.finish
        for horse in many.horses
        for row in horse.rows
    }


def _many(
    yard: YardAtWork, left: Mapping[tuple[str, str], Numbers], lost: Flags
) -> Many:
    base = sum(len(horse.jobs) for horse in yard.horses) + 1
    orders = iter(range(base))
    many = Many(yard=yard, horses=[], lost=lost, base=base)
    for horse in yard.horses:
        name = horse.ahead.horse
        rows = [
            _row(job, next(orders), left.get((name, job.stage.key)), many.columns)
            for job in horse.jobs
        ]
        below = [np.zeros(many.columns, dtype=np.int64) for _ in rows]
        for place in reversed(range(len(rows))):
            for after in rows[place].job.after:
                path = below[after] + rows[after].left
                below[place] = np.maximum(below[place], path)
        for row, path in zip(rows, below, strict=True):
            row.score = (path + row.left) * base - row.order
        had = np.zeros(many.columns, dtype=bool)
        many.horses.append(HorseRows(at_work=horse, rows=rows, had=had))
    return many


def _row(job: Job, order: int, left: Numbers | None, columns: int) -> Row:
    def filled(value: int) -> Numbers:
        return np.full(columns, value, dtype=np.int64)

    return Row(
        job=job,
        bound=max([0, *(bound.day for bound in job.bounds)]),
        order=order,
        left=filled(job.left) if left is None else left.copy(),
        helped=filled(job.with_helper),
        ready=filled(0),
        missing=filled(job.missing),
        opens=filled(NEVER),
        finish=filled(NEVER),
        score=filled(0),
        week=job.pace.week,
        in_week=filled(job.pace.in_week),
        last=filled(job.pace.last),
        in_a_row=filled(job.pace.in_a_row),
        begun=np.full(columns, job.begun),
    )


def _let_in(many: Many, horse: HorseRows, row: Row, now: Flags) -> None:
    """Give a step its first possible day where nothing before it is missing."""
    row.ready = np.maximum(row.ready, row.bound)
    now = now & (row.ready <= many.yard.last)
    if row.job.shut or not now.any():
        return
    if row.job.stage.kind == "rest":
        _rest(many, horse, row, now)
        return
    if not row.job.weekdays:
        return
    row.opens = np.where(now, row.ready, row.opens)
    if not row.listed:
        row.listed = True
        horse.open.append(row)


def _rest(many: Many, horse: HorseRows, row: Row, now: Flags) -> None:
    """Rest by the calendar; growing at grass lets sessions go on."""
    ahead, today = row.job.ahead, many.yard.today
    begun = [(on - today).days for on in ahead.recent_days] if ahead.under_way else []
    start = np.full(many.columns, min(begun)) if begun else row.ready
    if ahead.stage.ends_at_months is not None:
        ends = reaches(horse.at_work.ahead.born, ahead.stage.ends_at_months)
        finish = np.full(many.columns, (ends - today).days)
    else:
        finish = start + (ahead.stage.rest_days or 1) - 1
        horse.away.append((np.where(now, row.ready, NEVER), finish))
    _end(many, horse, row, now, np.maximum(row.ready, finish))


def _end(many: Many, horse: HorseRows, row: Row, now: Flags, finish: Numbers) -> None:
    """Finish a step where ``now``; what waited for it may start on the day after."""
    now = now & (finish <= many.yard.last)
    row.finish = np.where(now, finish, row.finish)
    for place in row.job.after:
        other = horse.rows[place]
        other.missing = other.missing - now
        later = np.maximum(other.ready, finish + 1)
        other.ready = np.where(now, later, other.ready)
        free = now & (other.missing == 0)
        if free.any():
            _let_in(many, horse, other, free)


def _close(many: Many, horse: HorseRows, row: Row, now: Flags, day: int) -> None:
    row.opens = np.where(now, NEVER, row.opens)
    if (row.finish[~now] <= many.yard.last).all():
        horse.open.remove(row)
    _end(many, horse, row, now, np.full(many.columns, day))


def _work(many: Many, day: int) -> None:
    """Give a day's visits and sessions to the steps, in every column."""
    working = ~many.lost[day]
    turns: list[Turn] = []
    for horse in many.horses:
        if not horse.open or horse.at_work.marks[day] & NO_SESSION:
            continue
        here = working & ~horse.turned_away(day) if horse.away else working
        _take_single_days(many, horse, here, day)
        horse.had = np.zeros(many.columns, dtype=bool)
        mine = list(_turns(many, horse, here, day))
        span = slice(len(turns), len(turns) + len(mine))
        turns += [Turn(horse=horse, row=row, may=may, span=span) for row, may in mine]
    if turns:
        _take_sessions(many, turns, day)


def _take_single_days(many: Many, horse: HorseRows, here: Flags, day: int) -> None:
    if horse.at_work.marks[day] & NOTHING_NEW:
        return
    weekday = many.yard.weekday(day)
    for row in tuple(horse.open):
        if row.job.stage.kind != "sessions" and weekday in row.job.weekdays:
            now = here & (row.opens <= day)
            if now.any():
                _close(many, horse, row, now, day)


def _turns(
    many: Many, horse: HorseRows, here: Flags, day: int
) -> Iterator[tuple[Row, Flags]]:
    """Yield the steps that may have one of the day's sessions, and where."""
    if day == 0 and horse.at_work.taken_today:
        return
    weekday = many.yard.weekday(day)
    for row in horse.open:
        if row.job.stage.kind != "sessions" or not row.serves(weekday):
            continue
        may = here & row.may_take(many.yard, day)
        if horse.at_work.marks[day] & NOTHING_NEW:
            may &= row.begun
        if may.any():
            yield row, may


def _take_sessions(many: Many, turns: list[Turn], day: int) -> None:
    """Share out the day: in each column the longest path first, one at a time."""
    most = many.base * LONGEST_PATH
    scores = np.array([turn.row.score_on(day, most) for turn in turns])
    scores[~np.array([turn.may for turn in turns])] = TAKEN
    for _ in range(many.yard.days.sessions_a_day - many.yard.taken.get(day, 0)):
        first = scores.argmax(axis=0)
        some = scores.max(axis=0) > TAKEN
        if not some.any():
            return
        for place in sorted(set(first[some].tolist())):
            where = some & (first == place)
            _shut_out(many, turns, scores, place, where)
            _take(many, turns[place], where, day)


def _shut_out(
    many: Many, turns: list[Turn], scores: Numbers, place: int, where: Flags
) -> None:
    """Leave a horse no second session but of two steps that allow it."""
    turn = turns[place]
    span = scores[turn.span]
    second = where & turn.horse.had if turn.pairs else where
    span[:, second] = TAKEN
    if not turn.pairs:
        return
    for line, other in zip(span, turns[turn.span], strict=True):
        if not other.pairs:
            line[where] = TAKEN
    over = turn.row.left == 1
    scores[place, where & over] = TAKEN
    again = where & ~over & ~second
    scores[place, again] = (turn.row.score - many.base)[again]


def _take(many: Many, turn: Turn, where: Flags, day: int) -> None:
    row = turn.row
    row.note(day, where)
    turn.horse.had = turn.horse.had | where
    row.score = row.score - many.base * where
    done = where & (row.left == 0)
    if done.any():
        _close(many, turn.horse, row, done, day)
