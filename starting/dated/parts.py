"""The list of a diary in parts: the coming weeks open, the months after them folded."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from itertools import groupby
from typing import Final

from fitting.listed import listed
from starting.dated.months import Month, month_of
from starting.dated.rows import DiaryRow
from starting.dated.together import Together, together
from starting.diary import EntryKind

COMING_DAYS: Final = 28  # ours: four weeks ahead stand open
FEW: Final = 12  # ours: a list no longer than this is read without folding
COUNTED: Final[Mapping[EntryKind, tuple[str, str]]] = {
    "measure": ("measuring day", "measuring days"),
    "try_on": ("try-on", "try-ons"),
    "care": ("day of care", "days of care"),
    "get": ("thing to get", "things to get"),
    "stage_opens": ("step opens", "steps open"),
    "stage_starts": ("step starts", "steps start"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A month's entries in a list, or its last, those of many horses together."""

    month: Month
    told: tuple[Together, ...]
    is_open: bool
    is_rest: bool = False  # the month's first days stand in the part before

    @property
    def counted(self) -> str:
        """How many entries of each kind it has, in words."""
        counts = Counter(row.kind for of in self.told for row in of.rows)
        return listed(
            f"{counts[kind]} {words[counts[kind] > 1]}"
            for kind, words in COUNTED.items()
            if counts[kind]
        )


def open_until(month: Month, today: date) -> date:
    """Return the last day of a list that stands open: of this month, and four weeks."""
    if month != month_of(today):
        return month.last
    return max(month.last, today + timedelta(days=COMING_DAYS - 1))


def in_parts(rows: Sequence[DiaryRow], month: Month, today: date) -> tuple[Part, ...]:
    """Return the rows of a list that begins with a month, in parts.

    First what is open, even if that is nothing; then each month after it, folded
    unless the whole list is short. Of these the first is open where else all is folded.
    """
    until = open_until(month, today)
    soon = [row for row in rows if row.on <= until]
    later = groupby(rows[len(soon) :], key=lambda row: month_of(row.on))
    few = len(rows) <= FEW
    parts = [Part(month=month, told=_told(soon), is_open=True)]
    for then, of in later:
        is_open = few or (not soon and len(parts) == 1)
        is_rest = then.first <= until
        told = _told(of)
        parts.append(Part(month=then, told=told, is_open=is_open, is_rest=is_rest))
    return tuple(parts)


def _told(rows: Iterable[DiaryRow]) -> tuple[Together, ...]:
    """Return the rows of each day, those of many horses together."""
    by_day = groupby(_said_once(rows), key=lambda row: row.on)
    return tuple(of for _, day in by_day for of in together(tuple(day)))


def _said_once(rows: Iterable[DiaryRow]) -> Iterator[DiaryRow]:
    """Yield rows, where a reason of a day is not said again below itself."""
    before = None
    for row in rows:
        reason = (row.on, row.reason)
        yield replace(row, reason="") if reason == before else row
        before = reason
