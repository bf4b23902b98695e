"""One yard planned many times side by side: a column for each time, a row a step.

The rules are those of the day by day run in ``listing``; a test holds the two to
each other. Only what the draws need is kept: on which day each step ends.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from starting.schedule.days import WEEK
from starting.schedule.jobs import STARVES_DAYS, YardAtWork
from starting.schedule.rows import (
    NEVER,
    Days,
    Flags,
    Numbers,
    Places,
    Rows,
    rows_of,
)

TAKEN = -1  # below every score


def finishes(
    yard: YardAtWork, left: Mapping[tuple[str, str], Numbers], lost: Flags
) -> dict[tuple[str, str], Days]:
    """Return the day each step ends in each column, by horse and step.

    Args:
        yard: the yard with nothing planned yet.
        left: sessions needed a column, by horse and step; else the step's own.
        lost: a row a day, a column a time: on which days nobody gets to work.
    """
    names = [(h.ahead.horse, job.stage.key) for h in yard.horses for job in h.jobs]
    if not names:
        return {}
    rows = rows_of(yard, left, lost.shape[1])
    _let_in(rows, np.flatnonzero(rows.missing.ravel() == 0))
    day = 0
    while day <= yard.last:
        free = yard.weekday(day) in yard.days.free
        day = _work(rows, ~lost[day], day) if free else day + 1
    return dict(zip(names, rows.finish, strict=True))


def _work(rows: Rows, working: Flags, day: int) -> int:
    """Give a day's visits and sessions out in every column; return the next day."""
    open_rows = np.flatnonzero(rows.open)
    if not open_rows.size:
        return rows.yard.last + 1
    may = rows.next[open_rows] <= day
    if not may.any():
        return int(rows.next[open_rows].min())
    may &= working
    open_rows, may = _allowed(rows, open_rows, may, day)
    away = _turned_away(rows, day)
    if away is not None:
        may &= ~away[rows.fixed.horse[open_rows]]
    of_sessions = rows.fixed.of_sessions[open_rows]
    single = np.flatnonzero(~of_sessions)
    if single.size:
        at, columns = np.nonzero(may[single])
        _end(rows, open_rows[single[at]], columns, np.full(at.size, day, np.int16))
        open_rows, may = open_rows[of_sessions], may[of_sessions]
    if open_rows.size:
        _take_sessions(rows, open_rows, may, day)
    return day + 1


def _allowed(
    rows: Rows, open_rows: Places, may: Flags, day: int
) -> tuple[Places, Flags]:
    """Return the steps that may have a day, and where the calendar allows it."""
    allowed = rows.calendars.allowed_on(open_rows, day)
    kept = np.flatnonzero(allowed.any(axis=(1, 2)) & may.any(axis=1))
    open_rows, may, allowed = open_rows[kept], may[kept], allowed[kept]
    some = np.flatnonzero(~allowed.all(axis=(1, 2)))
    if some.size:
        at = open_rows[some]
        helped = (rows.helped[at] > 0).astype(np.intp)
        new = (~rows.begun[at]).astype(np.intp)
        may[some] &= allowed[some[:, np.newaxis], helped, new]
    return open_rows, may


def _turned_away(rows: Rows, day: int) -> Flags | None:
    """Return where each horse is turned away on a day; None: no horse is."""
    if day > rows.away_last:
        return None
    resting = np.flatnonzero(rows.fixed.rests)
    away = (rows.away_from[resting] <= day) & (day <= rows.away_to[resting])
    if not away.any():
        return None
    of_horse = np.zeros((len(rows.yard.horses), rows.columns), dtype=bool)
    np.logical_or.at(of_horse, rows.fixed.horse[resting], away)
    return of_horse


def _take_sessions(rows: Rows, open_rows: Places, may: Flags, day: int) -> None:
    """Share out the day: in each column the longest path first, one at a time."""
    scores = np.where(may, rows.score[open_rows], TAKEN)
    optional = np.flatnonzero(rows.fixed.optional[open_rows])
    if optional.size:
        starving = rows.since[open_rows[optional]] <= day - STARVES_DAYS
        scores[optional] += rows.starved * (starving & may[optional])
    room = rows.yard.days.sessions_a_day - rows.yard.taken.get(day, 0)
    had = np.zeros((len(rows.yard.horses), rows.columns), dtype=bool)
    for turn in range(room):
        first = scores.max(axis=0)
        columns = np.flatnonzero(first > TAKEN)
        if not columns.size:
            return
        taking = rows.in_turn[-first[columns] % rows.base]
        _take(rows, taking, columns, day)
        if turn < room - 1:
            _shut_out(rows, open_rows, scores, had, (taking, columns))


def _shut_out(
    rows: Rows,
    open_rows: Places,
    scores: Numbers,
    had: Flags,
    taken: tuple[Places, Places],
) -> None:
    """Leave a horse no second session but of two steps that allow it."""
    taking, columns = taken
    horses = rows.fixed.horse[taking]
    of_column = np.full(rows.columns, -1, dtype=np.intp)
    of_column[columns] = horses
    out = rows.fixed.horse[open_rows][:, np.newaxis] == of_column
    pairs = rows.fixed.two_a_day[taking] & ~had[horses, columns]
    had[horses, columns] = True
    if pairs.any():
        paired = np.zeros(rows.columns, dtype=bool)
        paired[columns] = pairs
        out &= ~(rows.fixed.two_a_day[open_rows][:, np.newaxis] & paired)
        again, at = taking[pairs], columns[pairs]
        goes_on = rows.left[again, at] > 0
        place = np.searchsorted(open_rows, again)
        scores[place, at] = np.where(goes_on, rows.score[again, at], TAKEN)
    scores[out] = TAKEN


