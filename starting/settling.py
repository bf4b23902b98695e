"""What of a new diary is published: small moves are not, due entries keep their day."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Final

from starting.diary import FORECAST, NOTEBOOK, OVERDUE, Entry
from starting.schedule.days import MONTHS

FORECAST_MOVES_FROM_DAYS: Final = 3  # ours: less is noise in somebody's calendar
OVERDUE_AFTER_DAYS: Final = 7  # ours: a week, so that a weekend yard has one more go
PUT_OFF_BEYOND_DAYS: Final = 7  # ours: every free weekday comes round within a week
NOT_DONE: Final = "Not done yet: its page says the plan's next day for it."
# a day as the reasons write it, "Saturday 13 Mar 2027"
_DAY: Final = re.compile(
    rf"(?:[A-Z][a-z]+day )?(\d{{1,2}}) ({'|'.join(MONTHS)}) (\d{{4}})"
)


def settle(
    before: Sequence[Entry],
    now: Sequence[Entry],
    today: date,
    *,
    only_the_day: bool = False,
) -> tuple[Entry, ...]:
    """Return the entries to publish: forecasts keep still, due ones keep their day.

    Entries are matched by key; what is no longer wanted is not in the result; of two
    entries with one key the earlier stays. The result is sorted by day and key. Ours:

    - a forecast keeps its published day until the plan is 3 days or more away from
      it, so small moves cannot add up unseen;
    - an entry whose published day has come keeps that day, is no forecast any more,
      and from the seventh day after it the title says overdue;
    - it keeps it only while the plan wants it within a week: further off means put
      off, or done and due again, and the old day would urge what is not wanted now;
    - the text of an overdue entry says where the plan's own day for it stands: that
      day may be another every day;
    - an entry never published before that lies in the past is due since its day;
    - where nothing was written and only a day has passed, an entry whose day and
      title stay keeps its text too, until a day named there moves by 3 days or more.

    Args:
        before: what was published last.
        now: what the plan wants published.
        today: the day at the yard.
        only_the_day: nothing at the yard was written since the last publishing, and
            the program is the same.
    """
    former, wanted = _by_key(before), _by_key(now)
    settled = []
    for key, new in wanted.items():
        old = former.get(key)
        entry = _settled(old, new, today)
        keeps = only_the_day and old is not None
        settled.append(_kept(old, entry, wanted) if old and keeps else entry)
    return tuple(sorted(settled, key=_order))


def _order(entry: Entry) -> tuple[date, str]:
    return entry.on, entry.key


def _by_key(entries: Iterable[Entry]) -> dict[str, Entry]:
    first: dict[str, Entry] = {}
    for entry in entries:
        there = first.get(entry.key)
        if there is None or (entry.on, repr(entry)) < (there.on, repr(there)):
            first[entry.key] = entry
    return first


def _settled(old: Entry | None, new: Entry, today: date) -> Entry:
    on = new.on if old is None else _day(old.on, new, today)
    if on > today:
        still = new.on == on and new.due_since is None
        return new if still else replace(new, on=on, due_since=None)
    late = today - on >= timedelta(days=OVERDUE_AFTER_DAYS)
    return replace(
        new,
        on=on,
        due_since=on,
        forecast=False,
        title=new.title + OVERDUE if late else new.title,
        text=_due_text(new.text, late=late),
    )


def _day(published: date, new: Entry, today: date) -> date:
    if published <= today:
        put_off = new.on - today > timedelta(days=PUT_OFF_BEYOND_DAYS)
        return new.on if put_off else published
    moved_days = abs((new.on - published).days)
    forecast = new.forecast and new.on > today
    return published if forecast and moved_days < FORECAST_MOVES_FROM_DAYS else new.on


def _due_text(text: str, *, late: bool) -> str:
    lines = [line for line in text.split("\n") if line != FORECAST]
    if late:
        where = len(lines) - 1 if lines[-1:] == [NOTEBOOK] else len(lines)
        lines.insert(where, NOT_DONE)
    return "\n".join(lines)


def _kept(old: Entry, new: Entry, wanted: Collection[str]) -> Entry:
    """Return the new entry in its old words, where they still say what is meant."""
    if _task(old) != _task(new):
        return new
    if not _days_moved(old.text, new.text):
        new = replace(new, text=old.text, others=old.others)
    return replace(new, after=old.after) if {*old.after} <= {*wanted} else new


def _task(entry: Entry) -> tuple[object, ...]:
    return entry.on, entry.title, entry.forecast, entry.horse, entry.path


def _days_moved(old: str, new: str) -> bool:
    """Whether two texts are alike but for a day that moved too far to keep still."""
    if _DAY.sub("", old) != _DAY.sub("", new):
        return False
    pairs = zip(_DAY.findall(old), _DAY.findall(new), strict=True)
    moves = (abs((_read(*a) - _read(*b)).days) for a, b in pairs)
    return any(moved >= FORECAST_MOVES_FROM_DAYS for moved in moves)


def _read(day: str, month: str, year: str) -> date:
    return date(int(year), MONTHS.index(month) + 1, int(day))
