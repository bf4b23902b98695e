"""What became of an entry that has gone from the diary, told by the records."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Final

from starting.dated.doing import LENT, Record, doing_of, is_plain
from starting.dated.standing import Standing
from starting.diary import Entry, task_of


@dataclass(frozen=True, slots=True, kw_only=True)
class TickRow:
    """A tick of a plain task: which, on which of its days, by whom and when."""

    key: str
    due_on: date
    on: date
    who: str
    pk: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Records:
    """The days of one horse's records, each ascending."""

    measured: tuple[tuple[str, date], ...] = ()  # measure
    visits: tuple[tuple[str, date], ...] = ()  # kind
    tried: tuple[tuple[str, date], ...] = ()  # kind of tack
    got: tuple[tuple[str, str, date], ...] = ()  # kind, part
    sessions: tuple[tuple[str, date], ...] = ()  # step
    steps: tuple[tuple[str, str, date], ...] = ()  # step, state in words
    returned: tuple[tuple[str, date], ...] = ()  # task of the loan
    ticks: tuple[TickRow, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Gone:
    """An entry as it stood last: first published, and gone, on which days."""

    entry: Entry
    since: date
    gone_on: date


@dataclass(frozen=True, slots=True, kw_only=True)
class Became:
    """What became of an entry; ``record``: what tells so, ``on`` its day."""

    standing: Standing
    words: str
    on: date | None = None
    record: Record | None = None
    tick: int = 0  # of a tick: its row, to be taken back

    @property
    def is_told(self) -> bool:
        """Whether a record tells it."""
        return self.record is not None


def became(gone: Gone, records: Records) -> Became:
    """Return what became of an entry; no record of it is said plainly."""
    found = _TELL[doing_of(gone.entry).record](gone, records)
    if found is not None:
        return found
    if is_plain(gone.entry) and gone.entry.on <= gone.gone_on:
        return Became(standing="went", words=f"Its day was {_day(gone.entry.on)}.")
    day = _day(gone.gone_on)
    return Became(
        standing="went", words=f"Not asked for any more since {day}; no record of it."
    )


def is_shown(gone: Gone, told: Became) -> bool:
    """Whether it belongs in the diary's past: its day had come, or it was done.

    What came and went within a day, while somebody wrote, was never more than a plan.
    """
    lasted = gone.since < gone.gone_on
    return told.is_told or (lasted and gone.entry.on <= gone.gone_on)


def _measured(gone: Gone, records: Records) -> Became | None:
    """The day that its name counts: the fourth day of a measure makes four true."""
    leader, _, count = task_of(gone.entry.key).rpartition("-")
    days = sorted({on for measure, on in records.measured if measure == leader})
    return _told("measure", _nth(days, count), "Measured on")


def _visited(gone: Gone, records: Records) -> Became | None:
    kind, _, count = task_of(gone.entry.key).rpartition("-")
    days = [on for of, on in records.visits if of == kind]
    return _told("visit", _nth(days, count), "Written in as done on")


def _given_back(gone: Gone, records: Records) -> Became | None:
    task = task_of(gone.entry.key)
    days = (on for name, on in records.returned if f"{LENT}{name}" == task)
    return _told("given_back", next(days, None), "Given back on")


def _got(gone: Gone, records: Records) -> Became | None:
    doing = doing_of(gone.entry)
    what = (doing.what, doing.part)
    days = (on for kind, part, on in records.got if (kind, part) == what)
    return _told("got", _last(days, gone), "Ticked off as got on")


def _tried(gone: Gone, records: Records) -> Became | None:
    kind = doing_of(gone.entry).what
    days = (on for of, on in records.tried if of == kind)
    return _told("try_on", _last(days, gone), "A try-on is written down for")


def _begun(gone: Gone, records: Records) -> Became | None:
    stage = doing_of(gone.entry).what
    days = (on for of, on in records.sessions if of == stage)
    begun = min((on for on in days if _between(on, gone)), default=None)
    if begun is not None:
        return _told("session", begun, "Begun on")
    set_by_hand = (one for one in records.steps if one[0] == stage)
    for _, state, on in set_by_hand:
        return _told("session", on, f"Written down as {state} on")
    return None


def _ticked(gone: Gone, records: Records) -> Became | None:
    of_it = (tick for tick in records.ticks if tick.key == gone.entry.key)
    tick = next((tick for tick in of_it if tick.due_on == gone.entry.on), None)
    if tick is None:
        return None
    words = f"Ticked by {tick.who or 'somebody'} on {_day(tick.on)}."
    return Became(standing="done", words=words, on=tick.on, record="tick", tick=tick.pk)


_TELL: Final[Mapping[Record, Callable[[Gone, Records], Became | None]]] = {
    "measure": _measured,
    "visit": _visited,
    "given_back": _given_back,
    "got": _got,
    "try_on": _tried,
    "session": _begun,
    "tick": _ticked,
}


def _told(record: Record, on: date | None, how: str) -> Became | None:
    if on is None:
        return None
    return Became(standing="done", words=f"{how} {_day(on)}.", on=on, record=record)


def _nth(days: list[date], count: str) -> date | None:
    """Return the day that a count names, from 1; None: not so many yet."""
    number = int(count) if count.isdecimal() else 0
    return days[number - 1] if 0 < number <= len(days) else None


def _last(days: Iterable[date], gone: Gone) -> date | None:
    return max((on for on in days if _between(on, gone)), default=None)


def _between(on: date, gone: Gone) -> bool:
    return min(gone.since, gone.entry.on) <= on <= gone.gone_on


def _day(on: date) -> str:
    return f"{on.day} {on:%b %Y}"