def _take(rows: Rows, taking: Places, columns: Places, day: int) -> None:
    """Count a session of a day; a second one that day counts for the pace once."""
    cells = taking * rows.columns + columns
    last = rows.last.ravel()[cells]
    first = last != day
    monday = day - rows.yard.weekday(day)
    in_week = np.where(last >= monday, rows.in_week.ravel()[cells] + first, 1)
    longer = np.where(last == day - 1, rows.in_a_row.ravel()[cells] + 1, 1)
    in_a_row = np.where(first, longer, rows.in_a_row.ravel()[cells])
    left = rows.left.ravel()[cells] - 1
    helped = rows.helped.ravel()[cells] - 1
    rows.left.ravel()[cells] = left
    rows.helped.ravel()[cells] = helped
    rows.in_week.ravel()[cells] = in_week
    rows.in_a_row.ravel()[cells] = in_a_row
    rows.last.ravel()[cells] = day
    rows.since.ravel()[cells] = day
    rows.begun.ravel()[cells] = True
    rows.score.ravel()[cells] -= rows.cost[taking].astype(rows.score.dtype)
    _set_next(rows, cells, np.full(cells.size, day + 1, dtype=np.int16))
    done = left == 0
    if done.any():
        days = np.full(int(done.sum()), day, dtype=np.int16)
        _end(rows, taking[done], columns[done], days)


def _set_next(rows: Rows, cells: Places, day: Days) -> None:
    """Set the first day from ``day`` on, after the last one, that a step may have."""
    at = cells // rows.columns
    last = rows.last.ravel()[cells]
    row_is_full = rows.in_a_row.ravel()[cells] >= rows.fixed.in_a_row[at]
    day = day + (row_is_full & (last == day - 1))
    monday = last - (last + rows.yard.weekday(0)) % WEEK
    week_is_full = rows.in_week.ravel()[cells] >= rows.fixed.a_week[at]
    day = np.where(week_is_full, np.maximum(day, monday + WEEK), day)
    rows.next.ravel()[cells] = rows.calendars.next_from(
        at,
        day.astype(np.int16),
        helped=rows.helped.ravel()[cells] > 0,
        new=~rows.begun.ravel()[cells],
    )


def _end(rows: Rows, ending: Places, columns: Places, days: Days) -> None:
    """Finish steps; what waited for one may start on the day after."""
    in_time = days <= rows.yard.last
    ending, columns, days = ending[in_time], columns[in_time], days[in_time]
    if not ending.size:
        return
    rows.finish[ending, columns] = days
    rows.next[ending, columns] = NEVER
    rows.unfinished -= np.bincount(ending, minlength=len(rows.jobs))
    rows.open &= rows.unfinished > 0
    after = rows.fixed.after[ending]
    waits = after < len(rows.jobs)
    at = (after * rows.columns + columns[:, np.newaxis])[waits]
    then = np.broadcast_to((days + 1)[:, np.newaxis], after.shape)[waits]
    np.subtract.at(rows.missing.ravel(), at, 1)
    np.maximum.at(rows.ready.ravel(), at, then)
    _let_in(rows, np.unique(at[rows.missing.ravel()[at] == 0]))


def _let_in(rows: Rows, cells: Places) -> None:
    """Give steps their first possible day, now that nothing before is missing."""
    at = cells // rows.columns
    ready = np.maximum(rows.ready.ravel()[cells], rows.fixed.bound[at])
    rows.ready.ravel()[cells] = ready
    rows.since.ravel()[cells] = np.maximum(ready, rows.last.ravel()[cells])
    ahead = (ready <= rows.yard.last) & rows.fixed.dated[at]
    rests = rows.fixed.rests[at]
    works = ahead & ~rests
    first = np.maximum(ready, rows.fixed.from_day[at])
    _set_next(rows, cells[works], first[works])
    rows.open[at[works]] = True
    if (ahead & rests).any():
        _rest(rows, cells[ahead & rests])


def _rest(rows: Rows, cells: Places) -> None:
    """Rest by the calendar; growing at grass lets sessions go on."""
    at, columns = cells // rows.columns, cells % rows.columns
    no = np.zeros(cells.size, dtype=bool)
    begins = rows.calendars.next_from(at, rows.ready.ravel()[cells], helped=no, new=no)
    counts_from = rows.fixed.rest_counts_from[at]
    start = np.where(counts_from == NEVER, begins, counts_from)
    by_age = rows.fixed.rest_ends[at] != NEVER
    by_length = start + rows.fixed.rest_days[at] - 1
    finish = np.where(by_age, rows.fixed.rest_ends[at], by_length)
    away = ~by_age
    rows.away_from.ravel()[cells[away]] = begins[away]
    rows.away_to.ravel()[cells[away]] = finish[away]
    rows.away_last = max(rows.away_last, int(finish[away].max(initial=-1)))
    _end(rows, at, columns, np.maximum(begins, finish).astype(np.int16))
